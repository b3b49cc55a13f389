#include "app/cli/print.h"
#include "app/cli/qt_messages.h"
#include "app/cli/verbs.h"
#include "app/papers/gui.h"
#include "app/session/book_hand.h"
#include "app/session/find_named.h"
#include "app/session/hold.h"
#include "app/session/plan_ranch.h"
#include "core/plan/spoken.h"
#include "gis/exchange/plan_json.h"

#include <algorithm>
#include <chrono>
#include <condition_variable>
#include <mutex>
#include <stop_token>
#include <thread>

#include <fmt/format.h>

namespace haylane {

namespace {

struct PlanOptions {
    std::string book;
    std::string from;
    int days = 7;
    std::string folder;
    std::string order = "neighbour";
    std::vector<std::string> blocked;
    std::string ways_by;
    std::vector<std::string> another;
    std::vector<std::string> tried;
    std::uint64_t seed = 1;
    int threads = 0;
    double time_limit_s = 0.0;  // 0 = none
};

// Names that --blocked may use.
std::optional<Error> unknown_blocked(const Ranch& ranch, const std::vector<std::string>& names) {
    for (const std::string& name : names) {
        const auto is = [&](const auto& item) { return item.name == name; };
        if (std::any_of(ranch.gates.begin(), ranch.gates.end(), is) ||
            std::any_of(ranch.trails.begin(), ranch.trails.end(), is))
            continue;
        return Error{"unknown_blocked", fmt::format("There is no gate or trail called {}.", name),
                     "--blocked", "Write its name as it stands in gates or trails."};
    }
    return std::nullopt;
}

// A herd and day as typed: "2027-01-11/Main cows", or the day alone where there is one herd.
struct HerdDay {
    HerdId herd;
    sys_days date;
};

Result<HerdDay> herd_day(const Ranch& ranch, const std::string& text, const char* option) {
    const std::size_t slash = text.find('/');
    const auto date = read_day(text.substr(0, slash), option);
    if (!date) return fail(date.error());
    if (slash == std::string::npos && ranch.herds.size() != 1)
        return fail({"usage", "There are several herds: say which.", option,
                     fmt::format("Write it as {}/HERD.", text)});
    const std::string name =
        slash == std::string::npos ? ranch.herds.front().name : text.substr(slash + 1);
    const auto herd = find_named(ranch.herds, name);
    if (!herd)
        return fail({"unknown_herd", fmt::format("There is no herd called {}.", name), option,
                     "Write the name as it stands in the book."});
    return HerdDay{HerdId::at(*herd), *date};
}

Result<UserHand> asked_hand(const OpenRanch& open, const PlanOptions& options) {
    UserHand hand;
    for (const std::string& text : options.another) {
        const auto asked = herd_day(open.checked.ranch, text, "--another");
        if (!asked) return fail(asked.error());
        const auto ways = another_way(open, asked->herd, asked->date);
        if (!ways) return fail(ways.error());
        hand.another.insert(hand.another.end(), ways->begin(), ways->end());
    }
    return hand;
}

// A line that is tried: whose, and as drawn in which file.
struct Tried {
    std::string text;  // as typed
    HerdDay of;
    MultiPolyline lines;
};

Result<std::vector<Tried>> tried_lines(const OpenRanch& open, const PlanOptions& options) {
    std::vector<Tried> all;
    for (const std::string& text : options.tried) {
        const std::size_t equals = text.rfind('=');
        if (equals == std::string::npos)
            return fail({"usage", "Say which line is tried where.", "--try",
                         "Write it as DATE/HERD=FILE."});
        const auto of = herd_day(open.checked.ranch, text.substr(0, equals), "--try");
        if (!of) return fail(of.error());
        auto lines = drawn_lines(open, text.substr(equals + 1));
        if (!lines) return fail(lines.error());
        all.push_back({text, *of, std::move(*lines)});
    }
    return all;
}

// What each tried line would change; the plan stays as it is.
Result<std::string> tried_text(KeptPlan& kept, const std::vector<Tried>& tried, bool metric) {
    std::string text;
    if (tried.empty()) return text;
    LineMover mover(kept);
    const Ranch& ranch = kept.context->ranch();
    const auto& feedings = kept.result.plan.feedings;
    for (const Tried& one : tried) {
        const auto at = std::find_if(feedings.begin(), feedings.end(), [&](const auto& feeding) {
            return feeding.herd == one.of.herd && feeding.date == one.of.date;
        });
        if (at == feedings.end())
            return fail({"no_plan", "Nothing is planned for that herd and day.",
                         "--try " + one.text, "Choose a day on which the herd is fed."});
        const auto moved = mover.move(static_cast<std::size_t>(at - feedings.begin()), one.lines);
        if (!moved) return fail(moved.error());
        text +=
            fmt::format("\nLaid as drawn ({}):\n{}", one.text, moved_text(*moved, ranch, metric));
    }
    return text;
}

// Says after some seconds that it has been enough; never where they are 0.
class TimeLimit {
  public:
    explicit TimeLimit(double seconds) {
        if (seconds <= 0.0) return;
        timer_ = std::jthread([this, seconds](const std::stop_token& done) {
            std::mutex mutex;
            std::unique_lock lock(mutex);
            std::condition_variable_any waiting;
            waiting.wait_for(lock, done, std::chrono::duration<double>(seconds),
                             [] { return false; });
            if (!done.stop_requested()) enough_.request_stop();
        });
    }
    [[nodiscard]] std::stop_token enough() const { return enough_.get_token(); }

