// Close-up maps and one card a feeding.

#include "app/papers/back_pages.h"
#include "app/papers/card_words.h"
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
        const Rich title = card_title(feeding, input.ranch);
        const std::vector<Rich> lines = card_lines(feeding, input.ranch, input.metric);
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
