// Makes the templates that the extension carries: opens each flat workbook with the extension loaded, so that its
// formulas keep their names and values, calculates it and saves it as .ots in the folder of its language and category.

#include <iostream>
#include <stdexcept>

#include "catalogue/language.hpp"
#include "office/office.hpp"
#include "composer/registry.hpp"

namespace {

using namespace slipbark::office;
using slipbark::catalogue::Language;

void make(const Office& office, const std::filesystem::path& composed, const Language& language,
          const std::filesystem::path& out) {
    for (const auto& workbook : slipbark::workbooks::all) {
        const auto folder = out / template_folder(language) / language.translated(workbook.category);
        std::filesystem::create_directories(folder);
        const std::string name(workbook.file);
        // In a window of the headless office: a hidden document has no view, and saves neither frozen panes nor cursor.
        const Book book = office.open_url(file_url(composed / (name + ".fods")), true, false);
        book.recalculate();
        if (const auto errors = book.errors(); !errors.empty()) throw std::runtime_error("error in " + errors[0]);
        book.save_as(folder / (name + ".ots"), "calc8_template");
    }
}

}  // namespace

int main(int count, char** words) {
    try {
        if (count < 5 || count % 2 == 0) {
            throw std::invalid_argument("usage: slipbark_make_templates EXTENSIONS OUT TAG COMPOSED [TAG COMPOSED]...");
        }
        const Office office({.bundled = words[1], .profile = {}, .words = {}});
        for (int at = 3; at + 1 < count; at += 2) {
            make(office, words[at + 1], slipbark::catalogue::language_for(words[at]), words[2]);
        }
        return 0;
    } catch (const css::uno::Exception& error) {
        std::cerr << utf8(error.Message) << "\n";
    } catch (const std::exception& error) {
        std::cerr << error.what() << "\n";
    }
    return 1;
}
