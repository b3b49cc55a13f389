// Close-up maps and one card a feeding.

#include "app/papers/back_pages.h"
#include "app/papers/map_painter.h"
#include "app/papers/words.h"

#include <algorithm>
#include <cmath>

namespace haylane {
namespace {

constexpr double kCloseUpHeight = 220.0;
constexpr double kCloseUpGap = 10.0;

QString to_q(const std::string& text) { return QString::fromStdString(text); }

// Lines of one herd in one pasture.
struct CloseUp {
    HerdId herd;
    PastureId pasture;
    MapContent content;
};

std::vector<CloseUp> close_ups(const SheetInput& input) {
    std::vector<CloseUp> all;
    for (const PlannedFeeding& feeding : input.plan.feedings) {
        if (feeding.lines.empty()) continue;
        const auto same = std::find_if(all.begin(), all.end(), [&](const CloseUp& one) {
            return one.herd == feeding.herd && one.pasture == feeding.pasture;
        });
        CloseUp& close_up = same == all.end() ? all.emplace_back() : *same;
        close_up.herd = feeding.herd;
        close_up.pasture = feeding.pasture;
        const int day = static_cast<int>((feeding.date - input.plan.from).count()) + 1;
        for (const PlannedLine& line : feeding.lines) {
            close_up.content.lines.push_back(map_line(feeding, line, day));
        }
        close_up.content.first_names.push_back(feeding.start.from);
    }
    return all;
}

Box box_around(const CloseUp& close_up) {
    Box box;
    for (const MapLine& line : close_up.content.lines) {
        for (const Point& p : line.path) box.add(p);
    }
    const double span = std::max(box.max_x - box.min_x, box.max_y - box.min_y);
    return box.grown_by(std::max(40.0, 0.12 * span));
}

void paint_close_up(Flow& flow, const SheetInput& input, const CloseUp& close_up,
                    const QRectF& place) {
    const QString title = herd_letter(close_up.herd.value) + "  " +
                          to_q(input.ranch[close_up.herd].name) + " in " +
                          to_q(input.ranch[close_up.pasture].name);
    const double title_height =
        flow.sheet().put(Rich(title, true), kBackText, place.topLeft(), place.width());
    const QRectF map = place.adjusted(0.0, title_height + 2.0, 0.0, 0.0);
    const MapStyle style{
        .text_pt = kBackText, .ink = 0.9, .metric = input.metric, .north_and_scale = true};
    const MapRecord record = paint_map(flow.sheet().painter(), MapView{box_around(close_up), map},
                                       input.ranch, close_up.content, style, &input.shade);
    for (const PlacedText& text : record.texts) {
        flow.sheet().note(text.text, text.box, text.size_pt);
    }
}

QString load_text(const SheetInput& input, const PlannedLoad& load, std::size_t number) {
    QString text =
        QStringLiteral("Load %1: %2 from %3, %4 there and back (%5 loaded), %6, %7")
            .arg(number)
            .arg(to_q(words::bale_count(load.bale_count)),
                 load.yard.valid() ? to_q(input.ranch[load.yard].name) : QStringLiteral("the yard"),
                 to_q(words::long_length(load.distance_m, input.metric)),
                 to_q(words::long_length(load.loaded_distance_m, input.metric)),
                 to_q(words::minutes(load.time_s)), to_q(words::volume(load.fuel_l, input.metric)));
    if (load.cost) text += ", " + to_q(words::money(*load.cost, input.ranch.settings.currency));
    return text + ".";
}

QString hay_text(const SheetInput& input, const PlannedFeeding& feeding) {
    return QStringLiteral(
               "Dry hay laid %1, the herd eats %2 and needs %3. Protein %4, energy (TDN) "
               "%5 of all feed.")
        .arg(to_q(words::weight(feeding.dm_offered_kg, input.metric)),
             to_q(words::weight(feeding.dm_eaten_kg, input.metric)),
             to_q(words::weight(feeding.dm_needed_kg, input.metric)),
             to_q(words::percent(feeding.cp_ratio)), to_q(words::percent(feeding.tdn_ratio)));
}

QString ground_text(const SheetInput& input, const PlannedFeeding& feeding) {
    return QStringLiteral("This ground so far %1 %2; heaviest %3.")
        .arg(to_q(words::bale_density(feeding.ground_so_far_bales_per_m2, input.metric)),
             to_q(words::bale_density_unit(input.metric)),
             to_q(words::bale_density(feeding.heaviest_bales_per_m2, input.metric)));
}

QString above_nearest_text(const SheetInput& input, const PlannedFeeding& feeding) {
    const QString nearest = feeding.in_rings ? "the nearest row" : "the nearest line";
    if (feeding.above_nearest_s < 30.0) return "No farther than " + nearest + ".";
    QString text = to_q(words::minutes(feeding.above_nearest_s));
    if (feeding.above_nearest_cost) {
        text += " and " +
                to_q(words::money(*feeding.above_nearest_cost, input.ranch.settings.currency));
    }
    return text + " more than " + nearest + " would take.";
}

std::vector<Rich> card_lines(const SheetInput& input, const PlannedFeeding& feeding) {
    std::vector<Rich> lines;
    lines.push_back(
        Rich("Bales: ", true)
            .add(bales_text(feeding.bales, input.ranch) + ". " + hay_text(input, feeding)));
    lines.push_back(Rich(feeding.in_rings ? "Rings: " : "Line: ", true)
                        .add(lay_text(feeding, input.metric) +
                             ". Way in: " + to_q(words::way_in(feeding, input.ranch)) + "."));
    Rich loads(QStringLiteral("Haul: "), true);
    for (std::size_t i = 0; i < feeding.loads.size(); ++i) {
        loads.add((i > 0 ? " " : "") + load_text(input, feeding.loads[i], i + 1));
    }
    if (!feeding.loads.empty()) lines.push_back(loads);
    lines.push_back(
        Rich("Ground: ", true)
            .add(ground_text(input, feeding) + " " + above_nearest_text(input, feeding)));
    if (!feeding.why.empty()) lines.push_back(Rich("Why here: ", true).add(to_q(feeding.why)));
    for (const Caution& caution : feeding.cautions) {
        lines.push_back(Rich("Caution: ", true).add(to_q(caution.text)));
    }
    return lines;
}

Rich card_title(const SheetInput& input, const PlannedFeeding& feeding) {
    Rich title(herd_letter(feeding.herd.value) + "  " + to_q(words::short_date(feeding.date)) +
                   "  " + to_q(input.ranch[feeding.herd].name),
               true);
    if (feeding.days_covered > 1)
        title.add(QStringLiteral(", for %1 days").arg(feeding.days_covered));
    title.add(", " + to_q(input.ranch[feeding.pasture].name) + ", " +
              to_q(input.ranch[feeding.rig].name));
    if (!feeding.firm) title.add(QStringLiteral("  ✎ in pencil"));
    return title;
}

}  // namespace

void paint_close_ups(Flow& flow, const SheetInput& input) {
    const std::vector<CloseUp> all = close_ups(input);
    if (all.empty()) return;
    flow.need(kCloseUpHeight + 40.0);
    flow.heading(QStringLiteral("The lines close up"));
    const double width = (flow.width() - kCloseUpGap) / 2.0;
    for (std::size_t i = 0; i < all.size(); i += 2) {
        flow.need(kCloseUpHeight + kCloseUpGap);
        for (std::size_t side = 0; side < 2 && i + side < all.size(); ++side) {
            const double x = flow.left() + static_cast<double>(side) * (width + kCloseUpGap);
            paint_close_up(flow, input, all[i + side], QRectF(x, flow.y(), width, kCloseUpHeight));
        }
        flow.gap(kCloseUpHeight + kCloseUpGap);
    }
}

void paint_cards(Flow& flow, const SheetInput& input) {
    if (input.plan.feedings.empty()) return;
    flow.heading(QStringLiteral("Each feeding"));
    for (const PlannedFeeding& feeding : input.plan.feedings) {
        const Rich title = card_title(input, feeding);
        const std::vector<Rich> lines = card_lines(input, feeding);
        double height = height_of(title, kBackText, flow.width()) + 8.0;
        for (const Rich& line : lines) height += height_of(line, kBackText, flow.width());
        flow.need(std::min(height, flow.page_height()));
        flow.rule();
        flow.paragraph(title);
        for (const Rich& line : lines) flow.paragraph(line);
        flow.gap(5.0);
    }
}

}  // namespace haylane
