// Tables over all pastures, advice, and a page for each pasture that was fed.
#include "app/papers/ground_charts.h"
#include "app/papers/ground_report.h"

#include <algorithm>
#include <cmath>

namespace haylane {
namespace {

using Rows = std::vector<std::vector<QString>>;

QString to_q(const std::string& text) { return QString::fromStdString(text); }

const Advice* advice_for(const ReportPaper& paper, PastureId pasture) {
    for (const Advice& advice : paper.account().advice) {
        if (advice.pasture == pasture) return &advice;
    }
    return nullptr;
}

QString sentences(const std::vector<std::string>& items) {
    QStringList all;
    for (const std::string& item : items) all += to_q(item);
    return all.join(QLatin1Char(' '));
}

void put_under(Flow& flow, const ReportPaper& paper, const Provenance& from) {
    flow.gap(2.0);
    flow.paragraph(Rich(paper.under_line(from)));
    flow.gap(6.0);
}

// One row a nutrient: this span.
Rows nutrient_rows(const ReportPaper& paper, const PastureAccount& account) {
    const GroundWords& w = paper.words;
    const Provenance& from = account.ledger.provenance;
    Rows rows{{QStringLiteral("these dates, ") + w.rate_unit(SeasonMeasure::n),
               QStringLiteral("mean"), QStringLiteral("of 100 tries, 80 lie in"),
               QStringLiteral("low quarter"), QStringLiteral("high tenth"), QStringLiteral("most"),
               QStringLiteral("CV"), QStringLiteral("over limit")}};
    for (std::size_t k = 0; k < 3; ++k) {
        const SeasonMeasure measure = kSeasonMeasures[k];
        const LoadFigures& load = account.figures[k];
        const auto rate = [&](double value) { return w.rate(value, measure, from); };
        rows.push_back(
            {GroundWords::name(measure), rate(load.mean_per_m2),
             account.bands ? w.band(account.bands->nutrients[k].mean_per_m2, measure, from)
                           : QString(),
             rate(load.low_quarter_per_m2), rate(load.high_tenth_per_m2), rate(load.max_per_m2),
             load.even ? w.ratio(load.even->cv_ratio, from) : QString(),
             load.limit_per_m2 ? GroundWords::percent(load.over_limit_ratio)
                               : QStringLiteral("no limit")});
    }
    return rows;
}

Rows all_rows(const ReportPaper& paper, const PastureAccount& account) {
    const GroundWords& w = paper.words;
    const Provenance& from = account.all_ledger.provenance;
    Rows rows{{QStringLiteral("since the first record"), QStringLiteral("mean"),
               QStringLiteral("low quarter"), QStringLiteral("high tenth"), QStringLiteral("most"),
               QStringLiteral("CV"), QStringLiteral("limit"), QStringLiteral("over it")}};
    for (std::size_t k = 0; k < 3; ++k) {
        const SeasonMeasure measure = kSeasonMeasures[k];
        const LoadFigures& load = account.all_figures[k];
        const auto rate = [&](double value) { return w.rate(value, measure, from); };
        rows.push_back(
            {GroundWords::name(measure), rate(load.mean_per_m2), rate(load.low_quarter_per_m2),
             rate(load.high_tenth_per_m2), rate(load.max_per_m2),
             load.even ? w.ratio(load.even->cv_ratio, from) : QString(),
             load.limit_per_m2 ? w.rate(*load.limit_per_m2, measure, {}) : QStringLiteral("none"),
             load.limit_per_m2 ? GroundWords::percent(load.over_limit_ratio) : QString()});
    }
    return rows;
}

QString books_sentence(const ReportPaper& paper, const PastureAccount& account) {
    const GroundWords& w = paper.words;
    const Ledger& books = account.ledger;
    const Provenance& from = books.provenance;
    if (books.feedings == 0)
        return QStringLiteral("Nothing was fed here in these dates; earlier seasons are below.");
    QString text =
        QStringLiteral(
            "%1 feedings, %2 bales (%3 %4), %5 of hay dry matter, %6 animal-days (%7 "
            "%8). %9 of hay was left over.")
            .arg(books.feedings)
            .arg(w.count(books.bales, from),
                 w.rate(books.bales / account.area_m2, SeasonMeasure::bales, from),
                 w.rate_unit(SeasonMeasure::bales), w.tons(books.hay_dm_kg, from),
                 w.count(books.animal_days, from),
                 w.rate(books.animal_days / account.area_m2, SeasonMeasure::animal_days, from),
                 w.rate_unit(SeasonMeasure::animal_days), w.tons(books.residue_dm_kg, from));
    text += QStringLiteral(" Gas took %1 of N.").arg(w.mass(books.n_lost_gas_kg, from));
    if (account.worth)
        text +=
            QStringLiteral(" Worth as fertiliser: %1, of which plants are planned to get %2.")
                .arg(w.money(account.worth->full, from), w.money(account.worth->available, from));
    return text;
}

QString release_sentence(const ReportPaper& paper, const PastureAccount& account) {
    const Provenance& from = account.all_ledger.provenance;
    const auto rate = [&](std::size_t year) {
        return paper.words.rate(account.available_n_kg[year] / account.area_m2, SeasonMeasure::n,
                                from);
    };
    QString text = QStringLiteral(
                       "N that plants can take up, all seasons so far counted: %1 this year, %2 "
                       "next year and %3 the year after, %4.")
                       .arg(rate(0), rate(1), rate(2), paper.words.rate_unit(SeasonMeasure::n));
    const SeasonMeasure shown = paper.account().shown;
    if (account.trend_per_m2 && from.shows_numbers())
        text += QStringLiteral(
                    " From season to season its mean of %1 %2 by %3 %4 (median of all "
                    "pairs of seasons).")
                    .arg(GroundWords::name(shown),
                         *account.trend_per_m2 < 0.0 ? QStringLiteral("falls")
                                                     : QStringLiteral("rises"),
                         paper.words.rate(std::abs(*account.trend_per_m2), shown, from),
                         paper.words.rate_unit(shown));
    return text;
}

QString evenness_sentence(const ReportPaper& paper, const PastureAccount& account) {
    const auto& even = account.all_figures[1].even;
    const Provenance& from = account.all_ledger.provenance;
    if (!even || !from.shows_numbers()) return {};
    const GroundWords& w = paper.words;
    return QStringLiteral(
               "Evenness of P2O5 since the first record: CV %1, CU %2, low quarter %3 of "
               "the mean, Gini %4; %5 of feed ground has next to nothing.")
        .arg(w.ratio(even->cv_ratio, from), w.ratio(even->cu_ratio, from),
             w.ratio(even->low_quarter_ratio, from), w.ratio(even->gini_ratio, from),
             GroundWords::percent(even->untouched_ratio));
}

QString water_sentence(const ReportPaper& paper, const PastureAccount& account) {
    const double all = account.all_figures[1].total;
    if (all <= 0.0) return {};
    const WaterExposure& e = account.all_exposure;
    const bool metric = paper.words.metric();
    QString text = QStringLiteral(
                       "Of its P2O5 since the first record, %1 lies within %5 and %2 within %6 of "
                       "off-limits water, %3 and %4 of wells")
                       .arg(GroundWords::percent(e.water_in_100.p2o5_kg / all),
                            GroundWords::percent(e.water_in_caution.p2o5_kg / all),
                            GroundWords::percent(e.well_in_100.p2o5_kg / all),
                            GroundWords::percent(e.well_in_caution.p2o5_kg / all),
                            metric ? QStringLiteral("30 m") : QStringLiteral("100 ft"),
                            metric ? QStringLiteral("91 m") : QStringLiteral("300 ft"));
    if (e.terrain_known)
        text += QStringLiteral("; %1 on ground whose melt water runs into it within %2")
                    .arg(GroundWords::percent(e.drains_in_caution.p2o5_kg / all),
                         metric ? QStringLiteral("91 m") : QStringLiteral("300 ft"));
    return text + QStringLiteral(". Animals were fed here on %1 of the last 365 days.")
                      .arg(account.days_fed);
}

std::vector<SeasonBar> season_bars(const ReportPaper& paper, const PastureAccount& account) {
    std::vector<SeasonBar> bars;
    for (const SeasonLine& season : account.seasons) {
        const SeasonMeasure shown = paper.account().shown;
        bars.push_back({to_q(season.span.name), paper.words.rate_value(season.shown_per_m2, shown),
                        paper.words.rate(season.shown_per_m2, shown, season.ledger.provenance)});
    }
    return bars;
}

bool over_somewhere(const ReportPaper& paper, std::size_t at) {
    const SeasonMeasure shown = paper.account().shown;
    const auto& limit = paper.account().pastures[at][shown].limit_per_m2;
    return limit && greatest(paper.input.pictures[at].shown_per_m2) > *limit;
}

// Map at the left, curve and seasons at the right; gives the height used.
double paint_figures(Flow& flow, const ReportPaper& paper, std::size_t at) {
    const PastureAccount& account = paper.account().pastures[at];
    const Pasture& pasture = paper.ranch()[account.pasture];
    const SeasonMeasure shown = paper.account().shown;
    const double map_width = 0.66 * flow.width();
    const double height = 268.0;
    const QRectF map(flow.left(), flow.y(), map_width, height);
    MapContent content;
    add_load(content, paper.input.pictures[at].shown_per_m2, shown, account[shown].limit_per_m2,
             paper.words);
    content.first_names.push_back(pasture.name);
    const Box box = box_of(pasture.shape);
    const double margin = 0.04 * std::max(box.max_x - box.min_x, box.max_y - box.min_y);
    const MapRecord record =
        paint_map(flow.sheet().painter(), {box.grown_by(margin), map}, paper.ranch(), content,
                  {.text_pt = 8, .metric = paper.words.metric()}, nullptr);
    for (const PlacedText& text : record.texts)
        flow.sheet().note(text.text, text.box, text.size_pt);
    const double left = map.right() + 10.0;
    const double width = flow.left() + flow.width() - left;
    const LoadFigures& load = account[shown].curve.empty() && static_cast<std::size_t>(shown) < 3
                                  ? account.all_figures[static_cast<std::size_t>(shown)]
                                  : account[shown];
    paint_curve(flow.sheet(), QRectF(left, map.top(), width, 0.5 * height), load.curve,
                GroundWords::name(shown));
    paint_seasons(flow.sheet(), QRectF(left, map.top() + 0.53 * height, width, 0.47 * height),
                  season_bars(paper, account),
                  GroundWords::name(shown) + QStringLiteral(", ") + paper.words.rate_unit(shown));
    return height + 4.0;
}

}  // namespace

void paint_summary(Flow& flow, const ReportPaper& paper) {
    const GroundWords& w = paper.words;
    flow.heading(QStringLiteral("All pastures, ") + to_q(paper.account().span.name));
    Rows rows{{QStringLiteral("pasture"), QStringLiteral("area"), QStringLiteral("bales"),
               QStringLiteral("hay"), w.rate_unit(SeasonMeasure::animal_days),
               QStringLiteral("N ") + w.rate_unit(SeasonMeasure::n), QStringLiteral("P2O5"),
               QStringLiteral("K2O"), QStringLiteral("advice")}};
    for (const PastureAccount& account : paper.account().pastures) {
        const Ledger& books = account.ledger;
        const Provenance& from = books.provenance;
        const Advice* advice = advice_for(paper, account.pasture);
        const auto rate = [&](std::size_t k) {
            return w.rate(account.figures[k].mean_per_m2, kSeasonMeasures[k], from);
        };
        rows.push_back(
            {to_q(paper.ranch()[account.pasture].name), w.area(account.area_m2),
             w.count(books.bales, from), w.tons(books.hay_dm_kg, from),
             w.rate(books.animal_days / account.area_m2, SeasonMeasure::animal_days, from), rate(0),
             rate(1), rate(2), advice != nullptr ? GroundWords::advice(*advice) : QString()});
    }
    flow.table({0.15, 0.12, 0.08, 0.10, 0.11, 0.09, 0.07, 0.07, 0.21}, rows);
    put_under(flow, paper, paper.account().ledger.provenance);
}

void paint_advice(Flow& flow, const ReportPaper& paper) {
    for (const AdviceKind kind : {AdviceKind::feed_next, AdviceKind::rest}) {
        Rows rows{{QStringLiteral("rank"), QStringLiteral("pasture"), QStringLiteral("because")}};
        for (const Advice& advice : paper.account().advice) {
            if (advice.kind != kind) continue;
            rows.push_back({QString::number(advice.rank), to_q(paper.ranch()[advice.pasture].name),
                            sentences(advice.reasons)});
        }
        if (rows.size() < 2) continue;
        flow.heading(kind == AdviceKind::rest ? QStringLiteral("Ground to rest")
                                              : QStringLiteral("Ground to feed next"));
        flow.table({0.07, 0.17, 0.76}, rows);
        put_under(flow, paper, paper.account().all_ledger.provenance);
    }
    flow.paragraph(Rich(QStringLiteral(
        "This is advice, not a permit. Setbacks, limits and what counts as a feedlot are matters "
        "of "
        "state and local code; ask there, and a licensed nutrient planner, before acting on it.")));
}

void paint_pasture_page(Flow& flow, const ReportPaper& paper, std::size_t at) {
    const PastureAccount& account = paper.account().pastures[at];
    const SeasonMeasure shown = paper.account().shown;
    flow.start_page();
    flow.heading(to_q(paper.ranch()[account.pasture].name) + QStringLiteral(", ") +
                 paper.words.area(account.area_m2));
    flow.gap(paint_figures(flow, paper, at));
    flow.gap(paint_legend(flow.sheet(), {flow.left(), flow.y()}, flow.width(),
                          load_title(shown, to_q("in " + paper.account().span.name),
                                     over_somewhere(paper, at), paper.words),
                          load_legend()));
    flow.gap(2.0);
    flow.paragraph(Rich(books_sentence(paper, account)));
    flow.gap(4.0);
    if (account.ledger.feedings > 0) {
        flow.table({0.19, 0.09, 0.20, 0.11, 0.11, 0.10, 0.08, 0.12}, nutrient_rows(paper, account));
        flow.gap(4.0);
    }
    flow.table({0.23, 0.10, 0.13, 0.12, 0.11, 0.09, 0.11, 0.11}, all_rows(paper, account));
    put_under(
        flow, paper,
        account.ledger.feedings > 0 ? account.ledger.provenance : account.all_ledger.provenance);
    flow.paragraph(Rich(evenness_sentence(paper, account)));
    flow.paragraph(Rich(release_sentence(paper, account)));
    flow.paragraph(Rich(water_sentence(paper, account)));
    flow.gap(4.0);
    const Advice* advice = advice_for(paper, account.pasture);
    if (advice == nullptr) return;
    Rich text(QStringLiteral("Advice: ") + GroundWords::advice(*advice) + QStringLiteral(". "),
              true);
    text.add(sentences(advice->reasons));
    flow.paragraph(text);
    if (advice->cautions.empty()) return;
    Rich cautions(QStringLiteral("Mind: "), true);
    cautions.add(sentences(advice->cautions));
    flow.paragraph(cautions);
}

void paint_what_if(Flow& flow, const ReportPaper& paper) {
    const GroundAccount* other = paper.input.what_if;
    if (other == nullptr) return;
    const GroundWords& w = paper.words;
    const QString unit = w.rate_unit(SeasonMeasure::p2o5);
    flow.start_page();
    flow.heading(QStringLiteral("What was done, and what if: ") + to_q(paper.input.what_if_name));
    flow.paragraph(Rich(QStringLiteral("The same bales, days and pastures. P2O5 of these dates, "
                                       "%1: first as recorded, then as it "
                                       "would have been. Laid by the planner means lines that even "
                                       "the ground out best; gates, "
                                       "weather and time are not in it.")
                            .arg(unit)));
    flow.gap(4.0);
    Rows rows{{QStringLiteral("pasture"), QStringLiteral("mean"), QStringLiteral("low quarter"),
               QStringLiteral("high tenth"), QStringLiteral("most"), QStringLiteral("CV")}};
    for (std::size_t p = 0; p < paper.account().pastures.size(); ++p) {
        const PastureAccount& was = paper.account().pastures[p];
        const Provenance& from = was.ledger.provenance;
        const LoadFigures& a = was[SeasonMeasure::p2o5];
        const LoadFigures& b = other->pastures[p][SeasonMeasure::p2o5];
        if (!a.even || !b.even) continue;
        const auto both = [&](double recorded, double changed) {
            return w.rate(recorded, SeasonMeasure::p2o5, from) + QStringLiteral(" > ") +
                   w.rate(changed, SeasonMeasure::p2o5, from);
        };
        rows.push_back({to_q(paper.ranch()[was.pasture].name), both(a.mean_per_m2, b.mean_per_m2),
                        both(a.low_quarter_per_m2, b.low_quarter_per_m2),
                        both(a.high_tenth_per_m2, b.high_tenth_per_m2),
                        both(a.max_per_m2, b.max_per_m2),
                        w.ratio(a.even->cv_ratio, from) + QStringLiteral(" > ") +
                            w.ratio(b.even->cv_ratio, from)});
    }
    flow.table({0.22, 0.15, 0.16, 0.16, 0.16, 0.15}, rows);
    put_under(flow, paper, paper.account().ledger.provenance);
}

}  // namespace haylane
