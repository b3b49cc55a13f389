#include "app/papers/haul_chart.h"

#include "app/papers/ground_charts.h"

#include <algorithm>

namespace haylane {
namespace {

QString text_of(const std::string& text) { return QString::fromStdString(text); }

double farthest_m(const HaulAccount& account) {
    double farthest = 0.0;
    for (const HaulTrip& trip : account.trips)
        if (trip.reached) farthest = std::max(farthest, trip.one_way_m);
    return farthest;
}

double distance(double length_m, const HaulWords& words) {
    return length_m / (words.metric() ? 1000.0 : units::kMetersPerMile);
}

std::vector<CostLine> lines_of(const HaulAccount& account, const HaulWords& words) {
    std::vector<CostLine> lines;
    const double far_m = farthest_m(account);
    for (const RigWork& rig : account.rigs) {
        const DistanceCost& cost = rig.on_gravel;
        if (!cost.fixed_cost_per_kg || !cost.cost_per_kg_m) continue;
        CostLine line{text_of(words.ranch()[rig.rig].name),
                      *cost.fixed_cost_per_kg * words.ton_kg(),
                      (*cost.fixed_cost_per_kg + *cost.cost_per_kg_m * far_m) * words.ton_kg(),
                      {}};
        for (const HaulTrip& trip : account.trips)
            if (trip.rig == rig.rig && trip.reached && trip.work.cost)
                line.dots.push_back(
                    {distance(trip.one_way_m, words), *trip.cost_per_kg() * words.ton_kg()});
        lines.push_back(std::move(line));
    }
    return lines;
}

}  // namespace

bool has_haul_chart(const HaulAccount& account) {
    return farthest_m(account) > 0.0 &&
           std::any_of(account.rigs.begin(), account.rigs.end(), [](const RigWork& rig) {
               return rig.on_gravel.fixed_cost_per_kg && rig.on_gravel.cost_per_kg_m;
           });
}

void paint_haul_chart(Sheet& sheet, const QRectF& box, const HaulAccount& account,
                      const HaulWords& words) {
    paint_cost_lines(sheet, box, lines_of(account, words), distance(farthest_m(account), words),
                     QStringLiteral("%1 one way").arg(text_of(words.distance_unit())),
                     QStringLiteral("%1 a %2").arg(text_of(words.ranch().settings.currency),
                                                   text_of(words.ton())));
}

std::string haul_chart_title(const HaulWords& words) {
    return fmt::format("Cost a {} against distance", words.ton());
}

std::string haul_chart_words() {
    return "Lines: level gravel. Marks: this ranch's ways, from each yard to each pasture, with "
           "warm-up and hook-up, hills and surfaces counted.";
}

}  // namespace haylane
