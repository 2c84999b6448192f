// Makes the templates that the extension carries: opens each flat workbook with the extension loaded, so that its
// formulas keep their names and values, calculates it and saves it as .ots in the folder of its category.

#include <iostream>
#include <stdexcept>

#include "office/office.hpp"
#include "workbooks/registry.hpp"

int main(int count, char** words) {
    using namespace slipbark::office;
    try {
        if (count != 4) throw std::invalid_argument("usage: slipbark_make_templates EXTENSIONS COMPOSED OUT");
        const std::filesystem::path composed = words[2];
        const std::filesystem::path out = words[3];
        const Office office({.bundled = words[1], .profile = {}, .words = {}});
        for (const auto& workbook : slipbark::workbooks::all) {
            const auto folder = out / workbook.category;
            std::filesystem::create_directories(folder);
            const std::string name(workbook.file);
            // In a window of the headless office: a hidden document has no view, and saves neither frozen panes nor
            // cursor.
            const Book book = office.open_url(file_url(composed / (name + ".fods")), true, false);
            book.recalculate();
            if (const auto errors = book.errors(); !errors.empty()) throw std::runtime_error("error in " + errors[0]);
            book.save_as(folder / (name + ".ots"), "calc8_template");
        }
        return 0;
    } catch (const css::uno::Exception& error) {
        std::cerr << utf8(error.Message) << "\n";
    } catch (const std::exception& error) {
        std::cerr << error.what() << "\n";
    }
    return 1;
}
