#include "app/papers/trial_report.h"

#include "app/papers/flow.h"
#include "app/papers/safety.h"
#include "app/papers/words.h"
#include "core/base/day.h"
#include "core/base/units.h"
#include "core/trials/own_figures.h"

#include <algorithm>

#include <fmt/format.h>

namespace haylane {

namespace {

constexpr int kTitle = 20;
constexpr int kSmall = 8;
const QColor kInk(0x1c, 0x19, 0x15);
const QColor kPale(0x9c, 0x90, 0x7c);
const QColor kBand(0xe4, 0xd9, 0xc2);

QString text_of(const std::string& text) { return QString::fromStdString(text); }

class TrialPaper {
  public:
    TrialPaper(Sheet& sheet, const TrialReportInput& input, const QString& title, int pages)
        : in_(input), flow_(sheet, title, pages, Flow::Start::this_page), title_(title) {}

    void paint() {
        flow_.gap(flow_.sheet().put(Rich(title_, true), kTitle, {flow_.left(), flow_.y()},
                                    flow_.width()) +
                  6.0);
        answers();
        dots(TrialMeasure::fuel_l_per_bale);
        dots(TrialMeasure::feed_s_per_bale);
        rigs();
        pairs();
        rows();
        method();
    }

  private:
    void answers() {
        flow_.heading(QStringLiteral("What the trials tell"));
        const auto answers = trial_answers(in_.trials, in_.words.metric);
        for (const std::string& answer : answers) {
            flow_.paragraph(Rich(text_of(answer)));
            flow_.gap(3.0);
        }
        if (answers.empty())
            flow_.paragraph(Rich(QStringLiteral(
                "No two rigs fed the same hay on the same day, so they are not compared.")));
        for (const RigTrials& rig : in_.trials.rigs) {
            const std::string worth = worth_words(rig, in_.words);
            if (!worth.empty()) flow_.paragraph(Rich(text_of(rig.rig + ": " + worth)));
        }
    }

    // One strip a rig: each feeding a dot, the mean a stroke, its interval a band.
    void dots(TrialMeasure measure) {
        double most = 0.0;
        for (const TrialRun& run : in_.runs)
            most = std::max(most, figure_of(run, measure).value_or(0.0));
        for (const RigTrials& rig : in_.trials.rigs)
            if (rig[measure].half_width)
                most = std::max(most, rig[measure].mean + *rig[measure].half_width);
        if (most <= 0.0) return;
        const SpokenMeasure how = spoken(measure, in_.words.metric);
        constexpr double kStrip = 24.0;
        const double height =
            kStrip * static_cast<double>(in_.trials.rigs.size()) + 2.0 * line_pitch(kSmall);
        flow_.need(height + 40.0);
        flow_.heading(text_of(how.name));
        const double label = 0.24 * flow_.width();
        const QRectF plot(flow_.left() + label, flow_.y(), flow_.width() - label - 24.0,
                          kStrip * static_cast<double>(in_.trials.rigs.size()));
        const auto x_of = [&](double si) { return plot.left() + si / most * plot.width(); };
        QPainter& painter = flow_.sheet().painter();
        double top = plot.top();
        for (const RigTrials& rig : in_.trials.rigs) {
            paint_strip(painter, rig, measure, QRectF(plot.left(), top, plot.width(), kStrip),
                        x_of);
            flow_.sheet().put(Rich(text_of(rig.rig)), kBackText, {flow_.left(), top + 4.0},
                              label - 8.0);
            top += kStrip;
        }
        painter.setPen(QPen(kInk, 0.7));
        painter.drawLine(plot.bottomLeft(), plot.bottomRight());
        for (const double share : {0.0, 0.5, 1.0}) {
            const QString text = text_of(how.figure(share * most));
            flow_.sheet().put(Rich(text), kSmall,
                              {x_of(share * most) - 0.5 * width_of(text, kSmall), top + 2.0},
                              width_of(text, kSmall) + 4.0);
        }
        flow_.gap(height);
    }

    template <typename XOf>
    void paint_strip(QPainter& painter, const RigTrials& rig, TrialMeasure measure,
                     const QRectF& strip, const XOf& x_of) const {
        const MeanInterval& mean = rig[measure];
        const double middle = strip.center().y();
        if (mean.half_width) {
            const double from = x_of(std::max(0.0, mean.mean - *mean.half_width));
            const double to = x_of(mean.mean + *mean.half_width);
            painter.fillRect(QRectF(from, middle - 6.0, to - from, 12.0), kBand);
        }
        painter.setPen(QPen(kPale, 0.5));
        painter.drawLine(QPointF(strip.left(), middle), QPointF(strip.right(), middle));
        if (mean.n > 0) {
            painter.setPen(QPen(kInk, 1.5));
            const double x = x_of(mean.mean);
            painter.drawLine(QPointF(x, middle - 8.0), QPointF(x, middle + 8.0));
        }
        painter.setPen(QPen(kInk, 0.6));
        painter.setBrush(Qt::white);
        for (const TrialRun& run : in_.runs) {
            if (run.rig != rig.rig) continue;
            if (const auto value = figure_of(run, measure))
                painter.drawEllipse(QPointF(x_of(*value), middle), 2.6, 2.6);
        }
        painter.setBrush(Qt::NoBrush);
    }

