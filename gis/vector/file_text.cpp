#include "gis/vector/file_text.h"

#include <algorithm>
#include <cstdint>
#include <fstream>
#include <iterator>

#include <fmt/format.h>

namespace haylane {

namespace {

void append_utf8(std::uint32_t code, std::string& out) {
    const auto byte = [&out](std::uint32_t value) { out += static_cast<char>(value); };
    if (code < 0x80U) {
        byte(code);
    } else if (code < 0x800U) {
        byte(0xC0U | (code >> 6U));
        byte(0x80U | (code & 0x3FU));
    } else if (code < 0x10000U) {
        byte(0xE0U | (code >> 12U));
        byte(0x80U | ((code >> 6U) & 0x3FU));
        byte(0x80U | (code & 0x3FU));
    } else {
        byte(0xF0U | (code >> 18U));
        byte(0x80U | ((code >> 12U) & 0x3FU));
        byte(0x80U | ((code >> 6U) & 0x3FU));
        byte(0x80U | (code & 0x3FU));
    }
}

std::string from_utf16(const std::string& bytes, bool big_endian) {
    const auto unit = [&](std::size_t i) {
        const auto a = static_cast<std::uint8_t>(bytes[i]);
        const auto b = static_cast<std::uint8_t>(bytes[i + 1]);
        return static_cast<std::uint32_t>(big_endian ? a * 256 + b : b * 256 + a);
    };
    std::string out;
    for (std::size_t i = 2; i + 1 < bytes.size(); i += 2) {
        std::uint32_t code = unit(i);
        if (code >= 0xD800U && code < 0xDC00U && i + 3 < bytes.size()) {
            const std::uint32_t low = unit(i + 2);
            if (low >= 0xDC00U && low < 0xE000U) {
                code = 0x10000U + ((code - 0xD800U) << 10U) + (low - 0xDC00U);
                i += 2;
            }
        }
        append_utf8(code >= 0xD800U && code < 0xE000U ? 0xFFFDU : code, out);
    }
    return out;
}

std::string from_1252(const std::string& bytes) {
    std::string out;
    for (const char c : bytes) append_utf8(from_windows_1252(static_cast<std::uint8_t>(c)), out);
    return out;
}

}  // namespace

// Windows-1252 differs from Latin-1 in 0x80..0x9F only (WHATWG Encoding Standard, from memory).
std::uint32_t from_windows_1252(std::uint8_t byte) {
    static constexpr std::uint32_t kHigh[32] = {
        0x20AC, 0x81,   0x201A, 0x0192, 0x201E, 0x2026, 0x2020, 0x2021, 0x02C6, 0x2030, 0x0160,
        0x2039, 0x0152, 0x8D,   0x017D, 0x8F,   0x90,   0x2018, 0x2019, 0x201C, 0x201D, 0x2022,
        0x2013, 0x2014, 0x02DC, 0x2122, 0x0161, 0x203A, 0x0153, 0x9D,   0x017E, 0x0178};
    return byte >= 0x80U && byte < 0xA0U ? kHigh[byte - 0x80U] : byte;
}

bool is_utf8(const std::string& text) {
    for (std::size_t i = 0; i < text.size();) {
        const auto first = static_cast<std::uint8_t>(text[i]);
        std::size_t more = 0;
        if (first >= 0xF0U && first < 0xF5U) {
            more = 3;
        } else if (first >= 0xE0U && first < 0xF0U) {
            more = 2;
        } else if (first >= 0xC2U && first < 0xE0U) {
            more = 1;
        } else if (first >= 0x80U) {
            return false;
        }
        if (i + more >= text.size()) return false;
        for (std::size_t k = 1; k <= more; ++k) {
            if ((static_cast<std::uint8_t>(text[i + k]) & 0xC0U) != 0x80U) return false;
        }
        i += more + 1;
    }
    return true;
}

std::string lower_ascii(std::string text) {
    std::transform(text.begin(), text.end(), text.begin(), [](char c) {
        return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    });
    return text;
}

std::string trimmed(const std::string& text) {
    static const char* const kBlanks = " \t\r\n";
    const std::size_t first = text.find_first_not_of(kBlanks);
    if (first == std::string::npos) return {};
    return text.substr(first, text.find_last_not_of(kBlanks) - first + 1);
}

Result<FileText> decode_text(std::string bytes, const std::string& name) {
    if (bytes.find_first_not_of(" \t\r\n") == std::string::npos) {
        return fail({"empty_file", fmt::format("{} is empty", name), name,
                     "export or copy the file again"});
    }
    FileText out;
    const bool big_endian = bytes.starts_with("\xFE\xFF");
    out.was_utf16 = big_endian || bytes.starts_with("\xFF\xFE");
    if (out.was_utf16) {
        out.text = from_utf16(bytes, big_endian);
    } else {
        if (bytes.starts_with("\xEF\xBB\xBF")) bytes.erase(0, 3);
        out.guessed_1252 = !is_utf8(bytes);
        out.text = out.guessed_1252 ? from_1252(bytes) : std::move(bytes);
    }
    return out;
}

Result<void> check_size(const std::filesystem::path& file, std::size_t most_bytes) {
    const std::string name = file.filename().string();
    std::error_code code;
    if (!std::filesystem::is_regular_file(file, code)) {
        return fail({"file_missing", fmt::format("there is no file {}", name), file.string(),
                     "check the name and the folder"});
    }
    if (std::filesystem::file_size(file, code) > most_bytes) {
        return fail({"file_too_large",
                     fmt::format("{} is larger than {} MB", name, most_bytes >> 20U), file.string(),
                     "keep only what the ranch needs in it"});
    }
    return {};
}

Result<FileText> read_file_text(const std::filesystem::path& file, std::size_t most_bytes) {
    const Result<void> size = check_size(file, most_bytes);
    if (!size) return fail(size.error());
    const std::string name = file.filename().string();
    std::ifstream in(file, std::ios::binary);
    std::string bytes{std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
    if (!in && !in.eof()) {
        return fail({"file_unreadable", fmt::format("{} cannot be read", name), file.string(),
                     "check that it is on a working disk and that you may read it"});
    }
    return decode_text(std::move(bytes), name);
}

}  // namespace haylane
