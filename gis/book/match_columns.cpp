#include "gis/book/match_columns.h"

#include "gis/gdal/gdal_session.h"
#include "gis/vector/file_text.h"

#include <algorithm>
#include <optional>

#include <fmt/format.h>

namespace haylane {

namespace {

bool has_unit(const ColumnSpec& spec) { return !unit_choices(spec.dimension).empty(); }

// The unit part of `name` under this spec ("lb" of "weight_lb"); nullopt if base or tail differ.
std::optional<std::string> unit_part(const ColumnSpec& spec, const std::string& name) {
    const std::string head = std::string(spec.base) + "_";
    if (!name.starts_with(head) || !name.ends_with(spec.tail)) return std::nullopt;
    if (name.size() <= head.size() + spec.tail.size()) return std::nullopt;
    return name.substr(head.size(), name.size() - head.size() - spec.tail.size());
}

std::optional<UnitScale> scale_of(const ColumnSpec& spec, const std::string& name) {
    if (name == spec.book) return UnitScale{};
    if (!spec.bare_unit.empty()) {
        return name == spec.base ? find_unit(spec.dimension, spec.bare_unit) : std::nullopt;
    }
    if (!has_unit(spec)) return name == spec.base ? std::optional(UnitScale{}) : std::nullopt;
    const auto unit = unit_part(spec, name);
    return unit ? find_unit(spec.dimension, *unit) : std::nullopt;
}

// The heading under which a column is looked up: its alias's, or its own.
std::string looked_up(const RoleInfo& role, const std::string& heading,
                      const std::vector<ColumnAlias>& aliases) {
    for (const ColumnAlias& alias : aliases) {
        if (lower_ascii(alias.role) != role.name ||
            plain_heading(alias.in_file) != plain_heading(heading)) {
            continue;
        }
        std::string column = plain_heading(alias.column);
        const std::string unit = plain_heading(alias.unit);
        if (unit.empty()) return column;
        for (const ColumnSpec* spec : columns_of(role.name)) {
            if (scale_of(*spec, column)) return column;  // names its unit already
        }
        for (const ColumnSpec* spec : columns_of(role.name)) {
            const std::string base(spec->base);
            const std::string tailed = fmt::format("{}{}", base, spec->tail);
            if (column == base || column == tailed) {
                return fmt::format("{}_{}{}", base, unit, spec->tail);
            }
        }
        return column;
    }
    return plain_heading(heading);
}

struct Matching {
    const RoleInfo& role;
    const SourceLayer& layer;
    ColumnMatch out;
    std::vector<const ColumnSpec*> unit_not_known;

    [[nodiscard]] bool used(const ColumnSpec* spec) const {
        return std::any_of(out.uses.begin(), out.uses.end(),
                           [spec](const ColumnUse& use) { return use.spec == spec; });
    }

    bool take(std::size_t at, const std::string& name) {
        for (const ColumnSpec* spec : columns_of(role.name)) {
            const auto scale = scale_of(*spec, name);
            if (!scale) continue;
            if (used(spec)) {
                out.problems.push_back(
                    {"column_twice", Severity::warning, layer.file,
                     fmt::format("column '{}' says again what another column says; not used",
                                 shown(layer.columns[at])),
                     "keep one of the two"});
            } else {
                out.uses.push_back({at, spec, *scale});
            }
            return true;
        }
        return false;
    }

    // A column that has a known beginning and an ending that is no unit.
    void suspect(std::size_t at, const std::string& name) {
        for (const ColumnSpec* spec : columns_of(role.name)) {
            if (!has_unit(*spec) || !spec->bare_unit.empty() || used(spec)) continue;
            const bool bare =
                name == spec->base || name == std::string(spec->base) + std::string(spec->tail);
            if (!bare && !unit_part(*spec, name)) continue;
            out.problems.push_back(
                {"unknown_unit", Severity::error, layer.file,
                 fmt::format("column '{}' {}; it is not used", shown(layer.columns[at]),
                             bare ? "does not say its unit" : "ends in a unit that is not known"),
                 fmt::format("end its name in one of {}", unit_choices(spec->dimension))});
            unit_not_known.push_back(spec);
            return;
        }
    }

    [[nodiscard]] std::optional<Error> missing() const {
        for (const ColumnSpec* spec : columns_of(role.name)) {
            if (!spec->required || used(spec)) continue;
            return missing(*spec);
        }
        if (role.name != "hay") return std::nullopt;
        const auto found = [this](std::string_view book) {
            return std::any_of(out.uses.begin(), out.uses.end(),
                               [book](const ColumnUse& use) { return use.spec->book == book; });
        };
        if (found("bale_kg") || found("bale_size")) return std::nullopt;
        for (const ColumnSpec* spec : columns_of(role.name)) {
            if (spec->book == "bale_kg") return missing(*spec);
        }
        return std::nullopt;
    }

    [[nodiscard]] Error missing(const ColumnSpec& spec) const {
        for (std::size_t i = 0; i < unit_not_known.size(); ++i) {
            if (unit_not_known[i] != &spec) continue;
            for (const Problem& problem : out.problems) {
                if (problem.code != "unknown_unit" ||
                    problem.text.find(spec.base) == std::string::npos) {
                    continue;
                }
                return {"unknown_unit", fmt::format("{}: {}", layer.file, problem.text), layer.file,
                        problem.remedy};
            }
        }
        const std::string_view units = unit_choices(spec.dimension);
        return {"missing_required_column",
                fmt::format("{} has no column '{}'{}", layer.file, spec.base,
                            units.empty() ? "" : fmt::format(" (ending in one of {})", units)),
                layer.file,
                "add the column, or say in columns.csv which of the file's columns it is"};
    }
};

}  // namespace

std::string plain_heading(const std::string& heading) {
    std::string out;
    for (const char c : lower_ascii(trimmed(heading))) {
        const bool joint = c == ' ' || c == '-' || c == '(' || c == ')' || c == '_' || c == '/';
        if (!joint) out += c;
        if (joint && !out.empty() && out.back() != '_') out += '_';
    }
    while (!out.empty() && out.back() == '_') out.pop_back();
    return out;
}

Result<ColumnMatch> match_columns(const RoleInfo& role, const SourceLayer& layer,
                                  const std::vector<ColumnAlias>& aliases) {
    Matching matching{role, layer, {}, {}};
    std::vector<std::size_t> rest;
    for (std::size_t i = 0; i < layer.columns.size(); ++i) {
        if (!matching.take(i, looked_up(role, layer.columns[i], aliases))) rest.push_back(i);
    }
    for (const std::size_t i : rest)
        matching.suspect(i, looked_up(role, layer.columns[i], aliases));
    if (const auto error = matching.missing()) return fail(*error);
    return std::move(matching.out);
}

}  // namespace haylane
