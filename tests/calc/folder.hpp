// A folder for the files of one test, and other programs that read them.
#pragma once

#include <cstdlib>
#include <filesystem>
#include <stdexcept>
#include <string>

namespace slipbark::tests {

/// A folder that goes with the test.
class Folder {
  public:
    Folder() {
        std::string pattern = (std::filesystem::temp_directory_path() / "slipbark-documents-XXXXXX").string();
        if (mkdtemp(pattern.data()) == nullptr) throw std::runtime_error("no folder");
        path_ = pattern;
    }
    Folder(const Folder&) = delete;
    Folder& operator=(const Folder&) = delete;
    ~Folder() { std::filesystem::remove_all(path_); }
    [[nodiscard]] std::filesystem::path operator/(const std::string& name) const { return path_ / name; }

  private:
    std::filesystem::path path_;
};

/// Whether a command ends well; what it prints goes nowhere.
inline bool runs(const std::string& command) {
    // NOLINTNEXTLINE(cert-env33-c): the commands are the tests' own, on files in folders of their own
    return std::system((command + " >/dev/null").c_str()) == 0;
}

}  // namespace slipbark::tests
