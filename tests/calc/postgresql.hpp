// A PostgreSQL server of a test's own (./setup desk), and what it answers.
#pragma once

#include <unistd.h>

#include <cstdio>
#include <filesystem>
#include <fstream>
#include <stdexcept>
#include <string>

#include "folder.hpp"

namespace slipbark::tests {

inline std::string output_of(const std::string& command) {
    std::string text;
    // NOLINTNEXTLINE(cert-env33-c): the commands are the tests' own
    FILE* const pipe = popen(command.c_str(), "r");
    if (pipe == nullptr) return {};
    char buffer[4096];
    while (const std::size_t size = fread(buffer, 1, sizeof buffer, pipe)) text.append(buffer, size);
    pclose(pipe);
    while (!text.empty() && text.back() == '\n') text.pop_back();
    return text;
}

inline std::string content_of(const std::filesystem::path& file) {
    std::ifstream in(file, std::ios::binary);
    return {std::istreambuf_iterator<char>(in), {}};
}

/// A server of this test's own, which listens on a socket in its folder alone. PostgreSQL does not run as root.
class Server {
  public:
    Server() {
        programs_ = output_of("ls -d /usr/lib/postgresql/*/bin 2>/dev/null | tail -1");
        if (programs_.empty()) throw std::runtime_error("PostgreSQL is missing: setup desk");
        as_user_ = geteuid() == 0 ? "cd / && runuser -u postgres -- " : "";
        data_ = folder_ / "data";
        std::filesystem::create_directories(data_);
        std::filesystem::permissions(data_.parent_path(), std::filesystem::perms::all);
        if (geteuid() == 0) run("chown -R postgres '" + data_.parent_path().string() + "'");
        run(as_user_ + programs_ + "/initdb -D '" + data_.string() + "' -A trust -U adviser --no-sync --wal-segsize=1");
        // One user has a password; the first line that fits counts.
        const auto rules = content_of(data_ / "pg_hba.conf");
        std::ofstream(data_ / "pg_hba.conf") << "local all guarded scram-sha-256\n" << rules;
        start();
        sql("create database desk", "postgres");
    }
    Server(const Server&) = delete;
    Server& operator=(const Server&) = delete;
    ~Server() { stop(); }

    /// `before` is done in the shell that starts it, such as to set a limit.
    void start(const std::string& before = {}) {
        run(before + as_user_ + programs_ + "/pg_ctl -w -D '" + data_.string() + "' -l '" + (data_ / "log").string() +
            "' -o \"-k '" + data_.string() + "' -h '' -p 5499 -c fsync=off -c autovacuum=off\" start");
    }
    void stop() const {
        static_cast<void>(
            output_of(as_user_ + programs_ + "/pg_ctl -w -m immediate -D '" + data_.string() + "' stop 2>&1"));
    }
    std::string sql(const std::string& words, const std::string& database = "desk") const {
        return output_of(programs_ + "/psql -X -A -t -h '" + data_.string() + "' -p 5499 -U adviser -c \"" + words +
                         "\" " + database + " 2>&1");
    }
    /// As it is written into the desk.
    std::string written(const std::string& user = "adviser") const {
        return "host=" + data_.string() + " port=5499 dbname=desk user=" + user;
    }

  private:
    static void run(const std::string& command) {
        const std::string said = output_of(command + " 2>&1; echo status $?");
        if (!said.ends_with("status 0")) throw std::runtime_error(said);
    }

    Folder folder_;
    std::filesystem::path data_;
    std::string programs_;
    std::string as_user_;
};

}  // namespace slipbark::tests
