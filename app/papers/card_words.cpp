#include "app/papers/card_words.h"

#include "app/papers/map_painter.h"
#include "app/papers/row_text.h"
#include "app/papers/words.h"

namespace haylane {
namespace {

QString to_q(const std::string& text) { return QString::fromStdString(text); }

QString load_text(const PlannedLoad& load, std::size_t number, const Ranch& ranch, bool metric) {
    QString text =
        QStringLiteral("Load %1: %2 from %3, %4 there and back (%5 loaded), %6, %7")
            .arg(number)
            .arg(to_q(words::bale_count(load.bale_count)),
                 load.yard.valid() ? to_q(ranch[load.yard].name) : QStringLiteral("the yard"),
                 to_q(words::long_length(load.distance_m, metric)),
                 to_q(words::long_length(load.loaded_distance_m, metric)),
                 to_q(words::minutes(load.time_s)), to_q(words::volume(load.fuel_l, metric)));
    if (load.cost) text += ", " + to_q(words::money(*load.cost, ranch.settings.currency));
    return text + ".";
}

QString hay_text(const PlannedFeeding& feeding, bool metric) {
    return QStringLiteral(
               "Dry hay laid %1, the herd eats %2 and needs %3. Protein %4, energy (TDN) "
               "%5 of all feed.")
        .arg(to_q(words::weight(feeding.dm_offered_kg, metric)),
             to_q(words::weight(feeding.dm_eaten_kg, metric)),
             to_q(words::weight(feeding.dm_needed_kg, metric)),
             to_q(words::percent(feeding.cp_ratio)), to_q(words::percent(feeding.tdn_ratio)));
}

QString ground_text(const PlannedFeeding& feeding, bool metric) {
    return QStringLiteral("This ground so far %1 %2; heaviest %3.")
        .arg(to_q(words::bale_density(feeding.ground_so_far_bales_per_m2, metric)),
             to_q(words::bale_density_unit(metric)),
             to_q(words::bale_density(feeding.heaviest_bales_per_m2, metric)));
}

QString above_nearest_text(const PlannedFeeding& feeding, const std::string& currency) {
    const QString nearest = feeding.in_rings ? "the nearest row" : "the nearest line";
    if (feeding.above_nearest_s < 30.0) return "No farther than " + nearest + ".";
    QString text = to_q(words::minutes(feeding.above_nearest_s));
    if (feeding.above_nearest_cost) {
        text += " and " + to_q(words::money(*feeding.above_nearest_cost, currency));
    }
    return text + " more than " + nearest + " would take.";
}

}  // namespace

std::vector<Rich> card_lines(const PlannedFeeding& feeding, const Ranch& ranch, bool metric) {
    std::vector<Rich> lines;
    lines.push_back(Rich("Bales: ", true)
                        .add(bales_text(feeding.bales, ranch) + ". " + hay_text(feeding, metric)));
    lines.push_back(Rich(feeding.in_rings ? "Rings: " : "Line: ", true)
                        .add(lay_text(feeding, metric) +
                             ". Way in: " + to_q(words::way_in(feeding, ranch)) + "."));
    Rich loads(QStringLiteral("Haul: "), true);
    for (std::size_t i = 0; i < feeding.loads.size(); ++i) {
        loads.add((i > 0 ? " " : "") + load_text(feeding.loads[i], i + 1, ranch, metric));
    }
    if (!feeding.loads.empty()) lines.push_back(loads);
    lines.push_back(Rich("Ground: ", true)
                        .add(ground_text(feeding, metric) + " " +
                             above_nearest_text(feeding, ranch.settings.currency)));
    if (!feeding.why.empty()) lines.push_back(Rich("Why here: ", true).add(to_q(feeding.why)));
    for (const Caution& caution : feeding.cautions) {
        lines.push_back(Rich("Caution: ", true).add(to_q(caution.text)));
    }
    return lines;
}

Rich card_title(const PlannedFeeding& feeding, const Ranch& ranch) {
    Rich title(herd_letter(feeding.herd.value) + "  " + to_q(words::short_date(feeding.date)) +
                   "  " + to_q(ranch[feeding.herd].name),
               true);
    if (feeding.days_covered > 1)
        title.add(QStringLiteral(", for %1 days").arg(feeding.days_covered));
    title.add(", " + to_q(ranch[feeding.pasture].name) + ", " + to_q(ranch[feeding.rig].name));
    if (!feeding.firm) title.add(QStringLiteral("  ✎ in pencil"));
    return title;
}

}  // namespace haylane
