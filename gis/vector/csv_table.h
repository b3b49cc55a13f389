#pragma once
// A table of text: RFC 4180 quoting, separator comma, semicolon or tab as the header shows, line
// ends LF, CRLF or CR, newlines inside quotes. Rows keep the line they start on, for messages. Odd
// rows (too short, too long, NUL bytes) are kept where they can be, with a problem.

#include "core/base/problem.h"
#include "core/base/result.h"

#include <filesystem>
#include <string>
#include <vector>

namespace haylane {

struct CsvRow {
    int line = 0;                    // 1 = the file's first line
    std::vector<std::string> cells;  // as many as the header has
};

struct CsvTable {
    char separator = ',';
    std::vector<std::string> header;  // trimmed, as written
    std::vector<CsvRow> rows;         // blank lines left out
    Problems problems;
};

// Errors: those of read_file_text, csv_open_quote, csv_double_header, csv_no_header.
[[nodiscard]] Result<CsvTable> read_csv(const std::filesystem::path& file);
// `text` is UTF-8; `name` is for messages.
[[nodiscard]] Result<CsvTable> parse_csv(const std::string& text, const std::string& name);

}  // namespace haylane
