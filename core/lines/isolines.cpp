// Marching squares over squares of four cell centres (the flat case of Lorensen and Cline 1987,
// Computer Graphics 21(4)). Seen counter-clockwise, a side of a square either rises through the
// value or falls through it; each piece runs from a falling side to a rising one, which keeps
// higher ground to its left, and the next square sees the rising side as falling. So pieces chain
// without any search for neighbours. At a saddle the mean of the corners says which pair is joined.
#include "core/lines/isolines.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

namespace haylane {

namespace {

// A side of the squares by number: two a centre, the one to the east and the one to the north.
using Side = std::size_t;

struct Piece {
    Side from = 0;
    Side to = 0;
};

// The four centres around a square, counter-clockwise from the south-west.
struct Square {
    std::array<double, 4> value{};
    std::array<Side, 4> side{};  // side k joins corner k and the next one
};

Square square_at(const Raster<double>& raster, int i, int j) {
    const Grid& grid = raster.grid;
    return {{raster(i, j), raster(i + 1, j), raster(i + 1, j + 1), raster(i, j + 1)},
            {2 * grid.at(i, j), 2 * grid.at(i + 1, j) + 1, 2 * grid.at(i, j + 1),
             2 * grid.at(i, j) + 1}};
}

void add_pieces(std::vector<Piece>& pieces, const Square& square, double value) {
    std::array<bool, 4> above{};
    double sum = 0.0;
    for (std::size_t k = 0; k < 4; ++k) {
        above[k] = square.value[k] >= value;
        sum += square.value[k];
    }
    const bool saddle = above[0] == above[2] && above[1] == above[3] && above[0] != above[1];
    for (std::size_t fall = 0; fall < 4; ++fall) {
        if (!above[fall] || above[(fall + 1) % 4]) continue;
        std::size_t rise = (fall + 1) % 4;
        if (saddle && sum < 4.0 * value) rise = (fall + 3) % 4;  // round the high corner
        while (!saddle && (above[rise] || !above[(rise + 1) % 4])) rise = (rise + 1) % 4;
        pieces.push_back({square.side[fall], square.side[rise]});
    }
}

// Where the value lies on a side.
Point place_on(const Raster<double>& raster, Side side, double value) {
    const auto centre = side / 2;
    const auto nx = static_cast<std::size_t>(raster.grid.nx);
    const int i = static_cast<int>(centre % nx);
    const int j = static_cast<int>(centre / nx);
    const int di = side % 2 == 0 ? 1 : 0;
    const double low = raster(i, j);
    const double high = raster(i + di, j + 1 - di);
    const double share = std::clamp((value - low) / (high - low), 0.0, 1.0);
    return lerp(raster.grid.center(i, j), raster.grid.center(i + di, j + 1 - di), share);
}

class Chains {
  public:
    Chains(const Raster<double>& raster, double value, std::vector<Piece> pieces)
        : raster_(&raster), value_(value), pieces_(std::move(pieces)), used_(pieces_.size()) {
        std::sort(pieces_.begin(), pieces_.end(),
                  [](const Piece& a, const Piece& b) { return a.from < b.from; });
    }

    [[nodiscard]] MultiPolyline lines() {
        std::vector<bool> follows(pieces_.size());  // some piece ends where this one starts
        for (const Piece& piece : pieces_)
            if (const std::size_t next = starting_at(piece.to); next < pieces_.size())
                follows[next] = true;
        MultiPolyline all;
        for (std::size_t k = 0; k < pieces_.size(); ++k)
            if (!follows[k]) all.push_back(chain_from(k));
        for (std::size_t k = 0; k < pieces_.size(); ++k)  // what is left are rings
            if (!used_[k]) all.push_back(chain_from(k));
        return all;
    }

  private:
    [[nodiscard]] std::size_t starting_at(Side side) const {
        const auto at =
            std::lower_bound(pieces_.begin(), pieces_.end(), side,
                             [](const Piece& piece, Side wanted) { return piece.from < wanted; });
        const bool found = at != pieces_.end() && at->from == side;
        return found ? static_cast<std::size_t>(at - pieces_.begin()) : pieces_.size();
    }

    [[nodiscard]] Polyline chain_from(std::size_t k) {
        Polyline line{place_on(*raster_, pieces_[k].from, value_)};
        while (k < pieces_.size() && !used_[k]) {
            used_[k] = true;
            line.push_back(place_on(*raster_, pieces_[k].to, value_));
            k = starting_at(pieces_[k].to);
        }
        return line;
    }

    const Raster<double>* raster_;
    double value_;
    std::vector<Piece> pieces_;
    std::vector<bool> used_;
};

}  // namespace

std::vector<MultiPolyline> isolines(const Raster<double>& raster, const Isovalues& values) {
    std::vector<std::vector<Piece>> pieces(static_cast<std::size_t>(std::max(0, values.count)));
    const auto number = [&](double value) {
        return std::clamp(std::ceil((value - values.first) / values.step), 0.0,
                          static_cast<double>(pieces.size()));
    };
    for (int j = 0; j + 1 < raster.grid.ny; ++j) {
        for (int i = 0; i + 1 < raster.grid.nx; ++i) {
            const Square square = square_at(raster, i, j);
            if (!std::all_of(square.value.begin(), square.value.end(),
                             [](double v) { return std::isfinite(v); }))
                continue;
            const auto [low, high] = std::minmax_element(square.value.begin(), square.value.end());
            // Rounding: one value more to each side; those the square does not reach add nothing.
            const auto last = static_cast<std::size_t>(
                std::clamp(number(*high) + 1.0, 0.0, static_cast<double>(pieces.size())));
            for (auto k = static_cast<std::size_t>(std::max(0.0, number(*low) - 1.0)); k < last;
                 ++k)
                add_pieces(pieces[k], square, values.first + values.step * static_cast<double>(k));
        }
    }
    std::vector<MultiPolyline> lines;
    for (std::size_t k = 0; k < pieces.size(); ++k) {
        const double value = values.first + values.step * static_cast<double>(k);
        lines.push_back(Chains(raster, value, std::move(pieces[k])).lines());
    }
    return lines;
}

}  // namespace haylane
