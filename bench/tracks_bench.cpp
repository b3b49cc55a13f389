// A winter of mornings in one GPX file of 2 million points: read, cleaned and cut, beside the time
// that GDAL's own GPX reader needs to go through the same points and do nothing with them.
#include "core/tracks/cut_track.h"
#include "gis/gdal/gdal_session.h"
#include "gis/tracks/read_tracks.h"
#include "tests/tracks/simulated_morning.h"

#include <array>
#include <cstdio>
#include <filesystem>
#include <fstream>

#include <benchmark/benchmark.h>
#include <fmt/chrono.h>
#include <fmt/format.h>
#include <ogrsf_frmts.h>
#include <sys/resource.h>

namespace haylane {
namespace {

constexpr std::size_t kPoints = 2'000'000;

const Frame& frame() {
    static const Frame one = *Frame::centred({-103.4, 46.3});
    return one;
}

// Morning after morning, a day apart, made once.
const std::filesystem::path& winter_file() {
    static const std::filesystem::path file = [] {
        auto path = std::filesystem::temp_directory_path() / "haylane-bench-winter.gpx";
        std::ofstream out(path);
        out << "<gpx version=\"1.1\" creator=\"bench\" "
               "xmlns=\"http://www.topografix.com/GPX/1/1\"><trk><trkseg>\n";
        std::size_t points = 0;
        for (std::uint64_t day = 0; points < kPoints; ++day) {
            const auto morning = testing::simulated_morning(1 + day % 50);
            for (const TrackPoint& point : morning.track) {
                if (points++ == kPoints) break;
                const LonLat at = frame().to_lonlat(point.at);
                const auto second =
                    static_cast<std::time_t>(*point.time_s) + static_cast<std::time_t>(day * 86400);
                out << fmt::format(
                    "<trkpt lat=\"{:.7f}\" lon=\"{:.7f}\"><ele>800.0</ele><time>"
                    "{:%Y-%m-%dT%H:%M:%SZ}</time></trkpt>\n",
                    at.lat_deg, at.lon_deg, fmt::gmtime(second));
            }
        }
        out << "</trkseg></trk></gpx>\n";
        return path;
    }();
    return file;
}

double most_memory_mb() {
    rusage use{};
    getrusage(RUSAGE_SELF, &use);
    return static_cast<double>(use.ru_maxrss) / 1024.0;
}

void tell_rate(benchmark::State& state) {
    state.counters["points_per_s"] =
        benchmark::Counter(static_cast<double>(kPoints) * static_cast<double>(state.iterations()),
                           benchmark::Counter::kIsRate);
    state.counters["most_MB"] = most_memory_mb();
}

void read_clean_cut(benchmark::State& state) {
    const auto& file = winter_file();
    Ranch ranch = testing::simulated_morning(1).ranch;
    for (auto _ : state) {
        const auto read = read_tracks(file);
        for (const RecordedTrack& track : read->tracks) {
            const CleanTrack clean = clean_track(in_frame(track, frame()));
            const CutTrack cut = cut_track(ranch, clean, {0.9, 1.79});
            benchmark::DoNotOptimize(cut.pieces.size());
        }
    }
    tell_rate(state);
}
void read_alone(benchmark::State& state) {
    const auto& file = winter_file();
    for (auto _ : state) benchmark::DoNotOptimize(read_tracks(file)->points());
    tell_rate(state);
}
// GDAL: every point of the file with its attributes, time among them.
void gdal_track_points(benchmark::State& state) {
    const auto& file = winter_file();
    start_gdal();
    static const std::array<const char*, 2> kDrivers{"GPX", nullptr};
    for (auto _ : state) {
        DatasetPtr data(GDALDataset::Open(file.string().c_str(), GDAL_OF_VECTOR, kDrivers.data()));
        std::size_t points = 0;
        OGRLayer* layer = data->GetLayerByName("track_points");
        while (const OGRFeatureUniquePtr feature{layer->GetNextFeature()}) ++points;
        if (points != kPoints) state.SkipWithError("GDAL read another number of points");
    }
    tell_rate(state);
}

BENCHMARK(gdal_track_points)->Unit(benchmark::kSecond)->Iterations(1);
BENCHMARK(read_alone)->Unit(benchmark::kSecond)->Iterations(1);
BENCHMARK(read_clean_cut)->Unit(benchmark::kSecond)->Iterations(1);

}  // namespace
}  // namespace haylane

BENCHMARK_MAIN();
