// What the extension costs where it is not used, and at its first use: start of the office with and without it, size of
// the library, memory. Prints tables in Markdown.
//   start_benchmark           beside an office without the extension
//   start_benchmark FOLDER    beside the package in FOLDER (the build/bundled of another state)

#include <fcntl.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <chrono>
#include <csignal>
#include <filesystem>
#include <fstream>
#include <functional>
#include <iostream>
#include <map>
#include <stdexcept>

#include "catalogue/catalogue.hpp"
#include "measure.hpp"
#include "office/office.hpp"

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
    pointers.reserve(words.size() + 1);
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

/// Processor time from the start of an office until the first formula of a new spreadsheet has its value. An add-in
/// function of the host's, so that the list of all add-in functions has been read.
Spent first_formula(const std::filesystem::path& bundled, const std::filesystem::path& profile) {
    const auto before = std::chrono::steady_clock::now();
    const Office office({.bundled = bundled, .profile = profile, .words = {}});
    if (office.new_book().calculate("=EDATE(46271;1)").error != 0) throw std::runtime_error("no EDATE");
    const std::chrono::duration<double> wall = std::chrono::steady_clock::now() - before;
    const Spent spent{wall.count(), processor_seconds(office.process())};
    kill(office.process(), SIGKILL);  // to end in good order takes ten seconds, and nothing is to be kept
    return spent;
}

/// One way to start: with the extension, or with what it is compared to.
using Way = std::function<Spent(bool with)>;

void compare(const Report& report, const std::string& name, int times, const Way& way) {
    for (const bool with : {false, true, false, true}) way(with);
    std::vector<double> walls_without;
    std::vector<double> walls_with;
    std::vector<double> walls;
    std::vector<double> processors;
    for (int round = 0; round < times; ++round) {
        const bool turned = round % 2 == 1;
        const Spent first = way(turned);
        const Spent second = way(!turned);
        const Spent& without = turned ? second : first;
        const Spent& with = turned ? first : second;
        walls_without.push_back(without.wall * 1e3);
        walls_with.push_back(with.wall * 1e3);
        walls.push_back(with.wall / without.wall);
        processors.push_back(with.processor / without.processor);
    }
    report.row({name, std::to_string(times), Report::number(median(walls_without), 0),
                Report::number(median(walls_with), 0), Report::number(median(walls), 3),
                Report::number(median(processors), 3), median(processors) <= 1.02 ? "kept" : "missed"});
}

/// Starts of the office with profiles that are kept, as a user's is. `other` is the package to compare with, none where
/// empty.
void starts(const std::filesystem::path& folder, const std::filesystem::path& other) {
    const std::string without = other.empty() ? "without" : "with " + other.string();
    const Report report("Start of the office with the extension against " + without + ", in turns",
                        {"start", "times", without + ", ms on the wall", "with, ms on the wall", "ratio of wall times",
                         "ratio of processor times", "goal 1.02"});
    const auto profile = [&folder](bool with) { return folder / (with ? "with" : "without"); };
    const auto package = [&other](bool with) { return with ? std::filesystem::path(SLIPBARK_BUNDLED) : other; };
    compare(report, "to the end of the start", 21, [&](bool with) {
        std::vector<std::string> words{"--headless",
                                       "--norestore",
                                       "--nologo",
                                       "--nodefault",
                                       "--terminate_after_init",
                                       "-env:UserInstallation=" + office::file_url(profile(with))};
        if (const auto bundled = package(with); !bundled.empty()) {
            words.push_back("-env:BUNDLED_EXTENSIONS=" + office::file_url(bundled));
        }
        return run_office(words);
    });
    compare(report, "to the first formula of a new spreadsheet", 11,
            [&](bool with) { return first_formula(package(with), profile(with)); });
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
Memory first_use(const std::filesystem::path& package, const std::vector<std::string>& formulas) {
    const Office office({.bundled = package, .profile = {}, .words = {}});
    const Book book = office.new_book();
    if (book.calculate("=EDATE(46271;1)").error != 0) throw std::runtime_error("no EDATE");
    book.recalculate();
    const Memory before = memory_of(office.process());
    for (const auto& formula : formulas) {
        if (book.calculate(formula).error != 0) throw std::runtime_error("error in " + formula);
    }
    const Memory after = memory_of(office.process());
    kill(office.process(), SIGKILL);
    return {after.rss - before.rss, after.own - before.own};
}

/// The examples of the functions of single values; of those, what the `other` package has too, where there is one. One
/// that ours cannot answer is no reason to leave it out: it is thrown when it is used.
std::vector<std::string> single_values(const std::filesystem::path& other) {
    std::vector<std::string> examples;
    for (const auto& area : catalogue::areas()) {
        for (const auto& entry : area.entries) {
            // Arrays are written with the signs of the office's own grammar, which the examples here do without.
            if (entry.texts.example.find('{') == std::string_view::npos) {
                examples.push_back("=" + std::string(entry.texts.example));
            }
        }
    }
    if (!other.empty()) {
        const Office office({.bundled = other, .profile = {}, .words = {}});
        const Book book = office.new_book();
        std::erase_if(examples, [&book](const std::string& formula) { return book.calculate(formula).error != 0; });
    }
    return examples;
}

void size_and_memory(const std::filesystem::path& package, const std::vector<std::string>& examples) {
    const Report report("Size and memory of " + package.string(), {"what", "KiB", "goal"});
    const auto size = static_cast<double>(std::filesystem::file_size(package / "slipbark" / "libslipbark.so")) / 1024;
    report.row({"library, stripped", Report::number(size, 0), size <= 1024 ? "under 1 MiB: kept" : "missed"});
    const std::map<std::string, std::vector<std::string>> uses{
        {"first function", {"=REWORK.STICKS(3200;2;9;0.15)"}},
        {"all " + std::to_string(examples.size()) + " functions that take single values", examples}};
    for (const auto& [name, formulas] : uses) {
        std::vector<double> rss;
        std::vector<double> own;
        for (int round = 0; round < rounds; ++round) {
            const Memory added = first_use(package, formulas);
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

int main(int count, char** words) {
    using namespace slipbark::benchmarks;
    std::string pattern = (std::filesystem::temp_directory_path() / "slipbark-start-XXXXXX").string();
    if (mkdtemp(pattern.data()) == nullptr) return 1;
    int code = 0;
    try {
        const std::filesystem::path other = count > 1 ? words[1] : "";
        starts(pattern, other);
        std::vector<std::filesystem::path> packages{SLIPBARK_BUNDLED};
        if (!other.empty()) packages.push_back(other);
        const auto examples = single_values(other);
        for (const auto& package : packages) size_and_memory(package, examples);
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
