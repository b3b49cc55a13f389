#pragma once
// Which candidates a feeding may use: how clear each stays of resting lines and of the lines that
// other feedings were given. A rule yields in steps: spacing to half of it, then rest altogether.

#include "core/plan/choose_lines.h"
#include "core/plan/line_clearance.h"

#include <cstddef>
#include <cstdlib>
#include <map>
#include <span>
#include <tuple>
#include <vector>

namespace haylane {

// Least clearance that a feeding keeps once so much has yielded.
[[nodiscard]] constexpr Clearance needed_clearance(Yielded yielded) {
    return yielded == Yielded::nothing
               ? Clearance::clear
               : (yielded == Yielded::spacing ? Clearance::near : Clearance::touching);
}
// How much must yield for a candidate with this clearance.
[[nodiscard]] constexpr Yielded yielded_for(Clearance clearance) {
    return clearance == Clearance::clear
               ? Yielded::nothing
               : (clearance == Clearance::near ? Yielded::spacing : Yielded::rest);
}

// Whether a feeding's lines still keep apart from one laid on another day.
[[nodiscard]] inline bool keep_apart(const LineChoiceInput& input, const ChoiceFeeding& feeding,
                                     sys_days other) {
    return input.rest_days <= 0 || !feeding.rest_ends ||
           std::abs((feeding.date - other).count()) < input.rest_days;
}

class LineRules {
  public:
    // Cost: candidates x resting lines near them.
    explicit LineRules(const LineChoiceInput& input);

    // By candidate: clearance from the lines that rest on the feeding's date.
    [[nodiscard]] const std::vector<Clearance>& from_resting(std::size_t feeding) const {
        return resting_[resting_of_[feeding]];
    }
    // Same ground, and neither's line has rested long enough for the other.
    [[nodiscard]] bool keep_apart(std::size_t f, std::size_t g) const;
    // Clearance between candidate c of f and candidate d of g. Safe from several threads.
    [[nodiscard]] Clearance between(std::size_t f, std::size_t c, std::size_t g, std::size_t d,
                                    Clearance bad_enough = Clearance::touching) const;
    // The worst over resting lines and over feedings with a chosen candidate (-1: none), f itself
    // and feedings from `end` on left out. Safe from several threads.
    [[nodiscard]] Clearance of(std::size_t f, std::size_t c, const std::vector<int>& chosen,
                               std::size_t end) const;
    // Whether that is clear.
    [[nodiscard]] bool is_clear(std::size_t f, std::size_t c, const std::vector<int>& chosen) const;
    // The same as `of` for every candidate of f against all others; remembers pairs for next time.
    [[nodiscard]] std::vector<Clearance> all_of(std::size_t f, const std::vector<int>& chosen);

  private:
    struct Boxed {
        std::vector<Box> lines;
        Box all;
    };
    const LineChoiceInput* input_;           // not owned
    std::vector<std::vector<Boxed>> boxes_;  // by candidate set, by candidate
    std::vector<std::size_t> set_of_;        // by feeding
    std::vector<std::vector<Clearance>> resting_;
    std::vector<std::size_t> resting_of_;  // by feeding
    std::map<std::tuple<std::size_t, std::size_t, int>, std::vector<Clearance>> pairs_;

    void box_candidates();
    // No further feeding is looked at once it is `bad_enough`.
    [[nodiscard]] Clearance worst_of(std::size_t f, std::size_t c, std::span<const int> chosen,
                                     Clearance bad_enough) const;
    [[nodiscard]] bool rests_on(const RestingLine& line, std::size_t feeding) const;
    [[nodiscard]] std::vector<Clearance> clearances_from_resting(std::size_t feeding) const;
};

}  // namespace haylane
