#include "gis/exchange/ground_csv.h"

#include "core/base/units.h"
#include "core/season/value_class.h"

#include <array>
#include <cmath>
#include <vector>

#include <fmt/format.h>

namespace haylane {

namespace {

using Row = std::vector<std::string>;

std::string quoted(const std::string& text) {
    if (text.find_first_of(",\"\r\n") == std::string::npos) return text;
    std::string result = "\"";
    for (const char c : text) result += c == '"' ? std::string("\"\"") : std::string(1, c);
    return result + "\"";
}

// What one row is about.
struct Subject {
    const PastureAccount& account;
    std::string span;
    const Ledger& ledger;
    const std::array<LoadFigures, 3>& figures;
    const std::optional<Worth>& worth;
    bool is_span = false;  // the span asked for: available N stands there
};

class Table {
  public:
    Table(const Ranch& ranch, bool metric) : ranch_(ranch), metric_(metric) {}

    [[nodiscard]] Row head() const {
        const std::string area = metric_ ? "ha" : "ac";
        const std::string mass = metric_ ? "kg" : "lb";
        Row row{"pasture",
                "span",
                "shows",
                "area_" + area,
                "feedings",
                "bales",
                metric_ ? "hay_t_dm" : "hay_tons_dm",
                "animal_days_per_" + area};
        for (const char* nutrient : {"n", "p2o5", "k2o"}) {
            for (const char* what : {"mean", "low_quarter", "high_tenth", "max", "limit"})
                row.push_back(fmt::format("{}_{}_{}_per_{}", nutrient, what, mass, area));
            for (const char* what : {"cv", "cu", "low_quarter"})
                row.push_back(fmt::format("{}_{}_ratio", nutrient, what));
            for (const char* what : {"untouched", "over_limit"})
                row.push_back(fmt::format("{}_{}_pct", nutrient, what));
        }
        row.push_back("n_lost_gas_" + mass);
        for (const char* year : {"1", "2", "3"})
            row.push_back(fmt::format("available_n_year_{}_{}_per_{}", year, mass, area));
        for (const char* name : {"worth_full", "worth_available", "gps_pct", "entered_pct",
                                 "recalled_pct", "assumed_pct", "n_shown"})
            row.emplace_back(name);
        return row;
    }

    [[nodiscard]] Row row(const Subject& s) const {
        const Provenance& from = s.ledger.provenance;
        const bool numbers = from.shows_numbers();
        const double area = s.account.area_m2;
        const auto plain = [&](double value) { return figure(value, numbers); };
        const auto rate = [&](double per_m2) { return plain(per_m2 * per_area()); };
        Row row{ranch_[s.account.pasture].name,
                s.span,
                numbers ? "numbers" : "classes",
                figure(area / m2_an_area(), true),
                fmt::format("{}", s.ledger.feedings),
                plain(s.ledger.bales),
                plain(s.ledger.hay_dm_kg / (metric_ ? units::kKgPerTonne : units::kKgPerShortTon)),
                plain(s.ledger.animal_days / area * m2_an_area())};
        for (const LoadFigures& load : s.figures) {
            for (const double value : {load.mean_per_m2, load.low_quarter_per_m2,
                                       load.high_tenth_per_m2, load.max_per_m2})
                row.push_back(rate(value));
            row.push_back(load.limit_per_m2 ? figure(*load.limit_per_m2 * per_area(), true) : "");
            const Evenness even = load.even.value_or(Evenness{});
            for (const double value : {even.cv_ratio, even.cu_ratio, even.low_quarter_ratio})
                row.push_back(load.even ? plain(value) : "");
            row.push_back(load.even ? plain(100.0 * even.untouched_ratio) : "");
            row.push_back(load.limit_per_m2 ? plain(100.0 * load.over_limit_ratio) : "");
        }
        row.push_back(plain(s.ledger.n_lost_gas_kg / (metric_ ? 1.0 : units::kKgPerPound)));
        for (const double kg : s.account.available_n_kg)
            row.push_back(s.is_span ? rate(kg / area) : "");
        row.push_back(s.worth ? plain(s.worth->full) : "");
        row.push_back(s.worth ? plain(s.worth->available) : "");
        const double all = from.all_bales();
        for (const double bales :
             {from.gps_bales, from.entered_bales, from.recalled_bales, from.assumed_bales})
            row.push_back(all > 0.0 ? figure(100.0 * bales / all, true) : "");
        row.emplace_back("on ground after gas loss");
        return row;
    }

  private:
    [[nodiscard]] double m2_an_area() const {
        return metric_ ? units::kM2PerHectare : units::kM2PerAcre;
    }
    [[nodiscard]] double per_area() const {
        return m2_an_area() / (metric_ ? 1.0 : units::kKgPerPound);
    }
    [[nodiscard]] static std::string figure(double value, bool number) {
        if (!std::isfinite(value)) return "";
        if (number) return fmt::format("{:.6g}", value);
        const ValueClass found = class_of(value);
        return found.from == found.to ? fmt::format("{:g}", found.from)
                                      : fmt::format("{:g}-{:g}", found.from, found.to);
    }

    const Ranch& ranch_;
    bool metric_;
};

std::string line_of(const Row& row) {
    std::string line;
    for (const std::string& cell : row) line += (line.empty() ? "" : ",") + quoted(cell);
    return line + "\r\n";
}

}  // namespace

std::string ground_csv(const GroundAccount& ground, const Ranch& ranch, bool metric) {
    const Table table(ranch, metric);
    std::string text = line_of(table.head());
    for (const PastureAccount& account : ground.pastures) {
        for (const SeasonLine& season : account.seasons) {
            if (season.ledger.feedings == 0 || season.span.name == ground.span.name) continue;
            const auto worth = fertilizer_worth(season.ledger.on_ground, ranch.settings);
            text += line_of(table.row(
                {account, season.span.name, season.ledger, season.figures, worth, false}));
        }
        const std::array<LoadFigures, 3> figures{account.figures[0], account.figures[1],
                                                 account.figures[2]};
        text += line_of(
            table.row({account, ground.span.name, account.ledger, figures, account.worth, true}));
        text += line_of(table.row({account, "since first record", account.all_ledger,
                                   account.all_figures, account.all_worth, false}));
    }
    return text;
}

}  // namespace haylane
