#include "app/session/log_feedings.h"

#include "app/session/find_named.h"
#include "app/session/log_evenness.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

namespace haylane {

struct LogFeedings::Planned {
    const KeptDay* day = nullptr;
    const FedLine* line = nullptr;
};

struct LogFeedings::Group {
    sys_days date;
    std::string herd;  // empty = not known
    std::size_t pasture = 0;
    const KeptDay* day = nullptr;  // nullptr: found
    std::vector<LoggedLine> lines;
    std::vector<Polyline> planned;  // of the lines with an id
};

namespace {

constexpr const char* kLaidOutside = "laid_outside";
constexpr int kDaysLate = 3;  // a planned line may have been laid so many days off; assumption

double laid_m(const std::vector<LoggedLine>& lines) {
    double sum = 0.0;
    for (const LoggedLine& line : lines) sum += line.laid.length_m;
    return sum;
}

// Whole bales, at least one.
double whole(double bales) { return std::max(1.0, std::round(bales)); }

}  // namespace

LogFeedings::LogFeedings(const OpenRanch& open, const LogRequest& request,
                         const std::vector<KeptDay>& days, const LocalDay& local)
    : open_(open), ranch_(open.checked.ranch), request_(request), days_(days), local_(local) {}

std::vector<LogFeedings::Planned> LogFeedings::planned_near(const LogProposal& out) const {
    std::vector<Planned> all;
    for (const KeptDay& day : days_) {
        if (!request_.herd.empty() && day.planned.herd != request_.herd) continue;
        const auto herd = find_named(ranch_.herds, day.planned.herd);
        if (!herd || on_record(ranch_, HerdId::at(*herd), day.planned.date)) continue;
        const bool near =
            std::any_of(out.tracks.begin(), out.tracks.end(), [&](const LoggedTrack& track) {
                return std::abs((track.date - day.planned.date).count()) <= kDaysLate;
            });
        if (!near) continue;
        for (const FedLine& line : day.lines) all.push_back({&day, &line});
    }
    return all;
}

std::optional<std::size_t> LogFeedings::pasture_of(const Polyline& line) const {
    std::optional<std::size_t> best;
    std::size_t most = 0;
    const Polyline points = resampled(line, 10.0);
    for (std::size_t i = 0; i < ranch_.pastures.size(); ++i) {
        std::size_t inside = 0;
        for (const Point p : points) inside += contains(ranch_.pastures[i].shape, p) ? 1U : 0U;
        if (inside <= most) continue;
        most = inside;
        best = i;
    }
    return best;
}

// The only herd, else the only one that is fed in the pasture.
std::string LogFeedings::herd_in(const std::string& pasture) const {
    if (!request_.herd.empty()) return request_.herd;
    if (ranch_.herds.size() == 1) return ranch_.herds[0].name;
    std::string out;
    for (const Herd& herd : ranch_.herds) {
        const bool here = std::any_of(herd.pastures.begin(), herd.pastures.end(),
                                      [&](PastureId id) { return ranch_[id].name == pasture; });
        if (here && !out.empty()) return "";
        if (here) out = herd.name;
    }
    return out;
}

void LogFeedings::add_line(LoggedLine line, const std::vector<Planned>& planned, sys_days date,
                           std::vector<Group>& groups, Problems& problems) const {
    const auto pasture = pasture_of(line.laid.path);
    if (!pasture) {
        problems.push_back({kLaidOutside, Severity::warning, format_day(date),
                            fmt::format("a line of {:.0f} m that looks like laying lies in no "
                                        "pasture; it was not used",
                                        line.laid.length_m),
                            "check the pasture's outline"});
        return;
    }
    std::vector<Polyline> paths;
    std::vector<const Planned*> who;
    for (int off = 0; off <= kDaysLate && who.empty(); ++off) {  // the nearest day that fits
        for (const Planned& one : planned) {
            if (std::abs((one.day->planned.date - date).count()) != off) continue;
            paths.push_back(one.line->path);
            who.push_back(&one);
        }
        const auto match = best_match(line.laid.path, paths, ranch_.settings.spacing_m);
        if (!match) {
            paths.clear();
            who.clear();
            continue;
        }
        who = {who[match->planned]};
        paths = {paths[match->planned]};
        line.line_id = who[0]->line->id;
        line.fit = match->fit;
    }
    const KeptDay* day = who.empty() ? nullptr : who[0]->day;
    const std::string herd =
        day != nullptr ? day->planned.herd : herd_in(ranch_.pastures[*pasture].name);
    const auto same = std::find_if(groups.begin(), groups.end(), [&](const Group& group) {
        return group.date == date && group.herd == herd && group.pasture == *pasture;
    });
    Group& group =
        same != groups.end()
            ? *same
            : groups.emplace_back(Group{.date = date, .herd = herd, .pasture = *pasture});
    if (group.day == nullptr) group.day = day;
    if (!paths.empty()) group.planned.push_back(paths[0]);
    group.lines.push_back(std::move(line));
}

// The lot asked for; else, of the lots in the yard that was loaded at last before, the first to be
// fed, or the one with most bales.
std::string LogFeedings::lot_for(const Group& group, const LogProposal& out) const {
    if (!request_.lot.empty()) return request_.lot;
    const LoggedLine& first = group.lines.front();
    const std::vector<Piece>& pieces = out.tracks[first.track].cut.pieces;
    std::optional<YardId> yard;
    for (std::size_t i = 0; i < first.laid.first_piece; ++i) {
        if (pieces[i].motion != Motion::loading || pieces[i].path.empty()) continue;
        const auto nearest = std::min_element(ranch_.yards.begin(), ranch_.yards.end(),
                                              [&](const Yard& a, const Yard& b) {
                                                  return distance_m(a.at, pieces[i].path.front()) <
                                                         distance_m(b.at, pieces[i].path.front());
                                              });
        yard = YardId::at(static_cast<std::size_t>(nearest - ranch_.yards.begin()));
    }
    const HayLot* best = nullptr;
    for (const HayLot& lot : ranch_.lots) {
        if (lot.bales <= 0 || lot.kind == HayKind::straw) continue;
        if (yard && lot.yard != *yard) continue;
        const bool better = best == nullptr || (lot.feed_first && !best->feed_first) ||
                            (lot.feed_first == best->feed_first && lot.bales > best->bales);
        if (better) best = &lot;
    }
    return best == nullptr ? "" : best->name;
}

void LogFeedings::set_bales(const Group& group, const LogProposal& out,
                            ProposedFeeding& feeding) const {
    const double laid = laid_m(group.lines);
    if (group.day != nullptr && request_.lot.empty()) {
        double planned = 0.0;
        for (const FedLine& line : group.day->lines) planned += length_m(line.path);
        double done = 0.0;
        for (const Polyline& line : group.planned) done += length_m(line);
        // Lines that were left out leave their bales out; a little shorter or longer does not.
        const double share = planned > 0.0 ? std::min(1.0, done / planned) : 1.0;
        for (const auto& draw : group.day->planned.bales)
            feeding.entry.lots.push_back({draw.lot, whole(draw.count * share)});
        feeding.bales_from = BalesFrom::plan;
        return;
    }
    const std::string lot = lot_for(group, out);
    const auto at = find_named(ranch_.lots, lot);
    if (!at) return;
    const Rig& rig = ranch_.rigs[out.tracks[group.lines.front().track].rig];
    const double rate = 0.5 * (rig.lay_kg_per_m_min + rig.lay_kg_per_m_max);
    feeding.entry.lots = {{lot, whole(laid * rate / ranch_.lots[*at].bale_kg)}};
    feeding.bales_from = BalesFrom::length;
}

// Planned against done.
void LogFeedings::compare(const Group& group, ProposedFeeding& feeding) const {
    if (group.planned.empty()) return;
    feeding.planned_on = group.day->planned.date;
    double planned = 0.0;
    for (const Polyline& line : group.planned) planned += length_m(line);
    feeding.planned_m = planned;
    double sum = 0.0;
    double length = 0.0;
    for (const LoggedLine& line : group.lines) {
        if (line.line_id.empty()) continue;
        sum += line.fit.off_m * line.laid.length_m;
        length += line.laid.length_m;
    }
    if (length > 0.0) feeding.off_m = sum / length;
    MultiPolyline laid;
    for (const LoggedLine& line : group.lines) laid.push_back(line.laid.path);
    const auto change =
        evenness_change(open_, {feeding.entry.pasture, feeding.entry.rig, group.date,
                                feeding.bales(), group.planned, std::move(laid)});
    if (!change) return;
    feeding.planned_cv = change->planned_cv;
    feeding.laid_cv = change->laid_cv;
}

ProposedFeeding LogFeedings::feeding_of(const Group& group, const LogProposal& out) const {
    ProposedFeeding feeding;
    feeding.entry.date = group.date;
    feeding.entry.herd = group.herd;
    feeding.entry.pasture = ranch_.pastures[group.pasture].name;
    feeding.entry.rig = ranch_.rigs[out.tracks[group.lines.front().track].rig].name;
    feeding.entry.source = "gps";
    feeding.lines = group.lines;
    feeding.found = group.day == nullptr;
    feeding.length_m = laid_m(group.lines);
    for (const LoggedLine& line : group.lines) {
        feeding.entry.lines.push_back({line.line_id, line.laid.path});
        feeding.confidence += line.laid.confidence * line.laid.length_m / feeding.length_m;
    }
    set_bales(group, out, feeding);
    compare(group, feeding);
    const auto herd = find_named(ranch_.herds, group.herd);
    if (!herd) {
        feeding.not_ready =
            fmt::format("which herd was fed in {}? Say with --herd", feeding.entry.pasture);
    } else if (on_record(ranch_, HerdId::at(*herd), group.date)) {
        feeding.not_ready = "already on record for that day; nothing is added";
    } else if (feeding.entry.lots.empty()) {
        feeding.not_ready = "no lot has bales left; say which with --lot";
    }
    return feeding;
}

// Bales told for all are shared by length, whole ones, the last takes what is left.
void LogFeedings::share_told_bales(std::vector<ProposedFeeding>& feedings) const {
    std::vector<ProposedFeeding*> ready;
    double whole_m = 0.0;
    for (ProposedFeeding& feeding : feedings) {
        if (!feeding.not_ready.empty()) continue;
        ready.push_back(&feeding);
        whole_m += feeding.length_m;
    }
    double left = *request_.bales;
    for (std::size_t i = 0; i < ready.size(); ++i) {
        ProposedFeeding& feeding = *ready[i];
        const double share = *request_.bales * feeding.length_m / whole_m;
        const double bales = i + 1 == ready.size() ? left : std::min(left, std::round(share));
        double planned = feeding.bales();
        double rest = bales;
        for (std::size_t k = 0; k < feeding.entry.lots.size(); ++k) {
            LotBales& draw = feeding.entry.lots[k];
            const bool last = k + 1 == feeding.entry.lots.size();
            draw.bales = last ? rest : std::min(rest, std::round(draw.bales * bales / planned));
            rest -= draw.bales;
        }
        std::erase_if(feeding.entry.lots, [](const LotBales& draw) { return draw.bales <= 0.0; });
        if (feeding.entry.lots.empty()) feeding.not_ready = "no bales are left for it";
        feeding.bales_from = BalesFrom::told;
        left -= bales;
    }
}

void LogFeedings::propose(LogProposal& out) const {
    out.feedings.clear();
    std::erase_if(out.problems, [](const Problem& one) { return one.code == kLaidOutside; });
    const std::vector<Planned> planned = planned_near(out);
    std::vector<Group> groups;
    for (std::size_t t = 0; t < out.tracks.size(); ++t) {
        for (LaidLine& laid : laid_lines(out.tracks[t].cut)) {
            const sys_days date = local_.day(laid.start_s);
            add_line({.track = t, .laid = std::move(laid), .line_id = {}, .fit = {}}, planned, date,
                     groups, out.problems);
        }
    }
    std::sort(groups.begin(), groups.end(), [](const Group& a, const Group& b) {
        return std::tie(a.date, a.herd, a.pasture) < std::tie(b.date, b.herd, b.pasture);
    });
    for (const Group& group : groups) out.feedings.push_back(feeding_of(group, out));
    if (request_.bales) share_told_bales(out.feedings);
}

}  // namespace haylane
