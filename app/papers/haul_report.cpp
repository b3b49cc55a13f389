#include "app/papers/haul_report.h"

#include "app/papers/assumption_table.h"
#include "app/papers/flow.h"
#include "app/papers/ground_charts.h"
#include "app/papers/safety.h"

#include <algorithm>

namespace haylane {

namespace {

constexpr int kTitle = 20;

QString text_of(const std::string& text) { return QString::fromStdString(text); }

class HaulPaper {
  public:
    HaulPaper(Sheet& sheet, const HaulReportInput& input, const QString& title, int pages)
        : in_(input),
          words_(input.ranch, input.metric),
          flow_(sheet, title, pages, Flow::Start::this_page),
          title_(title) {}

    void paint() {
        flow_.gap(flow_.sheet().put(Rich(title_, true), kTitle, {flow_.left(), flow_.y()},
                                    flow_.width()) +
                  6.0);
        for (const std::string& line : haul_lead(in_.account, words_)) paragraph(line);
        for (const HerdHaul& herd : in_.account.day.herds) paragraph(herd_haul_words(herd, words_));
        chart();
        matrix();
        days(QStringLiteral("Each rig on the same work, all herds, a day"), rig_rows());
        days(QStringLiteral("What if, all herds, a day"), what_if_rows());
        if (std::any_of(in_.what_ifs.begin(), in_.what_ifs.end(),
                        [](const HaulWhatIf& one) { return one.many_days; }))
            paragraph(many_days_caution());
        buying();
        stacks();
        reckoned_with();
        flow_.heading(QStringLiteral("On the way"));
        flow_.paragraph(Rich(safety_text()));
    }

  private:
    using Rows = std::vector<std::vector<QString>>;

    void paragraph(const std::string& text) {
        flow_.paragraph(Rich(text_of(text)));
        flow_.gap(2.0);
    }

    void chart() {
        std::vector<CostLine> lines;
        double farthest = 0.0;
        for (const HaulTrip& trip : in_.account.trips)
            if (trip.reached) farthest = std::max(farthest, trip.one_way_m);
        for (const RigWork& rig : in_.account.rigs) {
            const DistanceCost& cost = rig.on_gravel;
            if (!cost.fixed_cost_per_kg || !cost.cost_per_kg_m) continue;
            CostLine line{
                text_of(in_.ranch[rig.rig].name),
                *cost.fixed_cost_per_kg * words_.ton_kg(),
                (*cost.fixed_cost_per_kg + *cost.cost_per_kg_m * farthest) * words_.ton_kg(),
                {}};
            for (const HaulTrip& trip : in_.account.trips)
                if (trip.rig == rig.rig && trip.reached && trip.work.cost)
                    line.dots.push_back(
                        {distance(trip.one_way_m), *trip.cost_per_kg() * words_.ton_kg()});
            lines.push_back(std::move(line));
        }
        if (lines.empty() || farthest <= 0.0) return;
        constexpr double kHeight = 210.0;
        flow_.need(kHeight + 60.0);
        flow_.heading(QStringLiteral("Cost a %1 against distance").arg(text_of(words_.ton())));
        paint_cost_lines(flow_.sheet(), QRectF(flow_.left(), flow_.y(), flow_.width(), kHeight),
                         lines, distance(farthest),
                         QStringLiteral("%1 one way").arg(text_of(words_.distance_unit())),
                         QStringLiteral("%1 a %2").arg(text_of(in_.ranch.settings.currency),
                                                       text_of(words_.ton())));
        flow_.gap(kHeight + 4.0);
        flow_.paragraph(Rich(QStringLiteral(
            "Lines: level gravel. Marks: this ranch's ways, from each yard to each pasture, with "
            "warm-up and hook-up, hills and surfaces counted.")));
        for (const std::string& line : distance_words(in_.account, words_)) paragraph(line);
    }

    [[nodiscard]] double distance(double length_m) const {
        return length_m / (in_.metric ? 1000.0 : units::kMetersPerMile);
    }

    void matrix() {
        flow_.heading(
            QStringLiteral("Each yard to each pasture, one full load of the rig that is cheapest"));
        Rows rows = {{QStringLiteral("Pasture"), QStringLiteral("Yard"), QStringLiteral("Rig"),
                      text_of(words_.distance_unit()), QStringLiteral("bales"),
                      QStringLiteral("min"), text_of(words_.fuel_unit()), QStringLiteral("a load"),
                      text_of(std::string("a ") + words_.ton()), QStringLiteral("head, day")}};
        for (const HaulTrip& trip : best_trips(in_.account, in_.ranch.rigs.size())) {
            const QString pasture = text_of(in_.ranch[trip.pasture].name);
            const QString yard = text_of(in_.ranch[trip.yard].name);
            if (!trip.reached) {
                rows.push_back({pasture,
                                yard,
                                text_of("not reached: " + trip.why_not),
                                {},
                                {},
                                {},
                                {},
                                {},
                                {},
                                {}});
                continue;
            }
            const char* unsure = trip.way_checked ? "" : " (way not checked)";
            rows.push_back({pasture, yard, text_of(in_.ranch[trip.rig].name + unsure),
                            text_of(words_.distance(trip.one_way_m)), QString::number(trip.bales),
                            QString::number(trip.work.time_s / 60.0, 'f', 0),
                            text_of(words_.fuel(trip.work.fuel_l)),
                            text_of(words_.money(trip.work.cost)),
                            text_of(words_.money_a_ton(trip.cost_per_kg())),
                            text_of(words_.money(trip.cost_per_head()))});
        }
        flow_.table({0.15, 0.15, 0.14, 0.075, 0.07, 0.065, 0.065, 0.1, 0.09, 0.09}, rows);
    }

