// What a frame of the map costs, on the sample ranch with 10,000 lines and a picture of
// 4000 x 4000 pixels behind them: while it is dragged, and the exact picture once it is still.
#include "app/desktop/look.h"
#include "app/desktop/map/map_view_widget.h"
#include "gis/book/make_book.h"

#include <cstdlib>
#include <filesystem>

#include <QApplication>
#include <QTemporaryDir>
#include <benchmark/benchmark.h>

namespace haylane {
namespace {

std::shared_ptr<const ShownRanch> sample() {
    static const QTemporaryDir folder;
    static const auto ranch = [] {
        const auto book = std::filesystem::path(folder.path().toStdString()) / "brindle.gpkg";
        const auto made =
            make_book(std::filesystem::path(HAYLANE_SOURCE_DIR) / "sample-maps" / "brindle-coulee",
                      book, false);
        auto shown = made ? show_ranch(book) : fail(made.error());
        if (!shown) std::abort();
        return *shown;
    }();
    return ranch;
}

MapContent many_lines() {
    MapContent content;
    for (int i = 0; i < 10'000; ++i) {
        const double x = -3000.0 + 60.0 * (i % 100);
        const double y = -2000.0 + 40.0 * static_cast<double>(i / 100);
        MapLine line;
        line.path = {{x, y}, {x + 25.0, y + 12.0}, {x + 50.0, y}};
        line.herd = i % 5;
        line.firm = true;
        content.lines.push_back(line);
    }
    return content;
}

std::shared_ptr<const MapPicture> large_picture() {
    QImage image(4000, 4000, QImage::Format_ARGB32_Premultiplied);
    for (int y = 0; y < image.height(); ++y) {
        auto* row = reinterpret_cast<QRgb*>(image.scanLine(y));
        for (int x = 0; x < image.width(); ++x) row[x] = qRgb(x % 256, y % 256, 128);
    }
    return std::make_shared<const MapPicture>(
        MapPicture{image, {-5000.0, -5000.0, 5000.0, 5000.0}});
}

struct Shown {
    MapViewWidget map;
    QPixmap screen{1280, 720};
    Shown() {
        map.resize(1280, 720);
        map.set_ranch(sample());
        map.set_content(many_lines());
        map.set_backdrop(large_picture());
        paint();
    }
    void paint() { map.render(&screen); }
};

void drag_frame(benchmark::State& state) {
    Shown shown;
    double step = 3.0;
    int frame = 0;
    for (auto _ : state) {
        shown.map.pan({step, 1.0});
        shown.paint();
        if (++frame % 20 == 0) step = -step;
    }
}
BENCHMARK(drag_frame)->Unit(benchmark::kMillisecond)->Repetitions(9)->ReportAggregatesOnly(true);

void zoom_frame(benchmark::State& state) {
    Shown shown;
    double factor = 1.05;
    int frame = 0;
    for (auto _ : state) {
        shown.map.zoom(factor);
        shown.paint();
        if (++frame % 10 == 0) factor = 1.0 / factor;
    }
}
BENCHMARK(zoom_frame)->Unit(benchmark::kMillisecond)->Repetitions(9)->ReportAggregatesOnly(true);

// All lines anew, as after the map has been still.
void exact_picture(benchmark::State& state) {
    Shown shown;
    const MapContent content = many_lines();
    for (auto _ : state) {
        shown.map.set_content(content);
        shown.paint();
    }
}
BENCHMARK(exact_picture)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace haylane

int main(int argc, char** argv) {
    if (!qEnvironmentVariableIsSet("QT_QPA_PLATFORM")) qputenv("QT_QPA_PLATFORM", "offscreen");
    const QApplication application(argc, argv);
    benchmark::Initialize(&argc, argv);
    haylane::use_warm_look();
    benchmark::RunSpecifiedBenchmarks();
    return 0;
}
