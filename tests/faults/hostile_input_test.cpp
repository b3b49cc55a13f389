// Every file of the shared set of broken and hostile input, given to every reader there is, each in
// a child process of its own: it ends by itself within a minute, gives away nothing of files beside
// it, and holds a bounded amount of memory.
#include "gis/book/read_book.h"
#include "gis/raster/read_terrain.h"
#include "gis/tracks/read_tracks.h"
#include "gis/vector/csv_layer.h"
#include "gis/vector/read_layers.h"
#include "tests/faults/faults.h"

#include <algorithm>

#include <gtest/gtest.h>

namespace haylane {
namespace {

namespace fs = std::filesystem;

constexpr int kHandled = 10;
constexpr int kGaveAway = 11;

template <class T>
void add_error(const Result<T>& result, std::string& said) {
    if (!result) said += result.error().what + result.error().where + result.error().remedy;
}

void add_problems(const Problems& problems, std::string& said) {
    for (const Problem& problem : problems) said += problem.where + problem.text;
}

void add_layer(const SourceLayer& layer, std::string& said) {
    add_problems(layer.problems, said);
    for (const SourceRow& row : layer.rows) {
        for (const std::string& cell : row.cells) said += cell;
    }
}

int read_by_all(const fs::path& file) {
    std::string said;
    const auto layers = read_layers(file);
    add_error(layers, said);
    if (layers) {
        for (const SourceLayer& layer : *layers) add_layer(layer, said);
    }
    const auto table = read_csv_layer(file);
    add_error(table, said);
    if (table) add_layer(*table, said);
    const auto tracks = read_tracks(file);
    add_error(tracks, said);
    if (tracks) add_problems(tracks->problems, said);
    const auto frame = Frame::centred({-100.55, 42.87});
    Box box;
    box.add({-400.0, -400.0});
    box.add({400.0, 400.0});
    const auto terrain = read_terrain(file, *frame, box);
    add_error(terrain, said);
    add_error(read_book(file), said);
    // The file that others point at holds this word.
    const bool its_own =
        file.filename() == "canary-secret.txt" || file.filename() == "make_bad_inputs.py";
    return !its_own && said.find("CANARY") != std::string::npos ? kGaveAway : kHandled;
}

TEST(HostileInput, EveryFileIsHandledByEveryReader) {
    const fs::path folder = fs::path(HAYLANE_SHARED_DATA) / "bad-input";
    if (!fs::exists(folder)) GTEST_SKIP() << "no shared data";
    std::vector<fs::path> files;
    for (const auto& entry : fs::recursive_directory_iterator(folder)) {
        if (entry.is_regular_file()) files.push_back(entry.path());
    }
    std::sort(files.begin(), files.end());
    // In the test suite every fourth: the readers have tests of their own.
    const std::size_t step = static_cast<std::size_t>(faults::times(4, 1));
    int tried = 0;
    int handled = 0;
    long peak_kb = 0;
    fs::path worst;
    for (std::size_t i = 0; i < files.size(); i += step) {
        SCOPED_TRACE(files[i].filename());
        const auto ended = faults::in_child([&] { return read_by_all(files[i]); }, 60);
        const bool good = ended.by_itself && ended.code == kHandled;
        EXPECT_TRUE(good) << (ended.by_itself ? "code " : "signal ") << ended.code;
        ++tried;
        handled += good ? 1 : 0;
        if (ended.peak_kb > peak_kb) worst = files[i].filename();
        peak_kb = std::max(peak_kb, ended.peak_kb);
    }
    EXPECT_GT(tried, 20);
    EXPECT_LT(peak_kb, 2L << 20U);  // 2 GiB, with the sanitizers' own
    faults::tell("hostile inputs", fmt::format("{} handled of {}", handled, tried));
    faults::tell("peak memory on the worst of them",
                 fmt::format("{} MB ({})", peak_kb / 1024, worst.string()));
}

}  // namespace
}  // namespace haylane
