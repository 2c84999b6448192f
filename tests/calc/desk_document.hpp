// A document with the desk's named cells alone, and a look into a database.
#pragma once

#include <cstdint>
#include <filesystem>

#include "calc.hpp"
#include "daybook_lines.hpp"

namespace slipbark::tests {

/// Its tables have fewer lines than most folders have workbooks, so that they have to make room.
office::Book plain_desk(const std::string& folder = {});

/// The number that a query of a Firebird file gives.
double query(const std::string& file, const std::string& sql);

/// While it lives no file of the office grows beyond so many bytes: writing on fails, as it does on a full disk. The
/// process is one that this program has started, whose signal SIGXFSZ is ignored.
class FullDisk {
  public:
    FullDisk(const office::Office& office, std::uint64_t bytes);
    FullDisk(const FullDisk&) = delete;
    FullDisk& operator=(const FullDisk&) = delete;
    ~FullDisk();

  private:
    int process_;
};

/// A disk of so many bytes at a folder that it makes, where this program may mount one.
class SmallDisk {
  public:
    SmallDisk(std::filesystem::path folder, std::uint64_t bytes);
    SmallDisk(const SmallDisk&) = delete;
    SmallDisk& operator=(const SmallDisk&) = delete;
    ~SmallDisk();
    [[nodiscard]] bool is_there() const { return is_there_; }

  private:
    std::filesystem::path folder_;
    bool is_there_ = false;
};

}  // namespace slipbark::tests
