#pragma once
// A folder of its own for a test, removed at its end, and small files in it.

#include <filesystem>
#include <fstream>
#include <string>

#include <gtest/gtest.h>
#include <unistd.h>

namespace haylane {

// A folder's pastures: one, called Home, of about 0.8 by 1.1 km.
inline constexpr const char* kHomePasture =
    R"({"type":"FeatureCollection","features":[{"type":"Feature","properties":
{"name":"Home"},"geometry":{"type":"Polygon","coordinates":[[[-103.41,46.30],[-103.40,46.30],
[-103.40,46.31],[-103.41,46.31],[-103.41,46.30]]]}}]})";

class Scratch {
  public:
    Scratch() {
        const auto* info = testing::UnitTest::GetInstance()->current_test_info();
        path_ = std::filesystem::temp_directory_path() /
                (std::string("haylane-") + info->test_suite_name() + "-" + info->name() + "-" +
                 std::to_string(::getpid()));
        std::filesystem::remove_all(path_);
        std::filesystem::create_directories(path_);
    }
    ~Scratch() {
        std::error_code ignored;
        std::filesystem::remove_all(path_, ignored);
    }
    Scratch(const Scratch&) = delete;
    Scratch& operator=(const Scratch&) = delete;

    [[nodiscard]] std::filesystem::path path() const { return path_; }
    [[nodiscard]] std::filesystem::path operator/(const std::string& name) const {
        return path_ / name;
    }
    std::filesystem::path put(const std::string& name, const std::string& text) const {
        std::filesystem::create_directories((path_ / name).parent_path());
        std::ofstream(path_ / name, std::ios::binary) << text;
        return path_ / name;
    }

  private:
    std::filesystem::path path_;
};

}  // namespace haylane
