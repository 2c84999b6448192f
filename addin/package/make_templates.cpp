// Makes the templates that the extension carries: opens each flat workbook with the extension loaded, so that its
// formulas keep their names and values, calculates it and saves it as .ots in the folder of its language and category.
// A template that is newer than its workbook and the extension is left as it is.

#include <algorithm>
#include <iostream>
#include <stdexcept>
#include <vector>

#include "catalogue/language.hpp"
#include "composer/registry.hpp"
#include "office/office.hpp"

namespace {

using namespace slipbark::office;
using slipbark::catalogue::Language;
using std::filesystem::path;

struct Template {
    path composed;
    path made;
};

std::vector<Template> templates_of(const path& composed, const Language& language, const path& out) {
    std::vector<Template> all;
    for (const auto& workbook : slipbark::workbooks::all) {
        const std::string name(workbook.file);
        const path folder = out / template_folder(language) / language.translated(workbook.category);
        all.push_back({composed / (name + ".fods"), folder / (name + ".ots")});
    }
    return all;
}

/// Those of workbooks that are no more.
void remove_others(const path& out, const std::vector<Template>& all) {
    std::vector<path> others;
    for (const auto& entry : std::filesystem::recursive_directory_iterator(out)) {
        const bool wanted =
            std::any_of(all.begin(), all.end(), [&](const Template& one) { return one.made == entry.path(); });
        if (entry.is_regular_file() && entry.path().extension() == ".ots" && !wanted) others.push_back(entry.path());
    }
    for (const path& other : others) std::filesystem::remove(other);
}

void make(const Office& office, const Template& one) {
    std::filesystem::create_directories(one.made.parent_path());
    // In a window of the headless office: a hidden document has no view, and saves neither frozen panes nor cursor.
    const Book book = office.open_url(file_url(one.composed), true, false);
    if (const auto errors = book.errors(); !errors.empty()) throw std::runtime_error("error in " + errors[0]);
    book.save_as(one.made, "calc8_template");
}

void run(const std::vector<std::string>& words) {
    const path out = words[1];
    std::vector<Template> all;
    for (std::size_t at = 2; at + 1 < words.size(); at += 2) {
        const auto more = templates_of(words[at + 1], slipbark::catalogue::language_for(words[at]), out);
        all.insert(all.end(), more.begin(), more.end());
    }
    std::filesystem::create_directories(out);
    remove_others(out, all);
    const auto extension = std::filesystem::last_write_time(path(words[0]) / "stamp");
    std::erase_if(all, [&](const Template& one) {
        return std::filesystem::exists(one.made) &&
               std::filesystem::last_write_time(one.made) >
                   std::max(extension, std::filesystem::last_write_time(one.composed));
    });
    if (all.empty()) return;
    const Office office({.bundled = words[0], .profile = {}, .words = {}});
    for (const Template& one : all) make(office, one);
}

}  // namespace

int main(int count, char** words) {
    try {
        if (count < 5 || count % 2 == 0) {
            throw std::invalid_argument("usage: slipbark_make_templates EXTENSIONS OUT TAG COMPOSED [TAG COMPOSED]...");
        }
        run({words + 1, words + count});
        return 0;
    } catch (const css::uno::Exception& error) {
        std::cerr << utf8(error.Message) << "\n";
    } catch (const std::exception& error) {
        std::cerr << error.what() << "\n";
    }
    return 1;
}
