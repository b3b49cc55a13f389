#include "core/trials/trial_table.h"

#include <cmath>
#include <map>

#include <fmt/format.h>

namespace haylane {

namespace {

constexpr double kRounding = 1e-9;  // shares may miss 0 and 1 by rounding

struct Reader {
    const RawRow& row;
    Problems& problems;

    void report(const char* code, Severity severity, std::string text, const char* remedy) const {
        problems.push_back({code, severity, row.where, std::move(text), remedy});
    }

    // A figure that is above 0, or 0 where `zero` allows it.
    [[nodiscard]] std::optional<double> amount(std::string_view column, bool zero = true) const {
        const auto value = row.number(column);
        if (!value) return std::nullopt;
        if (std::isfinite(*value) && (*value > 0.0 || (zero && *value == 0.0))) return value;
        report("trial_not_positive", Severity::error,
               fmt::format("column '{}' holds {:g}, which was never measured; the cell is not used",
                           column, *value),
               zero ? "write what was read, 0 or more, or leave the cell empty"
                    : "write what was read, more than 0, or leave the cell empty");
        return std::nullopt;
    }

    [[nodiscard]] std::optional<double> share(std::string_view column) const {
        const auto value = row.number(column);
        if (!value) return std::nullopt;
        if (*value >= -kRounding && *value <= 1.0 + kRounding) return value;
        report(
            "trial_share", Severity::error,
            fmt::format("column '{}' holds {:g} %; the cell is not used", column, *value * 100.0),
            "write a percentage of dry matter from 0 to 100");
        return std::nullopt;
    }

    [[nodiscard]] HaySample sample(const std::string& from) const {
        HaySample sample;
        sample.dm_ratio = share(from + "_dm_ratio");
        sample.cp_ratio = share(from + "_cp_ratio");
        sample.tdn_ratio = share(from + "_tdn_ratio");
        sample.ash_ratio = share(from + "_ash_ratio");
        return sample;
    }

    void read_date(TrialRun& run) const {
        const std::string typed = row.text("date");
        if (typed.empty()) return;
        run.date = parse_day(typed);
        if (!run.date)
            report("bad_date", Severity::error,
                   fmt::format("'{}' is no date; the run counts without one", typed),
                   "write the day as 2027-01-11");
    }

    void read_fuel(TrialRun& run) const {
        const auto weighed_kg = amount("fuel_kg", false);
        const auto read_l = amount("fuel_l", false);
        if (weighed_kg) {
            run.fuel_l = diesel_l(*weighed_kg, row.number("fuel_temp_c"));
            run.fuel_weighed = true;
            if (read_l)
                report("fuel_twice", Severity::warning,
                       "fuel stands both as a mass and as a volume; the mass is used",
                       "keep the one that was measured better");
            return;
        }
        run.fuel_l = read_l;
    }

    void read_time(TrialRun& run) const {
        run.hookup_s = amount("hookup_s");
        run.unhook_s = amount("unhook_s");
        run.feed_s = amount("feed_s", false);
        const auto each_s = amount("feed_s_per_bale", false);
        if (run.feed_s && each_s)
            report("feed_twice", Severity::warning,
                   "feeding time stands both in all and per bale; the time in all is used",
                   "keep one of the two");
        if (!run.feed_s && each_s) run.feed_s = *each_s * run.bales;
    }
};

// What a row says, to know it again.
std::string said(const RawRow& row) {
    std::string all;
    for (const auto& [column, value] : row.fields) {
        if (const auto number = row.number(column))
            all += fmt::format("{}={:.9g};", column, *number);
        else if (const std::string text = row.text(column); !text.empty())
            all += fmt::format("{}={};", column, text);
    }
    return all;
}

}  // namespace

TrialTable trial_table(std::span<const RawRow> rows) {
    TrialTable table;
    std::map<std::string, std::string> seen;  // what a row says -> where
    for (const RawRow& row : rows) {
        const Reader reader{row, table.problems};
        TrialRun run;
        run.where = row.where;
        run.rig = row.text("rig");
        if (run.rig.empty()) {
            reader.report("trial_without_rig", Severity::error,
                          "the row names no rig; it is not used", "write which rig was driven");
            continue;
        }
        const auto bales = row.number("bales");
        if (!bales || !std::isfinite(*bales) || *bales <= 0.0) {
            reader.report("trial_without_bales", Severity::error,
                          "the row does not say how many bales were fed; it is not used",
                          "write how many bales, more than 0");
            continue;
        }
        const auto [known, fresh] = seen.emplace(said(row), row.where);
        if (!fresh) {
            reader.report("trial_twice", Severity::warning,
                          fmt::format("the row says what {} says; it counts once", known->second),
                          "where two runs came out the same, tell them apart by `pair`");
            continue;
        }
        run.bales = *bales;
        run.lot = row.text("lot");
        run.pair = row.text("pair");
        reader.read_date(run);
        run.bale_kg = reader.amount("bale_kg", false);
        reader.read_time(run);
        reader.read_fuel(run);
        run.in_bale = reader.sample("bale");
        run.in_windrow = reader.sample("windrow");
        run.wind_m_per_s = reader.amount("wind_m_per_s");
        run.line_length_m = reader.amount("line_length_m", false);
        run.drift_downwind_m = reader.amount("drift_downwind_m");
        table.runs.push_back(std::move(run));
    }
    return table;
}

}  // namespace haylane
