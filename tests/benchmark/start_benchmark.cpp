// What the extension costs where it is not used, and at its first use: start of the office with and without it, size of
// the library, memory. Prints tables in Markdown.

#include <fcntl.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <chrono>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <map>
#include <stdexcept>

#include "catalogue.hpp"
#include "measure.hpp"
#include "office.hpp"

namespace slipbark::benchmarks {

namespace {

using office::Book;
using office::Office;

struct Spent {
    double wall = 0;
    double processor = 0;
};

/// Runs an office with these words to its end.
Spent run_office(std::vector<std::string> words) {
    words.insert(words.begin(), std::string(SLIPBARK_OFFICE_PROGRAM) + "/soffice.bin");
    std::vector<char*> pointers;
    for (auto& word : words) pointers.push_back(word.data());
    pointers.push_back(nullptr);
    const auto before = std::chrono::steady_clock::now();
    const pid_t process = fork();
    if (process < 0) throw std::runtime_error("cannot start the office");
    if (process == 0) {
        const int nowhere = open("/dev/null", O_RDWR);
        dup2(nowhere, STDOUT_FILENO);
        dup2(nowhere, STDERR_FILENO);
        execv(pointers[0], pointers.data());
        _exit(127);
    }
    int status = 0;
    rusage usage{};
    if (wait4(process, &status, 0, &usage) != process || !WIFEXITED(status))
        throw std::runtime_error("the office fell");
    // 81: it took up an extension and wants to be started again, as at the very first start of a profile.
    if (WEXITSTATUS(status) != 0 && WEXITSTATUS(status) != 81) throw std::runtime_error("the office failed");
    const std::chrono::duration<double> wall = std::chrono::steady_clock::now() - before;
    const auto seconds = [](const timeval& time) {
        return static_cast<double>(time.tv_sec) + static_cast<double>(time.tv_usec) * 1e-6;
    };
    return {wall.count(), seconds(usage.ru_utime) + seconds(usage.ru_stime)};
}

/// Starts of the office with profiles that are kept, as a user's is.
void starts(const std::filesystem::path& folder) {
    const std::filesystem::path sheet = folder / "empty.csv";
    std::ofstream(sheet) << "1\n";
    constexpr int start_rounds = 15;
    const Report report("Start of the office with the extension against without, median of " +
                            std::to_string(start_rounds) + " starts in turns",
                        {"start", "without, ms on the wall", "with, ms on the wall", "ratio of wall times",
                         "ratio of processor times", "goal 1.02"});
    const std::vector<std::pair<std::string, std::vector<std::string>>> kinds{
        {"to the end of the start", {"--terminate_after_init"}},
        {"and a spreadsheet opened and converted",
         {"--convert-to", "ods", "--outdir", (folder / "out").string(), sheet.string()}}};
    for (const auto& [name, words] : kinds) {
        std::vector<std::string> without{"--headless", "--norestore", "--nologo", "--nodefault"};
        std::vector<std::string> with = without;
        without.push_back("-env:UserInstallation=" + office::file_url(folder / "without"));
        with.push_back("-env:UserInstallation=" + office::file_url(folder / "with"));
        with.push_back(std::string("-env:BUNDLED_EXTENSIONS=") + office::file_url(SLIPBARK_BUNDLED));
        without.insert(without.end(), words.begin(), words.end());
        with.insert(with.end(), words.begin(), words.end());
        for (int warm = 0; warm < 3; ++warm) {
            run_office(without);
            run_office(with);
        }
        std::vector<double> walls_without;
        std::vector<double> walls_with;
        std::vector<double> walls;
        std::vector<double> processors;
        for (int round = 0; round < start_rounds; ++round) {
            const bool turned = round % 2 == 1;
            const Spent first = run_office(turned ? with : without);
            const Spent second = run_office(turned ? without : with);
            const Spent& a = turned ? second : first;
            const Spent& b = turned ? first : second;
            walls_without.push_back(a.wall * 1e3);
            walls_with.push_back(b.wall * 1e3);
            walls.push_back(b.wall / a.wall);
            processors.push_back(b.processor / a.processor);
        }
        report.row({name, Report::number(median(walls_without), 0), Report::number(median(walls_with), 0),
                    Report::number(median(walls), 3), Report::number(median(processors), 3),
                    median(processors) <= 1.02 ? "kept" : "missed"});
    }
}

/// A line of /proc/<pid>/smaps_rollup or status, in KiB.
double kib(int process, const std::string& file, const std::string& name) {
    std::ifstream in("/proc/" + std::to_string(process) + "/" + file);
    for (std::string line; std::getline(in, line);) {
        if (line.starts_with(name + ":")) return std::stod(line.substr(name.size() + 1));
    }
    throw std::runtime_error("no " + name + " in " + file);
}

struct Memory {
    double rss = 0;
    double own = 0;  ///< what no other process shares
};

Memory memory_of(int process) {
    return {kib(process, "status", "VmRSS"),
            kib(process, "smaps_rollup", "Private_Dirty") + kib(process, "smaps_rollup", "Private_Clean")};
}

/// Memory that the first use of formulas adds to a running Calc. Before it, a shipped add-in function of the host has
/// been used, so that what the host loads for any add-in is there already.
Memory first_use(const std::vector<std::string>& formulas) {
    const Office office({.bundled = SLIPBARK_BUNDLED, .profile = {}, .words = {}});
    const Book book = office.new_book();
    if (book.calculate("=EDATE(46271;1)").error != 0) throw std::runtime_error("no EDATE");
    book.recalculate();
    const Memory before = memory_of(office.process());
    for (const auto& formula : formulas) {
        if (book.calculate(formula).error != 0) throw std::runtime_error("error in " + formula);
    }
    const Memory after = memory_of(office.process());
    return {after.rss - before.rss, after.own - before.own};
}

void size_and_memory() {
    const Report report("Size and memory", {"what", "KiB", "goal"});
    const auto size = static_cast<double>(std::filesystem::file_size(std::filesystem::path(SLIPBARK_BUNDLED) /
                                                                     "slipbark" / "libslipbark.so")) /
                      1024;
    report.row({"library, stripped", Report::number(size, 0), size <= 1024 ? "under 1 MiB: kept" : "missed"});
    std::vector<std::string> examples;
    for (const auto& area : catalogue::areas()) {
        for (const auto& entry : area.entries) {
            // Arrays are written with the signs of the office's own grammar, which the examples here do without.
            if (entry.texts.example.find('{') == std::string_view::npos) {
                examples.push_back("=" + std::string(entry.texts.example));
            }
        }
    }
    const std::map<std::string, std::vector<std::string>> uses{
        {"first function", {"=REWORK.STICKS(3200;2;9;0.15)"}},
        {"all functions that take single values", examples},
        {"for comparison: nothing of ours (SUM)", {"=SUM(1;2)"}}};
    for (const auto& [name, formulas] : uses) {
        std::vector<double> rss;
        std::vector<double> own;
        for (int round = 0; round < rounds; ++round) {
            const Memory added = first_use(formulas);
            rss.push_back(added.rss);
            own.push_back(added.own);
        }
        report.row({"memory added by first use, " + name + ", resident", Report::number(median(rss), 0),
                    median(rss) <= 3072 ? "under 3 MiB: kept" : "missed"});
        report.row({"the same, private to the process", Report::number(median(own), 0),
                    median(own) <= 3072 ? "under 3 MiB: kept" : "missed"});
    }
}

}  // namespace

}  // namespace slipbark::benchmarks

int main() {
    using namespace slipbark::benchmarks;
    std::string pattern = (std::filesystem::temp_directory_path() / "slipbark-start-XXXXXX").string();
    if (mkdtemp(pattern.data()) == nullptr) return 1;
    int code = 0;
    try {
        starts(pattern);
        size_and_memory();
    } catch (const com::sun::star::uno::Exception& error) {
        std::cerr << "the office refused: " << slipbark::office::utf8(error.Message) << "\n";
        code = 1;
    } catch (const std::exception& error) {
        std::cerr << error.what() << "\n";
        code = 1;
    }
    std::filesystem::remove_all(pattern);
    return code;
}