    void rigs() {
        for (const RigTrials& rig : in_.trials.rigs) {
            flow_.heading(text_of(fmt::format("{}: {}, {:g} bales", rig.rig,
                                              words::counted(rig.runs, "feeding"), rig.bales)));
            std::vector<std::vector<QString>> rows = {
                {QStringLiteral("Measure"), QStringLiteral("Mean"),
                 QStringLiteral("Likely between"), QStringLiteral("Feedings")}};
            for (const TrialMeasure m : kTrialMeasures) {
                if (rig[m].n == 0) continue;
                const SpokenMeasure how = spoken(m, in_.words.metric);
                rows.push_back({text_of(how.name), text_of(how.figure(rig[m].mean)),
                                text_of(how.interval(rig[m])), QString::number(rig[m].n)});
            }
            flow_.table({0.4, 0.15, 0.3, 0.15}, rows);
            if (rig.runs < kLeastTrials)
                flow_.paragraph(Rich(text_of(
                    fmt::format("Fewer than {} feedings show little: feed more by it. Plans and "
                                "hauls keep to the model until then.",
                                kLeastTrials))));
        }
    }

    void pairs() {
        for (const RigPair& pair : in_.trials.pairs) {
            flow_.heading(text_of(fmt::format("{} less {}, {} on the same hay", pair.b, pair.a,
                                              words::counted(pair.pairs, "pair"))));
            std::vector<std::vector<QString>> rows = {
                {QStringLiteral("Measure"), text_of(pair.a), text_of(pair.b),
                 QStringLiteral("Difference"), QStringLiteral("What it tells")}};
            for (const PairedTrial& one : pair.measures) {
                const SpokenMeasure how = spoken(one.measure, in_.words.metric);
                rows.push_back({text_of(how.name), text_of(how.figure(one.mean_a)),
                                text_of(how.figure(one.mean_b)),
                                text_of(how.figure(one.difference.mean)),
                                text_of(verdict_words(one, pair, how))});
            }
            flow_.table({0.26, 0.14, 0.14, 0.13, 0.33}, rows);
        }
        if (!in_.trials.pairs.empty() && !in_.trials.unpaired.empty())
            flow_.paragraph(Rich(
                text_of(words::counted(static_cast<int>(in_.trials.unpaired.size()), "feeding") +
                        " without a partner.")));
    }

    void rows() {
        flow_.heading(QStringLiteral("Every feeding"));
        const SpokenMeasure fuel = spoken(TrialMeasure::fuel_l_per_bale, in_.words.metric);
        const SpokenMeasure feed = spoken(TrialMeasure::feed_s_per_bale, in_.words.metric);
        std::vector<std::vector<QString>> rows = {{QStringLiteral("Day"), QStringLiteral("Rig"),
                                                   QStringLiteral("Hay"), QStringLiteral("Bales"),
                                                   text_of(fuel.name), text_of(feed.name),
                                                   QStringLiteral("Fuel by")}};
        const auto said = [](const std::optional<double>& si, const SpokenMeasure& how) {
            return si ? text_of(how.figure(*si)) : QString();
        };
        for (const TrialRun& run : in_.runs)
            rows.push_back({run.date ? text_of(format_day(*run.date)) : QString(), text_of(run.rig),
                            text_of(run.lot), QString::number(run.bales),
                            said(figure_of(run, TrialMeasure::fuel_l_per_bale), fuel),
                            said(figure_of(run, TrialMeasure::feed_s_per_bale), feed),
                            !run.fuel_l        ? QString()
                            : run.fuel_weighed ? QStringLiteral("weight")
                                               : QStringLiteral("volume")});
        flow_.table({0.15, 0.2, 0.2, 0.09, 0.13, 0.13, 0.1}, rows);
    }

    void method() {
        flow_.heading(QStringLiteral("How it is worked out"));
        flow_.paragraph(Rich(QStringLiteral(
            "Fuel weighed is made into volume by 7.0 lb a US gallon at 60 °F (0.839 kg a liter), "
            "thinner when warmer. Protein and TDN lost are the bale's share less the row's, of dry "
            "matter; where both samples tell ash, of organic matter, so that soil in the row does "
            "not count as loss. \"Likely between\" holds the true mean 95 times in 100 (Student's "
            "t). Two rigs are compared over pairs: feedings of the same hay on the same day. A "
            "band holds the likely mean, the stroke in it is the mean, each ring a feeding.")));
        flow_.gap(6.0);
        flow_.heading(QStringLiteral("Before a trial"));
        flow_.paragraph(Rich(safety_text()));
    }

    const TrialReportInput& in_;
    Flow flow_;
    QString title_;
};

}  // namespace

Result<RenderedSheet> render_trial_report(const TrialReportInput& input) {
    QString title = QStringLiteral("Rig trial report");
    if (!input.ranch.empty()) title += QStringLiteral(", ") + text_of(input.ranch);
    const PaperSetup setup{title, "rig trial report", "trial-report.pdf", 36.0, input.letter};
    return render_paper(
        setup, [&](Sheet& sheet, int pages) { TrialPaper(sheet, input, title, pages).paint(); });
}

Result<void> write_trial_report(const std::filesystem::path& path, const TrialReportInput& input) {
    return write_paper(path, render_trial_report(input));
}

}  // namespace haylane
