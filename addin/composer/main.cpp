// slipbark_compose FOLDER FILE                      writes the workbook whose text is in the folder, as .fods
// slipbark_compose --language TAG MO FOLDER FILE    the same in a language, from the messages that msgfmt made of it
// slipbark_compose --texts FILE FOLDER...           writes the texts of workbooks for translators, a .pot
//
// A file that would not change is left as it is, so that nothing is built again from it.
#include <exception>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <iterator>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

#include "composer/pot.hpp"
#include "composer/read.hpp"
#include "composer/text_collector.hpp"

namespace {

using slipbark::catalogue::Language;
using slipbark::compose::read_workbook;
using slipbark::compose::TextCollector;

std::string content(const std::filesystem::path& path) {
    std::ifstream in(path, std::ios::binary);
    return {std::istreambuf_iterator<char>(in), {}};
}

void write(const std::filesystem::path& path, const std::string& text) {
    if (content(path) == text) return;
    std::ofstream out(path, std::ios::binary);
    out << text;
    if (!out.flush()) throw std::runtime_error("cannot write " + path.string());
}

int run(const std::vector<std::string_view>& arguments) {
    const std::size_t count = arguments.size();
    const std::string_view option = arguments.empty() ? std::string_view() : arguments.front();
    if (option == "--language" && count == 5) {
        const std::string messages = content(arguments[2]);
        TextCollector texts{Language(arguments[1], messages)};
        write(arguments[4], read_workbook(arguments[3])->write(texts));
    } else if (option == "--texts" && count > 2) {
        TextCollector texts{Language()};
        for (std::size_t at = 2; at < count; ++at) (void)read_workbook(arguments[at])->write(texts);
        write(arguments[1], slipbark::compose::pot(texts.collected()));
    } else if (count == 2 && !option.starts_with("--")) {
        write(arguments[1], read_workbook(arguments[0])->write());
    } else {
        std::cerr << "slipbark_compose [--language TAG MO] FOLDER FILE, or --texts FILE FOLDER...\n";
        return 2;
    }
    return 0;
}

}  // namespace

int main(int count, char** values) {
    try {
        return run({values + 1, values + count});
    } catch (const std::exception& error) {
        std::cerr << "slipbark_compose: " << error.what() << '\n';
        return 1;
    }
}
