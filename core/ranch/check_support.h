#pragma once
// What every part of check_ranch shares: the ranch in the making, its problems, and a reader of one
// raw row that turns cells into checked values and says what is odd. For check_*.cpp only.

#include "core/base/day.h"
#include "core/base/problem.h"
#include "core/ranch/plausible.h"
#include "core/ranch/ranch.h"
#include "core/ranch/raw_ranch.h"

#include <array>
#include <cstddef>
#include <limits>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace haylane {

struct Checking {
    const RawRanch& raw;
    Ranch ranch;
    Problems problems;

    // Rows of a role; empty when the role is missing.
    [[nodiscard]] const std::vector<RawRow>& rows(std::string_view role) const;
    [[nodiscard]] bool has(std::string_view role) const { return !rows(role).empty(); }
    void info(std::string_view code, std::string where, std::string text, std::string remedy);
    void warn(std::string_view code, std::string where, std::string text, std::string remedy);
    // An item that could not be used.
    void drop(std::string_view code, std::string where, std::string text, std::string remedy);
    // Acres or hectares, as the user has chosen: "12.3 ac".
    [[nodiscard]] std::string area_text(double area_m2) const;
    // Feet or metres: "33 ft".
    [[nodiscard]] std::string length_text(double length_m) const;
};

// Lower case (ASCII), blanks and hyphens as underscores: how words and names are compared when they
// do not match exactly.
[[nodiscard]] std::string folded(std::string_view text);
// The known name closest to `name`, if close enough to be a slip of the pen (edit distance at most
// 2 or a third of its length, and less than its length); empty otherwise.
[[nodiscard]] std::string nearest_name(std::string_view name, std::span<const std::string> known);
// `Did you mean "X"? ` or nothing.
[[nodiscard]] std::string did_you_mean(std::string_view name, std::span<const std::string> known);
// "a; b;\"c;d\"" to its names, trimmed, quotes taken off, empty ones left out.
[[nodiscard]] std::vector<std::string> split_names(std::string_view list);

// Index of the item of that name: exactly, else by its folded name.
template <class Items>
[[nodiscard]] std::optional<std::size_t> find_name(const Items& items, std::string_view name) {
    for (std::size_t i = 0; i < items.size(); ++i) {
        if (items[i].name == name) return i;
    }
    for (std::size_t i = 0; i < items.size(); ++i) {
        if (folded(items[i].name) == folded(name)) return i;
    }
    return std::nullopt;
}
// True when an item has exactly that name: what makes a row a duplicate.
template <class Items>
[[nodiscard]] bool has_name(const Items& items, std::string_view name) {
    for (const auto& item : items) {
        if (item.name == name) return true;
    }
    return false;
}
template <class Items>
[[nodiscard]] std::vector<std::string> names_of(const Items& items) {
    std::vector<std::string> names;
    names.reserve(items.size());
    for (const auto& item : items) names.push_back(item.name);
    return names;
}

// Reads the cells of one row. A cell that makes no sense becomes nullopt and a problem; a required
// one that is blank or makes no sense also makes usable() false, and the row is not used.
class RowReader {
  public:
    // `subject` names the row's item in problems: `Herd "Cows"`. `role` outlives the reader.
    RowReader(std::string_view role, const RawRow& row, Checking& checking, std::string subject)
        : role_(role), row_(row), checking_(checking), subject_(std::move(subject)) {}

    [[nodiscard]] bool usable() const { return usable_; }
    [[nodiscard]] const std::string& subject() const { return subject_; }
    [[nodiscard]] const std::string& where() const { return row_.where; }
    [[nodiscard]] const RawRow& row() const { return row_; }

    [[nodiscard]] std::string text(std::string_view column) const { return row_.text(column); }
    std::string required_text(std::string_view column);
    // Numbers that the table of plausible ones allows; unusual ones are asked about.
    std::optional<double> number(std::string_view column);
    double required_number(std::string_view column);
    // Whole numbers; others are rounded, with a problem.
    std::optional<int> count(std::string_view column);
    int required_count(std::string_view column);
    bool yes_no(std::string_view column, bool usual);
    std::optional<sys_days> day(std::string_view column);
    std::optional<sys_days> required_day(std::string_view column);
    DateMark mark(std::string_view column);

    template <class Words>
    auto word(std::string_view column, const Words& words)
        -> std::optional<decltype(words[0].value)> {
        std::vector<std::string> known;
        known.reserve(words.size());
        for (const auto& word : words) known.emplace_back(word.text);
        const std::optional<std::size_t> index = word_index(column, known);
        if (!index) return std::nullopt;
        return words[*index].value;
    }
    void warn(std::string_view code, std::string text, std::string remedy);
    // Says why the row is not used.
    void drop(std::string_view code, std::string text, std::string remedy);

  private:
    std::optional<std::size_t> word_index(std::string_view column,
                                          std::span<const std::string> known);
    std::optional<double> checked_number(std::string_view column, bool required,
                                         double most = std::numeric_limits<double>::max());
    void ask_if_unusual(std::string_view column, double value, Range usual);
    std::optional<sys_days> checked_day(std::string_view column, bool required);
    int whole(std::string_view column, double value);
    void odd_cell(std::string_view code, std::string text, std::string_view column, bool required);
    void miss(std::string_view column);

    std::string_view role_;
    const RawRow& row_;
    Checking& checking_;
    std::string subject_;
    bool usable_ = true;
};

}  // namespace haylane
