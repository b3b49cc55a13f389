// One pass over the bytes with a quote flag. A quote opens a quoted cell only at the cell's start;
// elsewhere it is a letter (inch marks are common in hay tables).
#include "gis/vector/csv_table.h"

#include "gis/vector/file_text.h"

#include <algorithm>
#include <set>

#include <fmt/format.h>

namespace haylane {

namespace {

struct Scanner {
    const std::string& text;
    std::size_t at = 0;
    int line = 1;
    int open_quote_line = 0;  // > 0: a quote opened there was never closed

    [[nodiscard]] bool done() const { return at >= text.size(); }

    // Steps over one line end of any kind; true if there was one.
    bool take_line_end() {
        if (done() || (text[at] != '\n' && text[at] != '\r')) return false;
        const bool both = text[at] == '\r' && at + 1 < text.size() && text[at + 1] == '\n';
        at += both ? 2U : 1U;
        ++line;
        return true;
    }

    std::string quoted_cell() {
        const int opened = line;
        std::string cell;
        ++at;
        while (!done()) {
            const char c = text[at];
            if (c == '"') {
                ++at;
                if (done() || text[at] != '"') return cell;
                cell += '"';
                ++at;
            } else if (c == '\n' || c == '\r') {
                take_line_end();
                cell += '\n';
            } else {
                cell += c;
                ++at;
            }
        }
        open_quote_line = opened;
        return cell;
    }

    CsvRow row(char separator) {
        CsvRow out;
        out.line = line;
        std::string cell;
        for (bool start = true;; start = false) {
            if (start && !done() && text[at] == '"') {
                cell = quoted_cell();
            } else if (done() || text[at] == '\n' || text[at] == '\r') {
                out.cells.push_back(cell);
                take_line_end();
                return out;
            } else if (text[at] == separator) {
                out.cells.push_back(cell);
                cell.clear();
                ++at;
                if (!done() && text[at] == '"') cell = quoted_cell();
            } else {
                cell += text[at++];
            }
        }
    }
};

char separator_of(const std::string& text) {
    const std::string first = text.substr(0, text.find_first_of("\r\n"));
    const auto count = [&first](char c) { return std::count(first.begin(), first.end(), c); };
    const auto commas = count(',');
    const auto semicolons = count(';');
    const auto tabs = count('\t');
    if (tabs > commas && tabs > semicolons) return '\t';
    return semicolons > commas ? ';' : ',';
}

bool blank(const CsvRow& row) {
    return std::all_of(row.cells.begin(), row.cells.end(),
                       [](const std::string& cell) { return trimmed(cell).empty(); });
}

Result<void> check_header(const CsvTable& table, const std::string& name) {
    std::set<std::string> seen;
    for (const std::string& column : table.header) {
        if (!column.empty() && !seen.insert(lower_ascii(column)).second) {
            return fail(
                {"csv_double_header",
                 fmt::format("{}, line 1: the heading '{}' stands there twice", name, column),
                 fmt::format("{}, line 1", name), "rename or remove one of the two columns"});
        }
    }
    return {};
}

void fit(CsvRow& row, std::size_t columns, const std::string& name, Problems& problems) {
    const std::string where = fmt::format("{}, line {}", name, row.line);
    const bool surplus = std::any_of(
        row.cells.begin() + static_cast<std::ptrdiff_t>(std::min(columns, row.cells.size())),
        row.cells.end(), [](const std::string& cell) { return !trimmed(cell).empty(); });
    if (row.cells.size() < columns || surplus) {
        problems.push_back({"csv_ragged_row", Severity::warning, where,
                            fmt::format("the row has {} cells where the heading has {}",
                                        row.cells.size(), columns),
                            "check that line for a missing or extra separator or quote"});
    }
    row.cells.resize(columns);
    for (std::string& cell : row.cells) {
        if (cell.find('\0') == std::string::npos) continue;
        cell.erase(std::remove(cell.begin(), cell.end(), '\0'), cell.end());
        problems.push_back({"csv_nul_bytes", Severity::warning, where,
                            "the line holds NUL bytes, as after a power loss",
                            "check that line, or export the table again"});
    }
}

}  // namespace

Result<CsvTable> parse_csv(const std::string& text, const std::string& name) {
    CsvTable table;
    table.separator = separator_of(text);
    Scanner scan{text};
    table.header = scan.row(table.separator).cells;
    for (std::string& column : table.header) column = trimmed(column);
    while (!table.header.empty() && table.header.back().empty()) table.header.pop_back();
    if (table.header.empty()) {
        return fail({"csv_no_header", fmt::format("{}: the first line holds no headings", name),
                     fmt::format("{}, line 1", name), "put the column names on the first line"});
    }
    const Result<void> header = check_header(table, name);
    if (!header) return fail(header.error());
    while (!scan.done()) {
        CsvRow row = scan.row(table.separator);
        if (scan.open_quote_line > 0) break;
        if (blank(row)) continue;
        fit(row, table.header.size(), name, table.problems);
        table.rows.push_back(std::move(row));
    }
    if (scan.open_quote_line > 0) {
        return fail({"csv_open_quote",
                     fmt::format("{}, line {}: a quote is opened and never closed", name,
                                 scan.open_quote_line),
                     fmt::format("{}, line {}", name, scan.open_quote_line),
                     "close the quote or remove it"});
    }
    return table;
}

Result<CsvTable> read_csv(const std::filesystem::path& file) {
    const Result<FileText> text = read_file_text(file);
    if (!text) return fail(text.error());
    const std::string name = file.filename().string();
    Result<CsvTable> table = parse_csv(text->text, name);
    if (table && text->guessed_1252) {
        table->problems.push_back({"text_encoding", Severity::warning, name,
                                   "the file is not UTF-8; its letters were taken as Windows-1252",
                                   "check names with accents, or save the file as UTF-8"});
    }
    return table;
}

}  // namespace haylane
