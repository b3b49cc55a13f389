#pragma once
// Keeps lines within their ground's limits, exactly: what each would add through the window is set
// against the room that is left, cell by cell. Feedings on ground without limits cost nothing.

#include "core/plan/choice_model.h"

#include <cstddef>
#include <vector>

namespace haylane {

// One kg of residue and one of near-line excreta as they are seen through the window.
struct UnitLaid {
    Band residue;
    Band line;
};

// What does not change while lines are chosen. Input and model must outlive it.
class LoadLimits {
  public:
    // Cost: one windowed deposit a distinct shape on limited ground.
    LoadLimits(const LineChoiceInput& input, const ChoiceModel& model);

    // Whether the feeding's ground has a limit.
    [[nodiscard]] bool limited(std::size_t feeding) const;
    // Whether a candidate fits with no other line laid; one that does not fits in no plan.
    [[nodiscard]] bool fits_alone(std::size_t feeding, std::size_t candidate) const {
        return alone_[feeding].empty() || alone_[feeding][candidate] != 0;
    }
    [[nodiscard]] UnitLaid unit_laid(std::size_t feeding, std::size_t candidate) const;
    // The same of any lines.
    [[nodiscard]] UnitLaid unit_laid(std::size_t feeding, const Candidate& lines) const;

  private:
    friend class LoadRoom;
    void find_alone();

    const LineChoiceInput* input_;
    const ChoiceModel* model_;
    std::vector<std::vector<char>> alone_;  // by feeding, by candidate; empty: no limit
};

// The room left by the lines laid so far. Copies are independent. Asking is safe from several
// threads.
class LoadRoom {
  public:
    explicit LoadRoom(const LoadLimits& limits);

    // Whether the lines leave every cell within its limits; true on ground without limits.
    [[nodiscard]] bool holds(std::size_t feeding, const UnitLaid& laid) const;
    [[nodiscard]] bool holds(std::size_t feeding, std::size_t candidate) const;
    // factor 1: laid; -1: taken off. Nothing happens on ground without limits.
    void add(std::size_t feeding, const UnitLaid& laid, double factor);
    void add(std::size_t feeding, std::size_t candidate, double factor);

  private:
    const LoadLimits* limits_;
    std::vector<std::vector<Raster<double>>> room_kg_;  // by ground, by limit
};

}  // namespace haylane
