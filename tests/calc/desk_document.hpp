// A document with the desk's named cells alone, and a look into a database.
#pragma once

#include <cstdint>

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

}  // namespace slipbark::tests
