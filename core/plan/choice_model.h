#pragma once
// The choice of lines as numbers, fixed before choosing: target levels, what lies there whatever
// the lines, and for every candidate its cells, its own energy and its cost, all in units of J.
// Inner product: <u, v> = sum over target cells of u v / (cell area x normaliser), u, v in kg a
// cell.

#include "core/deposit/band.h"
#include "core/deposit/spread.h"
#include "core/plan/choose_lines.h"

#include <cstddef>
#include <vector>

namespace haylane {

// Energies of a shape through the window: kg2 a kg2, before the inner product's scale.
struct ShapeEnergy {
    double residue = 0.0;
    double cross = 0.0;
    double line = 0.0;
};

// Where one candidate puts one kg of residue and one kg of near-line excreta, and what that does
// through the window.
struct LaidShape {
    struct Square {
        std::uint32_t index = 0;  // see Squares
        ShapeEnergy energy;
    };
    std::vector<CellAmount> residue;
    std::vector<CellAmount> line;
    ShapeEnergy energy;           // in all
    std::vector<Square> squares;  // its parts, by index
};

// Squares of cells that a ground's energies are split into.
struct Squares {
    static constexpr int kSide_cells = 8;
    int nx = 0;
    int ny = 0;
    explicit Squares(const Grid& grid)
        : nx((grid.nx + kSide_cells - 1) / kSide_cells),
          ny((grid.ny + kSide_cells - 1) / kSide_cells) {}
    [[nodiscard]] std::size_t count() const {
        return static_cast<std::size_t>(nx) * static_cast<std::size_t>(ny);
    }
    [[nodiscard]] std::size_t at(int i, int j) const {
        return static_cast<std::size_t>(j / kSide_cells) * static_cast<std::size_t>(nx) +
               static_cast<std::size_t>(i / kSide_cells);
    }
};

struct GroundModel {
    const PastureGround* ground = nullptr;
    Spread line;
    Spread window;
    double scale = 0.0;       // 1 / (cell area x normaliser)
    Raster<double> level_kg;  // T
    Raster<double> fixed_kg;  // L + sum G - T
};

struct FeedingModel {
    std::size_t ground = 0;
    std::vector<std::size_t> shape;  // by candidate: index into shapes
    std::vector<double> cost;        // by candidate: lambda x money / money_min
    double residue_kg = 0.0;
    double line_kg = 0.0;
    [[nodiscard]] std::size_t candidates() const { return shape.size(); }
};

struct ChoiceModel {
    std::vector<GroundModel> grounds;
    std::vector<FeedingModel> feedings;
    std::vector<LaidShape> shapes;
    std::vector<std::size_t> shape_ground;  // by shape
    double normalizer = 1.0;
    double cost_per_money = 0.0;  // lambda / money_min; 0 when no haul is known
    int threads = 0;
};

// Cost: one windowed energy a distinct shape (rig, candidate, side of the tail).
[[nodiscard]] ChoiceModel choice_model(const LineChoiceInput& input);

// The adjoint of the deposit at a residual: what a kg of residue, or of near-line excreta, dropped
// in a cell adds to <residual, W>.
struct ChoiceFields {
    Raster<double> residue;
    Raster<double> line;
};
struct FieldBands {
    Band residue;
    Band line;
};
[[nodiscard]] ChoiceFields fields_at(const GroundModel& ground, const Raster<double>& residual_kg);
[[nodiscard]] FieldBands fields_at(const GroundModel& ground, const Band& residual_kg);

// W of one candidate of a feeding: kg a cell through the window.
[[nodiscard]] Band laid_kg(const ChoiceModel& model, std::size_t feeding, std::size_t candidate);
// The kg that lines, candidates of the feeding or not, put in cells before spread and window.
struct LaidCells {
    std::vector<CellAmount> residue;
    std::vector<CellAmount> line;
};
// The same for one kg of each: in the rig's cross profile (null: on the line), or round rings.
[[nodiscard]] LaidCells unit_cells(const Candidate& lines, const Rig* rig, double wind_from_rad,
                                   const PastureGround& ground);
[[nodiscard]] LaidCells laid_cells(const ChoiceModel& model, const LineChoiceInput& input,
                                   std::size_t feeding, const Candidate& lines);
// Their W.
[[nodiscard]] Band laid_kg(const GroundModel& ground, const LaidCells& cells);
// |W|^2 from a shape's energies, in all or on one square.
[[nodiscard]] double energy_of(const FeedingModel& feeding, const GroundModel& ground,
                               const ShapeEnergy& energy);
// s = |W|^2.
[[nodiscard]] double own_energy(const ChoiceModel& model, std::size_t feeding,
                                std::size_t candidate);
// <residual, W> by one walk along the candidate's cells in the fields at that residual.
[[nodiscard]] double first_order(const ChoiceModel& model, const ChoiceFields& fields,
                                 std::size_t feeding, std::size_t candidate);
[[nodiscard]] double first_order(const ChoiceFields& fields, const LaidCells& cells);
// What laying a candidate adds to J: 2<residual, W> + s + c.
[[nodiscard]] double change_of(const ChoiceModel& model, const ChoiceFields& fields,
                               std::size_t feeding, std::size_t candidate);
// <u, u> on one ground.
[[nodiscard]] double square_of(const GroundModel& ground, const Raster<double>& u_kg);

}  // namespace haylane
