// slipbark_compose FOLDER FILE                    writes the workbook whose text is in the folder
// slipbark_compose DIRECTORY                      writes all workbooks
// slipbark_compose --check DIRECTORY              compares those there with what would be written; says where they
// differ slipbark_compose --language TAG FILE DIRECTORY  writes them in a language, from the messages that msgfmt made
// of it slipbark_compose --texts FILE                   writes their texts for translators, a .pot
#include <exception>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <iterator>
#include <sstream>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

#include "composer/pot.hpp"
#include "composer/read.hpp"
#include "composer/sheet.hpp"
#include "composer/speaker.hpp"
#include "composer/workbooks.hpp"

namespace {

struct Made {
    const char* file;
    std::string (*write)();
};

constexpr Made all[]{
#define SLIPBARK_WORKBOOK(composer, file, menu_title, category) {file ".fods", slipbark::compose::composer},
#include "composer/registry.def"
#undef SLIPBARK_WORKBOOK
};

std::string content(const std::filesystem::path& path) {
    std::ifstream in(path, std::ios::binary);
    return {std::istreambuf_iterator<char>(in), {}};
}

/// The first line in which two files differ, counted from 1; 0 where they are the same.
int first_difference(const std::string& one, const std::string& other) {
    if (one == other) return 0;
    std::istringstream left(one);
    std::istringstream right(other);
    std::string left_line;
    std::string right_line;
    int line = 1;
    while (std::getline(left, left_line) && std::getline(right, right_line) && left_line == right_line) ++line;
    return line;
}

void write(const std::filesystem::path& path, const std::string& text) {
    std::ofstream out(path, std::ios::binary);
    out << text;
    if (!out.flush()) throw std::runtime_error("cannot write " + path.string());
}

void write_all(const std::filesystem::path& directory) {
    for (const Made& workbook : all) write(directory / workbook.file, workbook.write());
}

int check_all(const std::filesystem::path& directory) {
    int differing = 0;
    for (const Made& workbook : all) {
        const auto path = directory / workbook.file;
        if (const int line = first_difference(content(path), workbook.write()); line > 0) {
            std::cerr << path.string() << ':' << line << ": is not what slipbark_compose writes; run it and commit\n";
            ++differing;
        }
    }
    return differing == 0 ? 0 : 1;
}

void write_texts(const std::filesystem::path& path) {
    slipbark::compose::Speaker speaker{slipbark::catalogue::Language()};
    slipbark::compose::write_in(&speaker);
    for (const Made& workbook : all) workbook.write();
    write(path, slipbark::compose::pot(speaker.said()));
}

int run(const std::vector<std::string_view>& arguments) {
    const std::size_t count = arguments.size();
    const std::string_view option = arguments.empty() ? std::string_view() : arguments.front();
    if (option == "--language" && count == 4) {
        const std::string messages = content(arguments[2]);
        slipbark::compose::Speaker speaker{slipbark::catalogue::Language(arguments[1], messages)};
        slipbark::compose::write_in(&speaker);
        write_all(arguments[3]);
    } else if (option == "--check" && count == 2) {
        return check_all(arguments[1]);
    } else if (option == "--texts" && count == 2) {
        write_texts(arguments[1]);
    } else if (count == 2 && !option.starts_with("--")) {
        write(arguments[1], slipbark::compose::read_workbook(arguments[0])->write());
    } else if (count == 1 && !option.starts_with("--")) {
        write_all(arguments[0]);
    } else {
        std::cerr << "slipbark_compose [--check | --language TAG FILE] DIRECTORY, or --texts FILE\n";
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
