#include "app/session/record_done.h"

#include "app/session/find_named.h"
#include "app/session/kept_plans.h"
#include "gis/book/record_feedings.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

namespace haylane {

namespace {

Error unknown(const char* code, const char* what, const std::string& name, const char* option) {
    return {code, fmt::format("There is no {} called {}.", what, name), option,
            "Write the name as it stands in the book; haylane check lists what is there."};
}

std::optional<Error> bad_names(const Ranch& ranch, const DoneRequest& request) {
    if (!request.herd.empty() && !find_named(ranch.herds, request.herd))
        return unknown("unknown_herd", "herd", request.herd, "--herd");
    if (!request.lot.empty() && !find_named(ranch.lots, request.lot))
        return unknown("unknown_lot", "hay lot", request.lot, "--lot");
    if (!request.pasture.empty() && !find_named(ranch.pastures, request.pasture))
        return unknown("unknown_pasture", "pasture", request.pasture, "--pasture");
    return std::nullopt;
}

bool already_fed(const Ranch& ranch, const std::string& herd, sys_days day) {
    const auto found = find_named(ranch.herds, herd);
    return found && on_record(ranch, HerdId::at(*found), day);
}

FeedingEntry entry_of(const KeptDay& day) {
    FeedingEntry entry{.herd = day.planned.herd,
                       .pasture = day.planned.pasture,
                       .rig = day.planned.rig,
                       .date = day.planned.date,
                       .places = day.planned.places};
    if (entry.places.empty()) entry.lines = day.lines;
    for (const auto& draw : day.planned.bales)
        entry.lots.push_back({draw.lot, static_cast<double>(draw.count)});
    return entry;
}

// Other bales than planned: the plan's lots in their order, each in whole bales in proportion, the
// last one takes what is left.
void change_bales(FeedingEntry& entry, int bales, const std::string& lot) {
    if (!lot.empty()) {
        entry.lots = {{lot, static_cast<double>(bales)}};
        return;
    }
    double planned = 0.0;
    for (const LotBales& draw : entry.lots) planned += draw.bales;
    double left = bales;
    for (std::size_t i = 0; i < entry.lots.size(); ++i) {
        const bool last = i + 1 == entry.lots.size();
        const double share = last ? left : std::floor(entry.lots[i].bales * bales / planned + 0.5);
        entry.lots[i].bales = std::min(left, share);
        left -= entry.lots[i].bales;
    }
    std::erase_if(entry.lots, [](const LotBales& draw) { return draw.bales <= 0.0; });
}

class Recorder {
  public:
    Recorder(const OpenRanch& open, const DoneRequest& request)
        : open_(open), ranch_(open.checked.ranch), request_(request) {}

    Result<DoneReport> run() {
        if (auto error = bad_names(ranch_, request_)) return fail(std::move(*error));
        auto days = kept_days(open_.book);
        if (!days) return fail(days.error());
        for (const KeptDay& day : *days) {
            if (day.planned.date == request_.date &&
                (request_.herd.empty() || day.planned.herd == request_.herd))
                planned_.push_back(day);
        }
        auto entries = request_.as_planned ? as_planned() : as_told(*days);
        if (!entries) return fail(entries.error());
        const auto recorded = record_feedings(open_.book, *entries);
        if (!recorded) return fail(recorded.error());
        return report(*entries, recorded->problems);
    }

  private:
    Result<std::vector<FeedingEntry>> as_planned() {
        if (planned_.empty())
            return fail({"no_plan", "Nothing was planned for that herd and day.",
                         format_day(request_.date),
                         "Give --bales, --lot and --pasture to record what was fed."});
        std::vector<FeedingEntry> entries;
        for (const KeptDay& day : planned_) {
            if (already_fed(ranch_, day.planned.herd, request_.date)) continue;
            entries.push_back(entry_of(day));
        }
        if (entries.empty()) return fail(fed_error(planned_.front().planned.herd));
        return entries;
    }

    Result<std::vector<FeedingEntry>> as_told(const std::vector<KeptDay>& days) {
        const auto herd = which_herd();
        if (!herd) return fail(herd.error());
        if (already_fed(ranch_, *herd, request_.date)) return fail(fed_error(*herd));
        FeedingEntry entry{.herd = *herd, .date = request_.date};
        if (!planned_.empty()) entry = entry_of(planned_.front());
        entry.herd = *herd;
        if (!request_.pasture.empty() && request_.pasture != entry.pasture) {
            entry.pasture = request_.pasture;
            entry.lines.clear();
            entry.places.clear();
        }
        if (auto error = set_line(days, entry)) return fail(std::move(*error));
        change_bales(entry, *request_.bales, request_.lot);
        if (entry.lots.empty() || entry.pasture.empty())
            return fail({"usage", "A day without a plan needs to know the hay and the pasture.",
                         format_day(request_.date), "Add --lot and --pasture."});
        return std::vector<FeedingEntry>{entry};
    }

    Result<std::string> which_herd() const {
        if (!request_.herd.empty()) return request_.herd;
        if (planned_.size() == 1) return planned_.front().planned.herd;
        if (ranch_.herds.size() == 1) return ranch_.herds.front().name;
        return fail({"usage", "There are several herds: say which one was fed.", "--herd",
                     "Add --herd with its name."});
    }

    std::optional<Error> set_line(const std::vector<KeptDay>& days, FeedingEntry& entry) const {
        if (request_.line.empty()) return std::nullopt;
        for (const KeptDay& day : days) {
            const auto found =
                std::find_if(day.lines.begin(), day.lines.end(),
                             [&](const FedLine& line) { return line.id == request_.line; });
            if (found == day.lines.end()) continue;
            entry.lines = {*found};
            entry.places.clear();
            entry.pasture = day.planned.pasture;
            return std::nullopt;
        }
        return unknown("unknown_line", "planned line", request_.line, "--line");
    }

    Error fed_error(const std::string& herd) const {
        return {"already_fed", fmt::format("{} is already on record for that day.", herd),
                format_day(request_.date), "Nothing was changed."};
    }

    static Result<DoneReport> report(const std::vector<FeedingEntry>& entries,
                                     const Problems& problems) {
        DoneReport report;
        for (const FeedingEntry& entry : entries) {
            std::vector<std::string> lots;
            for (const LotBales& draw : entry.lots)
                lots.push_back(fmt::format("{:g} {}", draw.bales, draw.lot));
            report.sentences.push_back(fmt::format("Recorded {}: {} in {}, {}.",
                                                   format_day(entry.date), entry.herd,
                                                   entry.pasture, fmt::join(lots, " and ")));
        }
        for (const Problem& problem : problems)
            report.sentences.push_back(fmt::format("Note: {} {}", problem.text, problem.remedy));
        return report;
    }

    const OpenRanch& open_;
    const Ranch& ranch_;
    const DoneRequest& request_;
    std::vector<KeptDay> planned_;
};

}  // namespace

Result<DoneReport> record_done(const OpenRanch& ranch, const DoneRequest& request) {
    return Recorder(ranch, request).run();
}

}  // namespace haylane
