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

// Where one candidate puts one kg of residue and one kg of near-line excreta, and what that does
// through the window: energies in kg2 a kg2, before the inner product's scale.
struct LaidShape {
    std::vector<CellAmount> residue;
    std::vector<CellAmount> line;
    double residue_energy = 0.0;
    double cross_energy = 0.0;
    double line_energy = 0.0;
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
    std::vector<double> bound_cost;  // the same without what is driven from line to line
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
// s = |W|^2, from the shape's energies.
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
