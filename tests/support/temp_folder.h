#pragma once
// A folder of its own for one test, gone at its end.

#include <cstdlib>
#include <filesystem>
#include <string>

#include <unistd.h>

namespace haylane::testing {

class TempFolder {
  public:
    TempFolder() {
        std::string pattern = (std::filesystem::temp_directory_path() / "haylane-XXXXXX").string();
        const char* made = ::mkdtemp(pattern.data());
        path_ = made != nullptr ? made : pattern;
    }
    ~TempFolder() {
        std::error_code ignored;
        std::filesystem::remove_all(path_, ignored);
    }
    TempFolder(const TempFolder&) = delete;
    TempFolder& operator=(const TempFolder&) = delete;
    TempFolder(TempFolder&&) = delete;
    TempFolder& operator=(TempFolder&&) = delete;

    [[nodiscard]] const std::filesystem::path& path() const { return path_; }
    [[nodiscard]] std::filesystem::path operator/(const std::string& name) const {
        return path_ / name;
    }

  private:
    std::filesystem::path path_;
};

}  // namespace haylane::testing
