#pragma once
// A whole text file as UTF-8, whatever of UTF-8 (with or without byte-order mark), UTF-16 or,
// failing those, Windows-1252 it was written in.

#include "core/base/result.h"

#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <string>

namespace haylane {

struct FileText {
    std::string text;           // UTF-8, no byte-order mark
    bool guessed_1252 = false;  // bytes were no UTF-8 and were taken as Windows-1252
    bool was_utf16 = false;
};

// Errors: file_missing, file_unreadable, empty_file, file_too_large.
[[nodiscard]] Result<FileText> read_file_text(const std::filesystem::path& file,
                                              std::size_t most_bytes = 256U << 20U);
// The same for bytes already in memory; `name` is for errors.
[[nodiscard]] Result<FileText> decode_text(std::string bytes, const std::string& name);

// Whether there is a file of that size at most: file_missing, file_too_large.
[[nodiscard]] Result<void> check_size(const std::filesystem::path& file, std::size_t most_bytes);
// The Unicode character of a byte of Windows-1252.
[[nodiscard]] std::uint32_t from_windows_1252(std::uint8_t byte);

[[nodiscard]] bool is_utf8(const std::string& text);
[[nodiscard]] std::string lower_ascii(std::string text);
[[nodiscard]] std::string trimmed(const std::string& text);

}  // namespace haylane
