#include "app/papers/haul_report.h"

#include "app/papers/assumption_table.h"
#include "app/papers/flow.h"
#include "app/papers/haul_chart.h"
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
        if (!has_haul_chart(in_.account)) return;
        constexpr double kHeight = 210.0;
        flow_.need(kHeight + 60.0);
        flow_.heading(text_of(haul_chart_title(words_)));
        paint_haul_chart(flow_.sheet(), QRectF(flow_.left(), flow_.y(), flow_.width(), kHeight),
                         in_.account, words_);
        flow_.gap(kHeight + 4.0);
        paragraph(haul_chart_words());
        for (const std::string& line : distance_words(in_.account, words_)) paragraph(line);
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
        std::vector<QString> row;
        for (const std::string& cell : haul_day_words(name, day, words_))
            row.push_back(text_of(cell));
        return row;
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
        std::vector<QString> head;
        for (const std::string& cell : haul_day_heads(words_)) head.push_back(text_of(cell));
        rows.insert(rows.begin(), std::move(head));
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
        paragraph(stacks_hay_words(p, words_));
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
