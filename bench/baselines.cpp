// Prints how plans compare with feeding at the gate and with the next strip every day, as a table:
// J, what is proven of it, evenness over the pasture, and the whole haul. With a folder as its
// argument it also paints each plan's lines there, one PNG a ranch.
#include "tests/support/baselines.h"

#include "app/papers/gui.h"
#include "app/papers/map_painter.h"
#include "core/base/units.h"
#include "tests/support/baseline_ranches.h"

#include <cctype>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <string>

#include <QImage>
#include <QPainter>
#include <fmt/format.h>

namespace haylane {
namespace {

void print_row(const char* name, const testing::WayOfFeeding& way, const std::string& proven) {
    fmt::print("| {} | {:.3f} | {} | {:.2f} | {:.2f} | {:.1f} | {:.0f} | {:.0f} |\n", name,
               way.objective, proven, way.cv, way.cu, way.distance_m / units::kMetersPerMile,
               way.time_s / 60.0, way.cost.value_or(0.0));
}

std::string proven(const KeptPlan& kept) {
    const Optimality& o = kept.result.plan.optimality;
    return fmt::format("{:.3f} | {:.1f} %", o.lower_bound, 100.0 * o.gap);
}

void print_lines(const KeptPlan& kept) {
    for (const PlannedFeeding& feeding : kept.result.plan.feedings) {
        for (const PlannedLine& line : feeding.lines) {
            const Point from = line.path.front();
            const Point to = line.path.back();
            fmt::print(stderr, "{} {:.0f},{:.0f} to {:.0f},{:.0f}: {}\n", kept.result.plan.ranch,
                       from.x, from.y, to.x, to.y, feeding.why);
        }
    }
}

void paint(const CheckedRanch& ranch, const Plan& plan, const std::string& folder) {
    constexpr int kWide = 1000;
    constexpr int kHigh = 1000;
    QImage image(kWide, kHigh, QImage::Format_RGB32);
    image.fill(Qt::white);
    QPainter painter(&image);
    painter.setRenderHint(QPainter::Antialiasing);
    MapContent content = map_content(plan, ranch.ranch);
    content.ways.clear();
    Box world;
    for (const Pasture& pasture : ranch.ranch.pastures)
        for (const Polygon& part : pasture.shape)
            for (const Point p : part.outer) world.add(p);
    QImage shade;
    if (ranch.ranch.terrain) shade = hillshade(*ranch.ranch.terrain);
    static_cast<void>(paint_map(painter, MapView{world.grown_by(15.0), QRectF(0, 0, kWide, kHigh)},
                                ranch.ranch, content, {.text_pt = 17, .ink = 1.4},
                                shade.isNull() ? nullptr : &shade));
    painter.end();
    std::string name = ranch.ranch.name;
    for (char& c : name)
        c = c == ' ' ? '-' : static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
    const std::string file = folder + "/lines-" + name + ".png";
    if (!image.save(QString::fromStdString(file))) fmt::print(stderr, "{}: not written\n", file);
}

struct Scene {
    CheckedRanch ranch;
    int days = 14;
};

void compare(const Scene& scene, const std::string& folder) {
    const PlanRequest request{.from = testing::baseline_day(), .days = scene.days};
    PlanRequest free = request;
    free.order = LineOrder::free;
    auto kept = keep_plan(scene.ranch, request);
    auto freely = keep_plan(scene.ranch, free);
    if (!kept || !freely) {
        const Error error = kept ? freely.error() : kept.error();
        fmt::print(stderr, "{}: {} {}\n", scene.ranch.ranch.name, error.what, error.where);
        return;
    }
    const testing::StripLines strips = testing::strip_lines(*kept);
    fmt::print("\n{}, {} days, {} bales, strips skipped {}\n\n", scene.ranch.ranch.name, scene.days,
               kept->result.plan.totals.bales, strips.skipped);
    fmt::print(
        "| way | J | bound | gap | CV | CU | miles | min | $ |\n"
        "| --- | ---: | ---: | ---: | ---: | ---: | ---: | ---: | ---: |\n");
    print_row("same place by the gate", testing::evaluated(*kept, testing::gate_lines(*kept)),
              " | ");
    print_row("next strip each day", testing::evaluated(*kept, strips.lines), " | ");
    print_row("plan", testing::evaluated(*kept, testing::planned_lines(*kept)), proven(*kept));
    print_row("plan, free order", testing::evaluated(*freely, testing::planned_lines(*freely)),
              proven(*freely));
    std::fflush(stdout);
    if (folder.empty()) return;
    print_lines(*kept);
    paint(scene.ranch, kept->result.plan, folder);
}

}  // namespace
}  // namespace haylane

int main(int argc, char** argv) {
    using namespace haylane;
    const Gui gui;
    const std::string folder = argc > 1 ? argv[1] : "";
    compare({testing::quarter_section()}, folder);
    compare({testing::creek_ell()}, folder);
    compare({testing::steep_hills()}, folder);
    compare({testing::sheltered_quarter(false), 7}, folder);
    compare({testing::sheltered_quarter(true), 7}, folder);
    CheckedRanch winter = testing::quarter_section();
    winter.ranch.name = "Rotating sites";
    compare({winter, 60}, folder);
    return 0;
}
