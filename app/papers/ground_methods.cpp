// The end of the report: change, soil tests, what the words mean, how it was worked out, who says
// so.
#include "app/papers/ground_charts.h"
#include "app/papers/ground_ramp.h"
#include "app/papers/ground_report.h"
#include "core/base/units.h"
#include "core/season/rank_statistics.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

namespace haylane {
namespace {

using Rows = std::vector<std::vector<QString>>;

QString to_q(const std::string& text) { return QString::fromStdString(text); }
QString to_q(std::string_view text) {
    return QString::fromUtf8(text.data(), static_cast<qsizetype>(text.size()));
}

// Where many cells lie: the size that 99 of 100 cells that changed do not reach, so that one spot
// does not make the rest pale.
double usual_most(const ReportPaper& paper) {
    std::vector<double> sizes;
    for (const GroundPicture& picture : paper.input.pictures) {
        for (const float value : picture.change_per_m2.values) {
            if (std::isfinite(value) && std::abs(value) > 1e-9F)
                sizes.push_back(std::abs(static_cast<double>(value)));
        }
    }
    return sizes.empty() ? 0.0 : quantile(sizes, 0.99);
}

// The boxes of pastures that were ever fed.
Box fed_box(const ReportPaper& paper) {
    Box box;
    for (const PastureAccount& account : paper.account().pastures) {
        if (account.all_ledger.feedings == 0) continue;
        const Box own = box_of(paper.ranch()[account.pasture].shape);
        box.add({own.min_x, own.min_y});
        box.add({own.max_x, own.max_y});
    }
    return box.empty() ? box : box.grown_by(60.0);
}

void put_map(Flow& flow, const ReportPaper& paper, const Box& box, double most_height,
             const MapContent& content) {
    if (box.empty()) return;
    const double height =
        std::min(most_height, flow.width() * (box.max_y - box.min_y) / (box.max_x - box.min_x));
    flow.need(height);
    const QRectF place(flow.left(), flow.y(), flow.width(), height);
    const MapRecord record = paint_map(flow.sheet().painter(), {box, place}, paper.ranch(), content,
                                       {.text_pt = 8, .metric = paper.words.metric()}, nullptr);
    for (const PlacedText& text : record.texts)
        flow.sheet().note(text.text, text.box, text.size_pt);
    flow.gap(height + 4.0);
}

std::vector<LegendEntry> change_legend(const ReportPaper& paper, double most) {
    std::vector<LegendEntry> entries;
    const SeasonMeasure shown = paper.account().shown;
    for (int fifth = -5; fifth <= 5; ++fifth) {
        const double value = paper.words.rate_value(most * fifth / 5.0, shown);
        const QString size = QString::number(std::abs(value), 'g', 2);
        QString label =
            fifth == 0
                ? QStringLiteral("as before")
                : (fifth < 0 ? QStringLiteral("less by ") : QStringLiteral("more by ")) + size;
        if (std::abs(fifth) == 5) label += QStringLiteral(" and over");
        entries.push_back({change_color(fifth / 5.0), label});
    }
    return entries;
}

void paint_chance(Flow& flow, const ReportPaper& paper) {
    MapContent content;
    Box box;  // of the pastures shown
    for (const GroundPicture& picture : paper.input.pictures) {
        if (greatest(picture.chance_over) <= 0.0) continue;
        content.pictures.push_back(chance_picture(picture.chance_over));
        box.add({content.pictures.back().at.min_x, content.pictures.back().at.min_y});
        box.add({content.pictures.back().at.max_x, content.pictures.back().at.max_y});
    }
    if (content.pictures.empty()) return;
    flow.need(330.0);
    flow.heading(QStringLiteral("Chance of being over a limit in these dates"));
    put_map(flow, paper, box.grown_by(30.0), 280.0, content);
    flow.gap(paint_legend(flow.sheet(), {flow.left(), flow.y()}, flow.width(),
                          QStringLiteral("tries of 100 that are over a limit the ranch has set"),
                          {{load_color(0.0), QStringLiteral("under 12")},
                           {load_color(0.25), QStringLiteral("12 to 37")},
                           {load_color(0.5), QStringLiteral("38 to 62")},
                           {load_color(0.75), QStringLiteral("63 to 87")},
                           {load_color(1.0), QStringLiteral("over 87")}}));
    flow.paragraph(Rich(paper.under_line(paper.account().ledger.provenance)));
}

struct MethodDots {
    std::vector<ScatterDot> p;
    std::vector<ScatterDot> k;
};

std::map<QString, MethodDots> soil_dots(const ReportPaper& paper) {
    std::map<QString, MethodDots> by_method;
    for (const PastureAccount& account : paper.account().pastures) {
        for (const SoilPoint& point : account.soil) {
            const SoilSample& sample = paper.ranch().soil[point.sample];
            MethodDots& dots = by_method[to_q(sample.method)];
            if (sample.p_ppm)
                dots.p.push_back({paper.words.rate_value(point.p2o5_per_m2, SeasonMeasure::p2o5),
                                  *sample.p_ppm});
            if (sample.k_ppm)
                dots.k.push_back(
                    {paper.words.rate_value(point.k2o_per_m2, SeasonMeasure::k2o), *sample.k_ppm});
        }
    }
    return by_method;
}

QString relation_sentence(const SoilRelation& relation) {
    const auto say = [](const std::optional<double>& rank) {
        return rank ? QString::number(*rank, 'f', 2) : QStringLiteral("not known");
    };
    return QStringLiteral(
               "%1: %2 samples were taken after feeding began there; rank correlation "
               "%3 for P with P2O5 put down, %4 for K with K2O.%5")
        .arg(to_q(relation.method))
        .arg(relation.samples)
        .arg(say(relation.p_rank), say(relation.k_rank),
             relation.samples < 10 ? QStringLiteral(" So few samples prove little.") : QString());
}

void paint_terms(Flow& flow) {
    flow.heading(QStringLiteral("What the words mean"));
    const Rows rows{
        {QStringLiteral("word"), QStringLiteral("meaning")},
        {QStringLiteral("N on the ground"),
         QStringLiteral("nitrogen in left-over hay, dung and urine after part of it went off as "
                        "gas. All maps and tables show this one. Three others are not the same: N "
                        "excreted (gas not taken off), N that plants can take up (given by year in "
                        "the text of each pasture), N that comes back in forage (about a third in "
                        "Saskatchewan trials)")},
        {QStringLiteral("P2O5, K2O"),
         QStringLiteral("phosphorus and potassium as fertiliser is sold: P x 2.2914, K x 1.2046")},
        {QStringLiteral("feed ground"),
         QStringLiteral("ground that may be fed on in dry weather: off setbacks, fence strips and "
                        "steep places")},
        {QStringLiteral("low quarter, high tenth, most"),
         QStringLiteral("mean of the lightest quarter of feed ground, mean of its heaviest tenth, "
                        "its heaviest spot, as a soil core or a spreader sees them (over about a "
                        "third of an acre)")},
        {QStringLiteral("CV"),
         QStringLiteral("coefficient of variation: the usual distance from the mean over the mean. "
                        "0 is even; spread manure aims at 0.2 to 0.3; above 1 much ground has "
                        "little. No published target for hay fed on pasture was found")},
        {QStringLiteral("CU, Gini"),
         QStringLiteral("Christiansen's coefficient: 1 less the mean distance from the mean over "
                        "the mean; 1 is even, below 0 very uneven. Gini: 0 is even, 1 all in one "
                        "spot")},
        {QStringLiteral("animal-days"),
         QStringLiteral("hay eaten over what one animal eats a day, laid where the hay lay")},
        {QStringLiteral("of 100 tries, 80 lie in"),
         QStringLiteral("the uncertain numbers were drawn anew many times within their ranges; a "
                        "tenth of the results lie below the first figure, a tenth above the "
                        "second")},
        {QStringLiteral("curve"),
         QStringLiteral("how much of the load lies on the lightest part of the ground; the dashed "
                        "line is even ground")},
        {QStringLiteral("recalled, assumed"),
         QStringLiteral("feedings put on record from memory, or planned and never confirmed. Where "
                        "they are over a quarter, classes stand for numbers")}};
    flow.table({0.22, 0.78}, rows);
    flow.gap(6.0);
}

void paint_how(Flow& flow) {
    flow.heading(QStringLiteral("How it was worked out"));
    for (const char* text :
         {"Hay brings N = protein / 6.25, P and K by its test or its kind's table. What is wasted "
          "stays where it was laid. Of what is eaten, animals keep a little; the rest falls near "
          "the line, by water, at shelter and anywhere, by the shares below, inside the fence and "
          "with no mass lost. Dung N follows Zanton and Heinrichs (2008); urine N is the rest; gas "
          "takes shares of both (Whitehead 1990).",
          "Plants get 35, 12 and 5 % of dung N in three years, 25, 12 and 5 % of left-over hay's "
          "(Cornell's shares for manure), and once 36 % of urine N (Saskatchewan). Worth: price of "
          "a product over its grade, less its N (New Mexico State A-133); plants are planned to "
          "get 35 % of N, 85 % of P and K (Missouri).",
          "Water: straight distance to mapped water and wells, and the way melt water runs by the "
          "terrain (O'Callaghan and Mark 1984). The terrain does not show culverts, drifts or ice. "
          "Hay takes off 13 lb P2O5 a ton (Ohio).",
          "Nothing is taken off for grazing, leaching or runoff since: these are amounts put down, "
          "not amounts there now. A soil test tells what is there."}) {
        flow.paragraph(Rich(QString::fromUtf8(text)));
        flow.gap(3.0);
    }
    flow.gap(4.0);
}

void paint_ranges(Flow& flow, const ReportPaper& paper) {
    flow.heading(QStringLiteral("Uncertain numbers and their ranges (%1 tries, seed %2)")
                     .arg(paper.account().uncertainty.draws)
                     .arg(paper.account().uncertainty.seed));
    Rows rows{{QStringLiteral("what"), QStringLiteral("from"), QStringLiteral("most likely"),
               QStringLiteral("to"), QStringLiteral("who says so")}};
    for (const ParameterRange& range : parameter_ranges()) {
        const double mode = range.setting != nullptr ? paper.ranch().settings.*range.setting : 1.0;
        const bool share = range.setting != nullptr && range.key != "sigma_line_m";
        const bool length = range.key == "sigma_line_m";
        const auto say = [&](double value) {
            if (share) return QString::number(100.0 * value, 'g', 3) + QStringLiteral(" %");
            if (length)
                return paper.words.metric()
                           ? QString::number(value, 'g', 2) + QStringLiteral(" m")
                           : QString::number(value / units::kMetersPerFoot, 'f', 0) +
                                 QStringLiteral(" ft");
            return QStringLiteral("x ") + QString::number(value, 'f', 2);
        };
        rows.push_back({to_q(range.meaning), say(std::min(range.low, mode)), say(mode),
                        say(std::max(range.high, mode)), to_q(range.source)});
    }
    flow.table({0.36, 0.08, 0.10, 0.08, 0.38}, rows);
    flow.gap(4.0);
    flow.paragraph(Rich(QStringLiteral(
        "All other numbers, each with its source and whether it is measured, assumed or the "
        "ranch's own, stand in ground.json under assumptions.")));
}

}  // namespace

void paint_change(Flow& flow, const ReportPaper& paper) {
    const double most = usual_most(paper);
    if (most > 0.0) {
        MapContent content;
        for (const GroundPicture& picture : paper.input.pictures) {
            if (picture.change_per_m2.grid.size() > 0)
                content.pictures.push_back(change_picture(picture.change_per_m2, most));
        }
        flow.start_page();
        flow.heading(QStringLiteral("Against the season before"));
        flow.paragraph(Rich(QStringLiteral(
            "What these dates brought, less what the season before brought. Paler than the grey is "
            "less, darker is more.")));
        flow.gap(3.0);
        put_map(flow, paper, fed_box(paper), 420.0, content);
        flow.gap(paint_legend(
            flow.sheet(), {flow.left(), flow.y()}, flow.width(),
            QStringLiteral("%1, %2, %3")
                .arg(GroundWords::name(paper.account().shown),
                     paper.words.rate_unit(paper.account().shown), to_q(paper.account().span.name)),
            change_legend(paper, most)));
        flow.paragraph(Rich(paper.under_line(paper.account().all_ledger.provenance)));
        flow.gap(8.0);
    }
    paint_chance(flow, paper);
}

void paint_soil(Flow& flow, const ReportPaper& paper) {
    const auto by_method = soil_dots(paper);
    if (by_method.empty()) return;
    flow.start_page();
    flow.heading(QStringLiteral("Soil tests beside what had been put down by then"));
    const QString unit = paper.words.rate_unit(SeasonMeasure::p2o5);
    for (const auto& [method, dots] : by_method) {
        constexpr double kHeight = 150.0;
        flow.need(kHeight + 20.0);
        flow.paragraph(Rich(method.isEmpty() ? QStringLiteral("method not given") : method, true));
        const double width = 0.47 * flow.width();
        paint_scatter(flow.sheet(), QRectF(flow.left(), flow.y(), width, kHeight), dots.p,
                      QStringLiteral("P2O5 put down before the sample, ") + unit,
                      QStringLiteral("soil P, ppm"));
        paint_scatter(flow.sheet(),
                      QRectF(flow.left() + 0.53 * flow.width(), flow.y(), width, kHeight), dots.k,
                      QStringLiteral("K2O put down before the sample, ") + unit,
                      QStringLiteral("soil K, ppm"));
        flow.gap(kHeight + 6.0);
    }
    for (const SoilRelation& relation : paper.account().soil_relations)
        flow.paragraph(Rich(relation_sentence(relation)));
    flow.gap(2.0);
    flow.paragraph(Rich(QStringLiteral(
        "Laboratories' methods are not mixed. 1 means that the more was put down the more the test "
        "finds, 0 no tie, -1 the reverse. Nitrate is left out, as it does not stay.")));
    flow.gap(6.0);
}

void paint_methods(Flow& flow, const ReportPaper& paper) {
    flow.start_page();
    paint_terms(flow);
    paint_how(flow);
    paint_ranges(flow, paper);
}

}  // namespace haylane