    [[nodiscard]] std::vector<QString> day_row(const std::string& name,
                                               const HaulRange& day) const {
        if (day.low.head == 0)
            return {text_of(name), QStringLiteral("reaches no herd"), {}, {}, {}, {}};
        std::optional<double> haul;
        if (day.low.cost) haul = *day.low.cost / day.low.head;
        const int missed = day.low.herds_not_reached;
        return {text_of(missed == 0 ? name
                                    : fmt::format("{} ({} not reached)", name,
                                                  words::counted(missed, "herd"))),
                text_of(words::minutes(day.low.time_s)),
                text_of(words_.fuel(day.low.fuel_l)),
                text_of(words_.wasted(day)),
                text_of(words_.money(haul)),
                text_of(words_.money_range(day.low.per_head(), day.high.per_head()))};
    }
    [[nodiscard]] Rows rig_rows() const {
        Rows rows;
        for (const RigWork& one : in_.account.rigs)
            rows.push_back(day_row(in_.ranch[one.rig].name, one.day));
        return rows;
    }
    [[nodiscard]] Rows what_if_rows() const {
        Rows rows = {day_row("as now", in_.account.day)};
        for (const HaulWhatIf& one : in_.what_ifs)
            rows.push_back(day_row(what_if_words(one.name), one.day));
        return rows;
    }
    void days(const QString& heading, Rows rows) {
        flow_.heading(heading);
        rows.insert(
            rows.begin(),
            {QString(), QStringLiteral("time"), text_of(words_.fuel_unit()),
             in_.metric ? QStringLiteral("t wasted") : QStringLiteral("tons wasted"),
             QStringLiteral("haul, a head"), QStringLiteral("haul and wasted hay, a head")});
        flow_.table({0.3, 0.15, 0.09, 0.14, 0.13, 0.19}, rows);
    }

    void buying() {
        if (in_.offers.empty()) return;
        flow_.heading(QStringLiteral("Buying a machine"));
        for (const MachineOffer& offer : in_.offers)
            for (const std::string& line : offer_words(offer, words_)) paragraph(line);
    }

    void stacks() {
        flow_.heading(QStringLiteral("Where to stack"));
        if (in_.stacks == nullptr) return paragraph(in_.why_no_stacks);
        const StackPlaces& p = *in_.stacks;
        paragraph(
            fmt::format("A year's hay, {:.0f} {}: summer haul in, {} bales a load, and winter "
                        "haul out.",
                        p.hay_kg / words_.ton_kg(), in_.metric ? "t" : "tons", kBulkBales));
        Rows rows = {{QString(), QStringLiteral("a year"), QStringLiteral("stacks")}};
        const auto add = [&](const char* name, const Siting& siting) {
            rows.push_back({text_of(name), text_of(siting_cost(siting.cost, p, words_)),
                            text_of(siting_names(siting, p))});
        };
        add("best", p.proven->best);
        if (p.proven->runner_up) add("next best", *p.proven->runner_up);
        if (p.today) add("today", *p.today);
        flow_.table({0.15, 0.15, 0.7}, rows);
        for (const std::string& line : siting_words(p, words_)) paragraph(line);
    }

    void reckoned_with() {
        flow_.heading(QStringLiteral("Reckoned with"));
        paint_assumption_table(flow_, in_.coefficients, in_.metric, in_.ranch.settings.currency);
        paragraph(fuel_source(in_.ranch.settings));
    }

    const HaulReportInput& in_;
    HaulWords words_;
    Flow flow_;
    QString title_;
};

}  // namespace

Result<RenderedSheet> render_haul_report(const HaulReportInput& input) {
    const QString title =
        QStringLiteral("Haul report, %1, %2")
            .arg(text_of(input.ranch.name), text_of(format_day(input.account.request.day.date)));
    const PaperSetup setup{title, "haul report", "haul-report.pdf", 36.0, input.letter};
    return render_paper(
        setup, [&](Sheet& sheet, int pages) { HaulPaper(sheet, input, title, pages).paint(); });
}

Result<void> write_haul_report(const std::filesystem::path& path, const HaulReportInput& input) {
    return write_paper(path, render_haul_report(input));
}

}  // namespace haylane
