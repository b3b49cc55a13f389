// The cover: three answers in words over the map they come from.
#include "app/papers/ground_charts.h"
#include "app/papers/ground_report.h"

#include <algorithm>
#include <cmath>

namespace haylane {
namespace {

constexpr int kTitle = 20;
constexpr int kAnswer = 11;
constexpr int kFootText = 9;
constexpr double kFoot = 172.0;  // room under the map for legend, advice and curve

std::vector<double> ranch_curve(const ReportPaper& paper) {
    std::vector<const Raster<float>*> loads;
    for (const GroundPicture& picture : paper.input.pictures) {
        if (paper.ranch()[picture.pasture].feed) loads.push_back(&picture.shown_per_m2);
    }
    return curve_over(loads);
}

QString how_much(const ReportPaper& paper) {
    const Ledger& books = paper.account().ledger;
    const Provenance& from = books.provenance;
    const GroundWords& w = paper.words;
    QString text =
        QStringLiteral(
            "%1 bales, %2 of hay dry matter, were fed. They left %3 of N, %4 "
            "of P2O5 and %5 of K2O on the ground; %6 of N went off as gas.")
            .arg(w.count(books.bales, from), w.tons(books.hay_dm_kg, from),
                 w.mass(books.on_ground.n_kg, from), w.mass(books.on_ground.p2o5_kg, from),
                 w.mass(books.on_ground.k2o_kg, from), w.mass(books.n_lost_gas_kg, from));
    if (const auto worth = fertilizer_worth(books.on_ground, paper.ranch().settings))
        text += QStringLiteral(
                    " As bought fertiliser that is worth %1, of which plants are planned "
                    "to get %2.")
                    .arg(w.money(worth->full, from), w.money(worth->available, from));
    return text;
}

QString where_too_much(const ReportPaper& paper) {
    QStringList over;
    for (const Advice& advice : paper.account().advice) {
        if (advice.kind == AdviceKind::rest)
            over += QString::fromStdString(paper.ranch()[advice.pasture].name);
    }
    QStringList near;
    for (const PastureAccount& account : paper.account().pastures) {
        const double all = account.all_figures[1].total;
        if (all > 0.0 && account.all_exposure.water_in_100.p2o5_kg > 0.02 * all)
            near += QStringLiteral("%1 (%2)").arg(
                QString::fromStdString(paper.ranch()[account.pasture].name),
                GroundWords::percent(account.all_exposure.water_in_100.p2o5_kg / all));
    }
    QString text = over.isEmpty()
                       ? QStringLiteral("No pasture is over a limit that the ranch has set.")
                       : QStringLiteral("Over a limit, or far above the rest of the ranch: %1.")
                             .arg(over.join(QStringLiteral(", ")));
    if (!near.isEmpty())
        text +=
            QStringLiteral(" With more than 2 % of their P2O5 within %1 of off-limits water: %2.")
                .arg(paper.words.metric() ? QStringLiteral("30 m") : QStringLiteral("100 ft"),
                     near.join(QStringLiteral(", ")));
    return text;
}

double put_answer(Sheet& sheet, double y, const QString& question, const QString& answer) {
    const QRectF area = sheet.area();
    Rich text(question + QStringLiteral("  "), true);
    text.add(answer);
    return y + sheet.put(text, kAnswer, {area.left(), y}, area.width()) + 5.0;
}

MapContent content_of(const ReportPaper& paper) {
    MapContent content;
    const SeasonMeasure shown = paper.account().shown;
    for (std::size_t p = 0; p < paper.input.pictures.size(); ++p) {
        const PastureAccount& account = paper.account().pastures[p];
        add_load(content, paper.input.pictures[p].shown_per_m2, shown, account[shown].limit_per_m2,
                 paper.words);
        content.first_names.push_back(paper.ranch()[account.pasture].name);
    }
    return content;
}

// The first few pastures of a kind, with the nutrient that decides.
QString first_of(const ReportPaper& paper, AdviceKind kind) {
    QStringList names;
    for (const Advice& advice : paper.account().advice) {
        if (advice.kind == kind && advice.rank <= 4)
            names += QStringLiteral("%1. %2 (%3)")
                         .arg(advice.rank)
                         .arg(QString::fromStdString(paper.ranch()[advice.pasture].name),
                              QString::fromStdString(advice.nutrient));
    }
    return names.isEmpty() ? QStringLiteral("none") : names.join(QStringLiteral(", "));
}

// Advice in short and what the figures mean at the left, the curve at the right.
void paint_foot(Sheet& sheet, const ReportPaper& paper, double y,
                const std::vector<double>& curve) {
    const QRectF area = sheet.area();
    const double curve_width = 150.0;
    const double width = area.width() - curve_width - 14.0;
    paint_curve(sheet, QRectF(area.right() - curve_width, y, curve_width, 128.0), curve,
                GroundWords::name(paper.account().shown));
    for (const AdviceKind kind : {AdviceKind::feed_next, AdviceKind::rest}) {
        Rich text(
            kind == AdviceKind::rest ? QStringLiteral("Rest: ") : QStringLiteral("Feed next: "),
            true);
        text.add(first_of(paper, kind));
        y += sheet.put(text, kFootText, {area.left(), y}, width) + 4.0;
    }
    sheet.put(
        Rich(paper.under_line(paper.account().ledger.provenance) +
             QStringLiteral(" N is what reached the ground after gas loss. Amounts are as a "
                            "soil core or a spreader sees them, over about a third of an "
                            "acre; reasons, ranges and sources follow. Setbacks and feeding "
                            "are matters of state and local code; a licensed nutrient planner "
                            "decides.")),
        kFootText, {area.left(), y}, width);
}

}  // namespace

void paint_cover(Sheet& sheet, const ReportPaper& paper) {
    const QRectF area = sheet.area();
    const GroundAccount& account = paper.account();
    double y = area.top();
    y += sheet.put(Rich(QStringLiteral("What feeding did to the ground"), true), kTitle,
                   {area.left(), y}, area.width()) +
         2.0;
    y += sheet.put(Rich(QStringLiteral("%1, %2. Last feeding counted: %3.")
                            .arg(QString::fromStdString(paper.ranch().name),
                                 QString::fromStdString(account.span.name),
                                 QString::fromStdString(format_day(account.up_to)))),
                   kAnswer, {area.left(), y}, area.width()) +
         8.0;
    const std::vector<double> curve = ranch_curve(paper);
    y = put_answer(sheet, y, QStringLiteral("How much?"), how_much(paper));
    y = put_answer(sheet, y, QStringLiteral("How even?"),
                   GroundWords::how_even(curve, account.shown));
    y = put_answer(sheet, y, QStringLiteral("Where too much?"), where_too_much(paper));
    const Box world = box_to_show({}, paper.ranch());
    const double aspect =
        world.empty() ? 1.0 : (world.max_y - world.min_y) / (world.max_x - world.min_x);
    const double height = std::min(area.width() * aspect, area.bottom() - kFoot - y);
    const QRectF map(area.left(), y + 2.0, area.width(), height);
    const MapContent content = content_of(paper);
    const MapRecord record = paint_map(sheet.painter(), {world, map}, paper.ranch(), content,
                                       {.text_pt = 9, .metric = paper.words.metric()}, nullptr);
    for (const PlacedText& text : record.texts) sheet.note(text.text, text.box, text.size_pt);
    y = map.bottom() + 5.0;
    y += paint_legend(sheet, {area.left(), y}, area.width(),
                      load_title(account.shown, QStringLiteral("in these dates"),
                                 !content.outlines.empty(), paper.words),
                      load_legend()) +
         2.0;
    paint_foot(sheet, paper, y, curve);
}

}  // namespace haylane
