// A calculation with a system call tracer on the office; tests/trust/run starts this and reads the trace.

#include <sys/wait.h>
#include <unistd.h>

#include <chrono>
#include <csignal>
#include <cstdlib>
#include <thread>

#include "calc.hpp"
#include "catalogue/catalogue.hpp"
#include "folder.hpp"

namespace slipbark::tests {

using namespace office;

namespace {

TEST(DISABLED_Trace, OfEveryExample) {
    const char* file = std::getenv("SLIPBARK_TRACE");
    ASSERT_NE(file, nullptr) << "name the file that the trace goes to";
    const Folder folder;
    const Book book = calc().new_book();
    const std::string process = std::to_string(calc().process());
    const int tracer = fork();
    if (tracer == 0) {
        execlp("strace", "strace", "-f", "-k", "-o", file, "-e",
               "trace=open,openat,openat2,creat,socket,connect,bind,execve,execveat,fork,vfork,clone,clone3", "-p",
               process.c_str(), static_cast<char*>(nullptr));
        _exit(127);
    }
    std::this_thread::sleep_for(std::chrono::seconds(3));  // until it is attached
    // The first call loads the library.
    int row = 0;
    for (const auto& area : catalogue::areas()) {
        for (const auto& entry : area.entries) {
            book.set_formula("A" + std::to_string(++row), "=" + std::string(entry.texts.example));
            EXPECT_EQ(book.shown("A" + std::to_string(row)).error, 0) << entry.texts.example;
        }
    }
    book.recalculate();
    book.save_as(folder / "traced.ods", "calc8");  // the office's own doing, which the trace must show
    kill(tracer, SIGINT);
    int status = 0;
    waitpid(tracer, &status, 0);
}

}  // namespace
}  // namespace slipbark::tests
