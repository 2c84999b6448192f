// Makes the templates that the extension carries: opens each flat workbook with the extension loaded, so that its
// formulas keep their names and values, calculates it and saves it as .ots.

#include <iostream>
#include <stdexcept>

#include "office/office.hpp"

int main(int count, char** words) {
    using namespace slipbark::office;
    try {
        if (count < 4) throw std::invalid_argument("usage: slipbark_make_templates EXTENSIONS OUT WORKBOOK...");
        const Office office({.bundled = words[1], .profile = {}, .words = {}});
        for (int at = 3; at < count; ++at) {
            const std::filesystem::path workbook = words[at];
            const Book book = office.copy_of(workbook);
            book.recalculate();
            if (const auto errors = book.errors(); !errors.empty()) throw std::runtime_error("error in " + errors[0]);
            book.save_as(std::filesystem::path(words[2]) / workbook.stem().concat(".ots"), "calc8_template");
        }
        return 0;
    } catch (const css::uno::Exception& error) {
        std::cerr << utf8(error.Message) << "\n";
    } catch (const std::exception& error) {
        std::cerr << error.what() << "\n";
    }
    return 1;
}
