// Block-coordinate Frank-Wolfe (Lacoste-Julien, Jaggi, Schmidt & Pletscher 2013, ICML): feedings in
// turn move toward their cheapest candidate at the present V by an exact line search. It was taken
// over steps of all feedings at once (Frank & Wolfe 1956) since it closes the duality gap in a
// tenth of the walks. V is a mixture of few candidates a feeding, so its field is kept up to date
// by thin bands. Costs at any V bound the choice: |S|^2 >= 2<V, S> - |V|^2.
#include "core/plan/relaxed_bound.h"

#include "core/base/require.h"

#include <algorithm>

namespace haylane {

namespace {

// A candidate's part of what its feeding leaves.
struct Part {
    std::size_t candidate = 0;
    double weight = 0.0;
    Band laid;
    FieldBands field;
};

struct Mixture {
    std::vector<Part> parts;
    double fixed = 0.0;   // weighted
    double square = 0.0;  // |W|^2 of the mixture
};

class Relaxation {
  public:
    Relaxation(const ChoiceModel& model, const std::vector<RelaxedFeeding>& feedings, double theta)
        : model_(&model),
          feedings_(&feedings),
          ground_(&model.grounds[model.feedings[feedings.front().feeding].ground]),
          theta_(theta),
          mixtures_(feedings.size()) {
        const Grid& grid = ground_->ground->mask.grid;
        field_ = {Raster<double>(grid), Raster<double>(grid)};
        for (std::size_t k = 0; k < feedings.size(); ++k) start(k);
    }

    void round() {
        for (std::size_t k = 0; k < mixtures_.size(); ++k) improve(k);
    }

    // Of the fractional choice: nothing above it can be proven.
    [[nodiscard]] double value() const {
        double sum = theta_ * square_;
        for (const Mixture& mixture : mixtures_) sum += mixture.fixed;
        return sum;
    }

    // With V priced in, each feeding costs at least its least cost.
    [[nodiscard]] double bound() const {
        double sum = -theta_ * square_;
        for (std::size_t k = 0; k < mixtures_.size(); ++k) sum += cost(k, cheapest(k));
        return sum;
    }

  private:
    [[nodiscard]] double cost(std::size_t k, std::size_t candidate) const {
        const RelaxedFeeding& own = (*feedings_)[k];
        return own.fixed[candidate] +
               2.0 * theta_ * first_order(*model_, field_, own.feeding, candidate);
    }

    [[nodiscard]] std::size_t cheapest(std::size_t k) const {
        const std::vector<std::size_t>& allowed = *(*feedings_)[k].allowed;
        std::size_t best = allowed.front();
        double least = cost(k, best);
        for (const std::size_t c : allowed) {
            const double own = cost(k, c);
            if (own >= least) continue;
            least = own;
            best = c;
        }
        return best;
    }

    [[nodiscard]] Part part_of(std::size_t k, std::size_t candidate) const {
        Part part{candidate, 0.0, laid_kg(*model_, (*feedings_)[k].feeding, candidate), {}};
        part.field = fields_at(*ground_, part.laid);
        return part;
    }

    // The cheapest candidate beside those that came before.
    void start(std::size_t k) {
        const std::size_t c = cheapest(k);
        Part part = part_of(k, c);
        part.weight = 1.0;
        const double own = own_energy(*model_, (*feedings_)[k].feeding, c);
        square_ += 2.0 * first_order(*model_, field_, (*feedings_)[k].feeding, c) + own;
        add_field(part, 1.0);
        mixtures_[k].fixed = (*feedings_)[k].fixed[c];
        mixtures_[k].square = own;
        mixtures_[k].parts.push_back(std::move(part));
    }

    void improve(std::size_t k) {
        const std::size_t feeding = (*feedings_)[k].feeding;
        Mixture& mixture = mixtures_[k];
        const std::size_t c = cheapest(k);
        const std::size_t at = place_of(mixture, k, c);
        double along = first_order(*model_, field_, feeding, c);  // <V, W - own mixture>
        double cross = 0.0;                                       // <W, own mixture>
        for (const Part& part : mixture.parts) {
            if (part.weight == 0.0) continue;
            along -= part.weight * first_order(*model_, field_, feeding, part.candidate);
            cross += part.weight * ground_->scale *
                     dot(part.laid, mixture.parts[at].laid, ground_->ground->target);
        }
        const double own = own_energy(*model_, feeding, c);
        const double bend = own - 2.0 * cross + mixture.square;  // |W - own mixture|^2
        const double fixed = (*feedings_)[k].fixed[c];
        const double gain = mixture.fixed - fixed - 2.0 * theta_ * along;
        if (gain <= 0.0) return;
        const double share = bend > 0.0 ? std::min(1.0, gain / (2.0 * theta_ * bend)) : 1.0;
        square_ += 2.0 * share * along + share * share * bend;
        mixture.fixed += share * (fixed - mixture.fixed);
        mixture.square = (1.0 - share) * (1.0 - share) * mixture.square +
                         2.0 * share * (1.0 - share) * cross + share * share * own;
        move(mixture, at, share);
    }

    // Where the candidate stands in the mixture; added with no weight if it is new.
    std::size_t place_of(Mixture& mixture, std::size_t k, std::size_t candidate) const {
        const auto at = std::find_if(mixture.parts.begin(), mixture.parts.end(),
                                     [&](const Part& p) { return p.candidate == candidate; });
        if (at != mixture.parts.end()) return static_cast<std::size_t>(at - mixture.parts.begin());
        mixture.parts.push_back(part_of(k, candidate));
        return mixture.parts.size() - 1;
    }

    void move(Mixture& mixture, std::size_t toward, double share) {
        for (std::size_t p = 0; p < mixture.parts.size(); ++p) {
            Part& part = mixture.parts[p];
            const double weight = (1.0 - share) * part.weight + (p == toward ? share : 0.0);
            add_field(part, weight - part.weight);
            part.weight = weight;
        }
        std::erase_if(mixture.parts, [](const Part& part) { return part.weight <= 0.0; });
    }

    void add_field(const Part& part, double weight) {
        if (weight == 0.0) return;
        add_band(part.field.residue, weight, field_.residue);
        add_band(part.field.line, weight, field_.line);
    }

    const ChoiceModel* model_;
    const std::vector<RelaxedFeeding>* feedings_;
    const GroundModel* ground_;
    double theta_;
    ChoiceFields field_;  // adjoint of V
    std::vector<Mixture> mixtures_;
    double square_ = 0.0;  // |V|^2
};

}  // namespace

double relaxed_bound(const ChoiceModel& model, const std::vector<RelaxedFeeding>& feedings,
                     const RelaxedOptions& options) {
    require(!feedings.empty() && options.theta > 0.0, "relaxed choice: nothing to relax");
    Relaxation relaxation(model, feedings, options.theta);
    for (int round = 0; round < options.rounds; ++round) {
        if (relaxation.value() <= options.known) return -std::numeric_limits<double>::infinity();
        relaxation.round();
    }
    return relaxation.bound();
}

}  // namespace haylane
