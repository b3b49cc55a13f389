#include "app/session/hold.h"

#include "app/session/find_named.h"
#include "app/session/kept_plans.h"
#include "core/geometry/boolean_ops.h"
#include "core/plan/hand_lines.h"
#include "gis/book/raw_rows.h"
#include "gis/vector/read_layers.h"

#include <algorithm>
#include <iterator>

#include <fmt/format.h>

namespace haylane {

namespace {

// Every line and area of a file, in its order.
struct Drawn {
    MultiPolyline lines;
    MultiPolygon areas;
};

Result<Drawn> read_drawn(const OpenRanch& open, const std::filesystem::path& file) {
    const auto layers = read_layers(file);
    if (!layers) return fail(layers.error());
    Drawn drawn;
    for (const SourceLayer& layer : *layers) {
        for (const SourceRow& row : layer.rows) {
            auto shape = shape_in_frame(row.shape, open.frame);
            if (auto* lines = std::get_if<MultiPolyline>(&shape))
                std::move(lines->begin(), lines->end(), std::back_inserter(drawn.lines));
            if (auto* areas = std::get_if<MultiPolygon>(&shape))
                std::move(areas->begin(), areas->end(), std::back_inserter(drawn.areas));
        }
    }
    return drawn;
}

std::string bales_text(const StoredHold& hold) {
    double bales = 0.0;
    for (const LotBales& draw : hold.bales) bales += draw.bales;
    return fmt::format("{:g} {}", bales, bales == 1.0 ? "bale" : "bales");
}

class Holder {
  public:
    Holder(const OpenRanch& open, const HoldRequest& request)
        : open_(open), ranch_(open.checked.ranch), request_(request) {}

    Result<std::vector<std::string>> run() {
        if (!request_.herd.empty() && !find_named(ranch_.herds, request_.herd))
            return fail({"unknown_herd", fmt::format("There is no herd called {}.", request_.herd),
                         "--herd", "Write the name as it stands in the book."});
        const bool drawn = !request_.drawn.empty() || !request_.lines.empty();
        auto holds = drawn ? as_drawn() : as_planned();
        if (!holds) return fail(holds.error());
        if (const auto saved = save_holds(open_.book, *holds); !saved) return fail(saved.error());
        std::vector<std::string> sentences;
        for (const StoredHold& hold : *holds)
            sentences.push_back(fmt::format("Held {}.", describe_hold(hold)));
        return sentences;
    }

  private:
    Result<std::vector<StoredHold>> as_planned() {
        const auto days = kept_days(open_.book);
        if (!days) return fail(days.error());
        std::vector<StoredHold> holds;
        std::string fed;
        for (const KeptDay& day : *days) {
            if (day.planned.date != request_.date) continue;
            if (!request_.herd.empty() && day.planned.herd != request_.herd) continue;
            if (is_fed(day.planned.herd))
                fed = day.planned.herd;
            else
                holds.push_back(hold_of(day));
        }
        if (!holds.empty()) return holds;
        if (!fed.empty())
            return fail({"already_fed", fmt::format("{} is on record for that day.", fed),
                         format_day(request_.date), "Nothing was changed."});
        return fail({"no_plan", "Nothing was planned for that herd and day.",
                     format_day(request_.date),
                     "Plan the days first, or give a line of your own with --line FILE."});
    }

    [[nodiscard]] bool is_fed(const std::string& herd) const {
        const auto found = find_named(ranch_.herds, herd);
        return found && on_record(ranch_, HerdId::at(*found), request_.date);
    }

    [[nodiscard]] StoredHold hold_of(const KeptDay& day) const {
        StoredHold hold{.kind = request_.line_only ? HoldKind::line : HoldKind::day,
                        .herd = day.planned.herd,
                        .date = request_.date,
                        .date_to = request_.date,
                        .pasture = day.planned.pasture};
        for (const FedLine& line : day.lines) hold.lines.push_back(line.path);
        if (request_.line_only) return hold;
        hold.rig = day.planned.rig;
        for (const auto& draw : day.planned.bales)
            hold.bales.push_back({draw.lot, static_cast<double>(draw.count)});
        return hold;
    }

