// slipbark_compose DIRECTORY          writes all workbooks
// slipbark_compose --check DIRECTORY  compares those there with what would be written; says where they differ
#include <exception>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <iterator>
#include <sstream>
#include <string>
#include <string_view>
#include <vector>

#include "workbooks/workbooks.hpp"

namespace {

struct Made {
    const char* file;
    std::string (*write)();
};

constexpr Made all[]{
#define SLIPBARK_WORKBOOK(composer, file, menu_title, category) {file ".fods", slipbark::compose::composer},
#include "workbooks/registry.def"
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

int run(const std::vector<std::string_view>& arguments) {
    const bool check = !arguments.empty() && arguments.front() == "--check";
    if (arguments.size() != (check ? 2 : 1)) {
        std::cerr << "slipbark_compose [--check] DIRECTORY\n";
        return 2;
    }
    const std::filesystem::path directory(arguments.back());
    int differing = 0;
    for (const Made& workbook : all) {
        const auto path = directory / workbook.file;
        const std::string text = workbook.write();
        if (!check) {
            std::ofstream out(path, std::ios::binary);
            out << text;
            if (!out.flush()) {
                std::cerr << "cannot write " << path << '\n';
                return 1;
            }
        } else if (const int line = first_difference(content(path), text); line > 0) {
            std::cerr << path.string() << ':' << line << ": is not what slipbark_compose writes; run it and commit\n";
            ++differing;
        }
    }
    return differing == 0 ? 0 : 1;
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
