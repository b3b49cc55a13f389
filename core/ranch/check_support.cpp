// Names are compared byte by byte, so any Unicode works; only ASCII letters fold. Slips of the pen
// are found by the edit distance of Levenshtein 1966 over bytes.
#include "core/ranch/check_support.h"

#include "core/base/units.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

namespace haylane {

namespace {

constexpr double kMostCount = 1e9;

std::size_t edit_distance(std::string_view a, std::string_view b) {
    std::vector<std::size_t> row(b.size() + 1);
    for (std::size_t j = 0; j <= b.size(); ++j) row[j] = j;
    for (std::size_t i = 1; i <= a.size(); ++i) {
        std::size_t diagonal = row[0];
        row[0] = i;
        for (std::size_t j = 1; j <= b.size(); ++j) {
            const std::size_t replaced = diagonal + (a[i - 1] == b[j - 1] ? 0 : 1);
            diagonal = row[j];
            row[j] = std::min({row[j] + 1, row[j - 1] + 1, replaced});
        }
    }
    return row[b.size()];
}

std::string trimmed(const std::string& text) {
    const std::size_t first = text.find_first_not_of(" \t");
    if (first == std::string::npos) return {};
    return text.substr(first, text.find_last_not_of(" \t") - first + 1);
}

std::optional<bool> parsed_yes_no(std::string_view text) {
    const std::string word = folded(text);
    for (const std::string_view yes : {"yes", "y", "true", "t", "1"}) {
        if (word == yes) return true;
    }
    for (const std::string_view no : {"no", "n", "false", "f", "0"}) {
        if (word == no) return false;
    }
    return std::nullopt;
}

}  // namespace

const std::vector<RawRow>& Checking::rows(std::string_view role) const {
    static const std::vector<RawRow> none;
    const auto found = raw.roles.find(std::string(role));
    return found == raw.roles.end() ? none : found->second;
}

void Checking::info(std::string_view code, std::string where, std::string text,
                    std::string remedy) {
    problems.push_back(
        {std::string(code), Severity::info, std::move(where), std::move(text), std::move(remedy)});
}

void Checking::warn(std::string_view code, std::string where, std::string text,
                    std::string remedy) {
    problems.push_back({std::string(code), Severity::warning, std::move(where), std::move(text),
                        std::move(remedy)});
}

void Checking::drop(std::string_view code, std::string where, std::string text,
                    std::string remedy) {
    problems.push_back(
        {std::string(code), Severity::error, std::move(where), std::move(text), std::move(remedy)});
}

std::string Checking::area_text(double area_m2) const {
    if (ranch.settings.units == "metric") {
        return fmt::format("{:.2f} ha", area_m2 / units::kM2PerHectare);
    }
    return fmt::format("{:.2f} ac", area_m2 / units::kM2PerAcre);
}

std::string Checking::length_text(double length_m) const {
    if (ranch.settings.units == "metric") return fmt::format("{:.0f} m", length_m);
    return fmt::format("{:.0f} ft", length_m / units::kMetersPerFoot);
}

std::string folded(std::string_view text) {
    std::string result(text);
    for (char& c : result) {
        if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
        if (c == ' ' || c == '-') c = '_';
    }
    return result;
}

std::string nearest_name(std::string_view name, std::span<const std::string> known) {
    const std::string wanted = folded(name);
    std::string nearest;
    std::size_t least = std::min(std::max<std::size_t>(2, wanted.size() / 3) + 1, wanted.size());
    for (const std::string& candidate : known) {
        const std::size_t distance = edit_distance(wanted, folded(candidate));
        if (distance >= least) continue;
        least = distance;
        nearest = candidate;
    }
    return nearest;
}

std::string did_you_mean(std::string_view name, std::span<const std::string> known) {
    const std::string nearest = nearest_name(name, known);
    return nearest.empty() ? std::string() : fmt::format("Did you mean \"{}\"? ", nearest);
}

std::vector<std::string> split_names(std::string_view list) {
    std::vector<std::string> names;
    std::string current;
    bool quoted = false;
    const auto finish = [&] {
        std::string name = trimmed(current);
        if (!name.empty()) names.push_back(std::move(name));
        current.clear();
    };
    for (const char c : list) {
        if (c == '"') {
            quoted = !quoted;
        } else if (c == ';' && !quoted) {
            finish();
        } else {
            current += c;
        }
    }
    finish();
    return names;
}

void RowReader::warn(std::string_view code, std::string text, std::string remedy) {
    checking_.warn(code, row_.where, std::move(text), std::move(remedy));
}

void RowReader::drop(std::string_view code, std::string text, std::string remedy) {
    usable_ = false;
    checking_.drop(code, row_.where, std::move(text), std::move(remedy));
}

void RowReader::odd_cell(std::string_view code, std::string text, std::string_view column,
                         bool required) {
    if (required) {
        drop(code, std::move(text) + "; this row is not used.",
             fmt::format("Correct {} and read the ranch again.", column));
    } else {
        warn(code, std::move(text) + "; it is left out and the usual value holds.",
             fmt::format("Correct {}, or leave it blank.", column));
    }
}

void RowReader::miss(std::string_view column) {
    drop("missing_value", fmt::format("{} has no {}; this row is not used.", subject_, column),
         fmt::format("Fill in {}.", column));
}

std::string RowReader::required_text(std::string_view column) {
    std::string value = row_.text(column);
    if (value.empty()) miss(column);
    return value;
}

std::optional<double> RowReader::checked_number(std::string_view column, bool required,
                                                double most) {
    const Plausible plausible_here = plausible(role_, column);
    const Range range{plausible_here.allowed.least, std::min(plausible_here.allowed.most, most)};
    const std::string typed = row_.text(column);
    if (typed.empty()) {
        if (required) miss(column);
        return std::nullopt;
    }
    const std::optional<double> value = row_.number(column);
    if (!value || !std::isfinite(*value)) {
        odd_cell("not_a_number",
                 fmt::format("{}: {} is \"{}\", not a number", subject_, column, typed), column,
                 required);
        return std::nullopt;
    }
    if (*value < 0.0 && range.least >= 0.0) {
        odd_cell("negative_number",
                 fmt::format("{}: {} is {:.6g}, below zero", subject_, column, *value), column,
                 required);
        return std::nullopt;
    }
    if (!range.holds(*value)) {
        odd_cell("number_out_of_range",
                 fmt::format("{}: {} is {:.6g}, which is outside {:.6g} to {:.6g}", subject_,
                             column, *value, range.least, range.most),
                 column, required);
        return std::nullopt;
    }
    if (plausible_here.usual) ask_if_unusual(column, *value, *plausible_here.usual);
    return value;
}

void RowReader::ask_if_unusual(std::string_view column, double value, Range usual) {
    if (usual.holds(value)) return;
    const std::string question = unit_question(column, value, usual);
    warn("number_unusual",
         fmt::format("{}: {} is {:.6g}; usual is {:.6g} to {:.6g}. {} It is used as it stands.",
                     subject_, column, value, usual.least, usual.most,
                     question.empty() ? "Is it right?" : question),
         fmt::format("Correct {}, or leave it if it is right.", column));
}

std::optional<double> RowReader::number(std::string_view column) {
    return checked_number(column, false);
}

double RowReader::required_number(std::string_view column) {
    return checked_number(column, true).value_or(0.0);
}

int RowReader::whole(std::string_view column, double value) {
    const double rounded = std::round(value);
    if (rounded != value) {
        warn("not_a_whole_number",
             fmt::format("{}: {} is {:.6g}; {:.0f} is used.", subject_, column, value, rounded),
             fmt::format("Write {} as a whole number.", column));
    }
    return static_cast<int>(rounded);
}

std::optional<int> RowReader::count(std::string_view column) {
    const std::optional<double> value = checked_number(column, false, kMostCount);
    if (!value) return std::nullopt;
    return whole(column, *value);
}

int RowReader::required_count(std::string_view column) {
    const std::optional<double> value = checked_number(column, true, kMostCount);
    return value ? whole(column, *value) : 0;
}

bool RowReader::yes_no(std::string_view column, bool usual) {
    const std::string typed = row_.text(column);
    if (typed.empty()) return usual;
    const std::optional<bool> value = parsed_yes_no(typed);
    if (!value) {
        odd_cell("unknown_enum_value",
                 fmt::format("{}: {} is \"{}\", neither yes nor no", subject_, column, typed),
                 column, false);
    }
    return value.value_or(usual);
}

std::optional<sys_days> RowReader::checked_day(std::string_view column, bool required) {
    const std::string typed = row_.text(column);
    if (typed.empty()) {
        if (required) miss(column);
        return std::nullopt;
    }
    const std::optional<sys_days> value = parse_day(typed);
    if (!value) {
        odd_cell(
            "bad_date",
            fmt::format("{}: {} is \"{}\", not a date like 2027-01-31", subject_, column, typed),
            column, required);
    }
    return value;
}

std::optional<sys_days> RowReader::day(std::string_view column) {
    return checked_day(column, false);
}

std::optional<sys_days> RowReader::required_day(std::string_view column) {
    return checked_day(column, true);
}

DateMark RowReader::mark(std::string_view column) {
    const std::string typed = row_.text(column);
    if (typed.empty()) return {};
    const std::optional<DateMark> value = parse_date_mark(typed);
    if (!value) {
        odd_cell("bad_date",
                 fmt::format("{}: {} is \"{}\", not a date like 2027-01-31 or 01-31", subject_,
                             column, typed),
                 column, false);
    }
    return value.value_or(DateMark{});
}

std::optional<std::size_t> RowReader::word_index(std::string_view column,
                                                 std::span<const std::string> known) {
    const std::string typed = row_.text(column);
    if (typed.empty()) return std::nullopt;
    const std::string wanted = folded(typed);
    for (std::size_t i = 0; i < known.size(); ++i) {
        if (known[i] == wanted) return i;
    }
    warn("unknown_enum_value",
         fmt::format("{}: {} is \"{}\", which is not one of the words for it.", subject_, column,
                     typed),
         fmt::format("{}Write one of: {}.", did_you_mean(typed, known), fmt::join(known, ", ")));
    return std::nullopt;
}

}  // namespace haylane
