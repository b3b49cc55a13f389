#pragma once
// A folder in memory for one fuzz target's files, for as long as the target runs.

#include <cstdint>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <string>
#include <string_view>

namespace haylane::fuzz {

class InputFolder {
  public:
    InputFolder() {
        const bool memory = std::filesystem::is_directory("/dev/shm");
        std::string pattern = memory ? "/dev/shm/haylane-XXXXXX" : "/tmp/haylane-XXXXXX";
        path_ = ::mkdtemp(pattern.data());
    }
    ~InputFolder() {
        std::error_code ignored;
        std::filesystem::remove_all(path_, ignored);
    }
    InputFolder(const InputFolder&) = delete;
    InputFolder& operator=(const InputFolder&) = delete;

    [[nodiscard]] const std::filesystem::path& path() const { return path_; }
    std::filesystem::path put(const std::string& name, std::string_view bytes) const {
        std::ofstream(path_ / name, std::ios::binary)
            .write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
        return path_ / name;
    }

  private:
    std::filesystem::path path_;
};

inline std::string_view view(const std::uint8_t* data, std::size_t size) {
    return {reinterpret_cast<const char*>(data), size};
}

}  // namespace haylane::fuzz