  private:
    std::stop_source enough_;
    std::jthread timer_;  // last: joined before anything it uses goes
};

// Slips in the command are 2, as for the parser.
int fail_with(const Error& error) {
    print_error(error);
    return error.code == "usage" || error.code == "bad_date" ? 2 : 1;
}

int run_plan(const PlanOptions& options, const Common& common) {
    const auto from = read_day(options.from, "--from");
    if (!from) return fail_with(from.error());
    auto open = open_ranch(options.book);
    if (!open) return fail_with(open.error());
    if (const auto error = unknown_blocked(open->checked.ranch, options.blocked))
        return fail_with(*error);
    auto hand = asked_hand(*open, options);
    if (!hand) return fail_with(hand.error());
    const auto tried = tried_lines(*open, options);
    if (!tried) return fail_with(tried.error());
    if (!options.ways_by.empty()) open->checked.ranch.settings.ways_by = options.ways_by;
    if (!common.units.empty()) open->checked.ranch.settings.units = common.units;
    const TimeLimit limit(options.time_limit_s);
    const PlanRequest request{
        .from = *from,
        .days = options.days,
        .seed = options.seed,
        .threads = options.threads,
        .order = options.order == "free" ? LineOrder::free : LineOrder::neighbour,
        .blocked = options.blocked,
        .hand = std::move(*hand),
        .progress = terminal_progress(),
        .enough = limit.enough()};
    auto kept = keep_ranch_plan(*open, request);
    if (!kept) return fail_with(kept.error());
    const PlanResult* result = &kept->result;
    const bool metric = speaks_metric(open->checked.ranch.settings);
    leave_out_runtime_dir_note();
    const Gui gui;
    const auto files = write_plan(*open, *result, options.folder, metric);
    if (!files) return fail_with(files.error());
    if (common.json) {
        fmt::print("{}",
                   plan_json(result->plan, open->checked.ranch, open->frame, open->crs_operations));
        return 0;
    }
    fmt::print(stderr, "{}", problem_text(result->plan.problems));
    const auto tried_out = tried_text(*kept, *tried, metric);
    if (!tried_out) return fail_with(tried_out.error());
    fmt::print("{}{}", plan_text(result->plan, open->checked.ranch, metric), *tried_out);
    fmt::print("Wrote {} files to {}; print week-sheet.pdf.\n", files->size(), options.folder);
    return 0;
}

}  // namespace

void add_plan(CLI::App& app, Common& common) {
    auto* verb = app.add_subcommand(
        "plan",
        "Plans the feeding of some days and writes the week sheet, lines and maps.\n"
        "Days 1 to 3 are firm, later ones in pencil.\n"
        "Example: haylane plan ranch.gpkg --from 2027-01-11 --days 7 -o week");
    auto options = std::make_shared<PlanOptions>();
    verb->add_option("BOOK", options->book, "the ranch book (.gpkg)")->required();
    verb->add_option("--from", options->from, "first day, for instance 2027-01-11")->required();
    verb->add_option("--days", options->days, "how many days")
        ->check(CLI::Range(1, 60))
        ->capture_default_str();
    verb->add_option("-o,--out", options->folder, "folder for the files")->required();
    verb->add_option("--order", options->order,
                     "neighbour: each line beside the herd's last one; free: any line that evens "
                     "the ground out best")
        ->check(CLI::IsMember({"neighbour", "free"}))
        ->capture_default_str();
    verb->add_option("--ways-by", options->ways_by,
                     "take the way of least time, fuel or cost; left out = as the book is set")
        ->check(CLI::IsMember({"time", "fuel", "cost"}));
    verb->add_option("--blocked", options->blocked,
                     "a gate or trail that is shut this morning (repeat for more)");
    verb->add_option(
        "--another", options->another,
        "DATE/HERD: lines clearly different from those last planned (repeat for more)");
    verb->add_option(
        "--try", options->tried,
        "DATE/HERD=FILE: say what a line drawn in FILE would change; the plan stays as "
        "it is (repeat for more)");
    verb->add_option("--seed", options->seed, "seed of what is drawn at random")
        ->capture_default_str();
    verb->add_option("--threads", options->threads,
                     "threads to use; 0 = all. The plan does not depend on it")
        ->check(CLI::Range(0, 256))
        ->capture_default_str();
    verb->add_option("--time-limit", options->time_limit_s,
                     "stop improving lines after so many seconds; the plan then says so, and may "
                     "differ from one machine to another. 0 = no limit")
        ->check(CLI::Range(0.0, 86400.0))
        ->capture_default_str();
    verb->add_flag("--json", common.json, "print plan.json instead of the table");
    verb->add_option("--units", common.units, "us or metric")
        ->check(CLI::IsMember({"us", "metric"}));
    verb->callback([options, &common] { common.exit_code = run_plan(*options, common); });
}

}  // namespace haylane