    Result<std::vector<StoredHold>> as_drawn() {
        if (request_.herd.empty() && ranch_.herds.size() > 1)
            return fail({"usage", "There are several herds: say whose line it is.", "--herd",
                         "Add --herd with its name."});
        auto lines = request_.lines.empty() ? drawn_lines(open_, request_.drawn)
                                            : Result<MultiPolyline>(request_.lines);
        if (!lines) return fail(lines.error());
        const auto pasture = pasture_under(ranch_, *lines);
        if (!pasture)
            return fail({"line_outside", "The line lies in no pasture.", request_.drawn.string(),
                         "Draw it inside a pasture of this ranch."});
        const std::string herd = request_.herd.empty() ? ranch_.herds.front().name : request_.herd;
        if (is_fed(herd))
            return fail({"already_fed", fmt::format("{} is on record for that day.", herd),
                         format_day(request_.date), "Nothing was changed."});
        return std::vector<StoredHold>{{.kind = HoldKind::line,
                                        .herd = herd,
                                        .date = request_.date,
                                        .date_to = request_.date,
                                        .pasture = ranch_[*pasture].name,
                                        .lines = std::move(*lines)}};
    }

    const OpenRanch& open_;
    const Ranch& ranch_;
    const HoldRequest& request_;
};

}  // namespace

Result<MultiPolyline> drawn_lines(const OpenRanch& open, const std::filesystem::path& file) {
    auto drawn = read_drawn(open, file);
    if (!drawn) return fail(drawn.error());
    if (drawn->lines.empty())
        return fail({"no_line_drawn", "The file holds no line.", file.string(),
                     "Draw the feed line as a line, in the direction it is driven."});
    return std::move(drawn->lines);
}

Result<std::vector<std::string>> hold_day(const OpenRanch& open, const HoldRequest& request) {
    return Holder(open, request).run();
}

Result<std::vector<std::string>> close_ground(const OpenRanch& open, const CloseRequest& request) {
    if (request.to < request.from)
        return fail({"dates_reversed", "The last day is before the first.", "--to",
                     "Write the later day after --to."});
    if (!request.pasture.empty() && !find_named(open.checked.ranch.pastures, request.pasture))
        return fail({"unknown_pasture",
                     fmt::format("There is no pasture called {}.", request.pasture), "--pasture",
                     "Write the name as it stands in the book."});
    Drawn drawn{.areas = request.area};
    if (drawn.areas.empty()) {
        auto read = read_drawn(open, request.drawn);
        if (!read) return fail(read.error());
        drawn = std::move(*read);
    }
    const auto area = make_valid(drawn.areas);
    if (!area) return fail(area.error());
    if (area->shape.empty())
        return fail({"no_area_drawn", "No area is drawn.", request.drawn.string(),
                     "Draw the ground to be closed as an area."});
    std::string name = request.name.empty() ? request.drawn.stem().string() : request.name;
    if (name.empty()) name = "closed ground";
    const StoredHold hold{.kind = HoldKind::forbid,
                          .name = std::move(name),
                          .date = request.from,
                          .date_to = request.to,
                          .pasture = request.pasture,
                          .area = area->shape};
    if (const auto saved = save_holds(open.book, {hold}); !saved) return fail(saved.error());
    return std::vector<std::string>{fmt::format("Closed {}.", describe_hold(hold))};
}

Result<std::vector<std::string>> let_go(const OpenRanch& open, const std::string& herd,
                                        sys_days date) {
    if (!find_named(open.checked.ranch.herds, herd))
        return fail({"unknown_herd", fmt::format("There is no herd called {}.", herd), "",
                     "Write the name as it stands in the book."});
    const auto holds = stored_holds(open.book);
    if (!holds) return fail(holds.error());
    std::vector<int> numbers;
    std::vector<std::string> sentences;
    for (const StoredHold& hold : *holds) {
        if (hold.kind == HoldKind::forbid || hold.herd != herd || hold.date != date) continue;
        numbers.push_back(hold.number);
        sentences.push_back(fmt::format("Let go of {}.", describe_hold(hold)));
    }
    if (numbers.empty())
        return fail({"nothing_held", fmt::format("Nothing is held for {} on that day.", herd),
                     format_day(date), "Nothing was changed."});
    if (const auto released = release_holds(open.book, numbers); !released)
        return fail(released.error());
    return sentences;
}

std::string describe_hold(const StoredHold& hold) {
    const std::string where = hold.pasture.empty() ? "" : " in " + hold.pasture;
    if (hold.kind == HoldKind::forbid) {
        const std::string days =
            hold.date == hold.date_to
                ? "on " + format_day(hold.date)
                : fmt::format("from {} to {}", format_day(hold.date), format_day(hold.date_to));
        return fmt::format("{}{}, {}", hold.name, where, days);
    }
    const std::string what =
        hold.kind == HoldKind::day ? "the day, " + bales_text(hold) : std::string("the line");
    return fmt::format("{}, {}: {}{}", format_day(hold.date), hold.herd, what, where);
}

}  // namespace haylane
