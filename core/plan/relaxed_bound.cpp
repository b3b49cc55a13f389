// For weights x in {0, 1} with sum 1 a feeding, and W >= 0, any theta in [0, 1] on each square B of
// the ground gives
//   |sum x W|^2 >= sum over B of (1 - theta_B) sum s_B x + theta_B |sum x W|_B^2,
// with x^2 = x and cross terms at least 0. Fractions x move by block-coordinate Frank-Wolfe
// (Lacoste-Julien, Jaggi, Schmidt & Pletscher 2013, ICML): feedings in turn go toward their
// cheapest candidate by an exact line search. theta goes up where |V|_B^2, with V = sum x W, is
// above sum s_B x and down where it is below, as the right side is greatest there. At any V and
// theta the cost of each feeding by itself bounds the choice: |S|^2 >= 2<V, S> - |V|^2.
#include "core/plan/relaxed_bound.h"

#include "core/base/require.h"

#include <algorithm>
#include <limits>

namespace haylane {

namespace {

constexpr int kAskEvery = 2;  // rounds: the bound swings a little from one to the next

// A candidate's part of what its feeding leaves.
struct Part {
    std::size_t candidate = 0;
    double weight = 0.0;
    Band laid;
};
using Mixture = std::vector<Part>;

class Relaxation {
  public:
    Relaxation(const ChoiceModel& model, const std::vector<RelaxedFeeding>& feedings,
               double start_theta)
        : model_(&model),
          feedings_(&feedings),
          ground_(&model.grounds[model.feedings[feedings.front().feeding].ground]),
          squares_(ground_->ground->mask.grid),
          theta_(squares_.count(), start_theta),
          mixtures_(feedings.size()) {
        const Grid& grid = ground_->ground->mask.grid;
        laid_ = Raster<double>(grid);
        for (const RelaxedFeeding& feeding : feedings) alone_.emplace_back(feeding.linear.size());
        follow_theta();
        for (std::size_t k = 0; k < feedings.size(); ++k) start(k);
    }

    void round() {
        for (std::size_t k = 0; k < mixtures_.size(); ++k) improve(k);
    }

    void move_theta(double step) {
        const std::vector<double> joint = joint_energy();
        const std::vector<double> apart = energy_apart();
        for (std::size_t s = 0; s < theta_.size(); ++s) {
            const double sum = joint[s] + apart[s];
            if (sum <= 0.0) continue;
            theta_[s] = std::clamp(theta_[s] + step * (joint[s] - apart[s]) / sum, 0.0, 1.0);
        }
        follow_theta();
    }

    // With V priced in, each feeding costs at least its least cost.
    [[nodiscard]] double bound() const {
        const std::vector<double> joint = joint_energy();
        double sum = 0.0;
        for (std::size_t s = 0; s < theta_.size(); ++s) sum -= theta_[s] * joint[s];
        for (std::size_t k = 0; k < mixtures_.size(); ++k) sum += cost(k, cheapest(k));
        return sum;
    }

  private:
    [[nodiscard]] const FeedingModel& feeding(std::size_t k) const {
        return model_->feedings[(*feedings_)[k].feeding];
    }
    [[nodiscard]] const LaidShape& shape(std::size_t k, std::size_t candidate) const {
        return model_->shapes[feeding(k).shape[candidate]];
    }

    // What a candidate costs that stands by itself: linear + sum of (1 - theta) s.
    [[nodiscard]] double stands_alone(std::size_t k, std::size_t candidate) const {
        ShapeEnergy energy;
        for (const LaidShape::Square& square : shape(k, candidate).squares) {
            const double left = 1.0 - theta_[square.index];
            energy.residue += left * square.energy.residue;
            energy.cross += left * square.energy.cross;
            energy.line += left * square.energy.line;
        }
        return (*feedings_)[k].linear[candidate] + energy_of(feeding(k), *ground_, energy);
    }

    [[nodiscard]] double priced(std::size_t k, std::size_t candidate) const {
        return first_order(*model_, field_, (*feedings_)[k].feeding, candidate);
    }

    [[nodiscard]] double cost(std::size_t k, std::size_t candidate) const {
        return alone_[k][candidate] + 2.0 * priced(k, candidate);
    }

    [[nodiscard]] std::size_t cheapest(std::size_t k) const {
        const std::vector<std::size_t>& allowed = *(*feedings_)[k].allowed;
        std::size_t best = allowed.front();
        double least = std::numeric_limits<double>::infinity();
        for (const std::size_t c : allowed) {
            const double own = cost(k, c);
            if (own >= least) continue;
            least = own;
            best = c;
        }
        return best;
    }

    [[nodiscard]] Part part_of(std::size_t k, std::size_t candidate) const {
        return {candidate, 0.0, laid_kg(*model_, (*feedings_)[k].feeding, candidate)};
    }

    // The cheapest candidate beside those that came before.
    void start(std::size_t k) {
        mixtures_[k].push_back(part_of(k, cheapest(k)));
        mixtures_[k].front().weight = 1.0;
        add(mixtures_[k].front(), 1.0);
    }

    // Along D = W - own mixture the cost is linear + 2 share <V, D> + share^2 |D|^2, both in theta.
    void improve(std::size_t k) {
        Mixture& mixture = mixtures_[k];
        const std::size_t c = cheapest(k);
        const std::size_t at = place_of(mixture, k, c);
        double slope = cost(k, c);
        for (const Part& part : mixture)
            if (part.weight > 0.0) slope -= part.weight * cost(k, part.candidate);
        if (slope >= 0.0) return;
        Band along = mixture[at].laid;
        for (const Part& part : mixture)
            if (part.weight > 0.0) along = sum(along, scaled(part.laid, -part.weight));
        const double bend =
            ground_->scale * dot(priced_band(along), along, ground_->ground->target);
        move(mixture, at, bend > 0.0 ? std::min(1.0, -slope / (2.0 * bend)) : 1.0);
    }

    // Where the candidate stands in the mixture; added with no weight if it is new.
    std::size_t place_of(Mixture& mixture, std::size_t k, std::size_t candidate) const {
        const auto at = std::find_if(mixture.begin(), mixture.end(),
                                     [&](const Part& p) { return p.candidate == candidate; });
        if (at != mixture.end()) return static_cast<std::size_t>(at - mixture.begin());
        mixture.push_back(part_of(k, candidate));
        return mixture.size() - 1;
    }

    void move(Mixture& mixture, std::size_t toward, double share) {
        for (std::size_t p = 0; p < mixture.size(); ++p) {
            Part& part = mixture[p];
            const double weight = (1.0 - share) * part.weight + (p == toward ? share : 0.0);
            if (weight != part.weight) add(part, weight - part.weight);
            part.weight = weight;
        }
        std::erase_if(mixture, [](const Part& part) { return part.weight <= 0.0; });
    }

    void add(const Part& part, double weight) {
        add_band(part.laid, weight, laid_);
        const FieldBands field = fields_at(*ground_, priced_band(part.laid));
        add_band(field.residue, weight, field_.residue);
        add_band(field.line, weight, field_.line);
    }

    [[nodiscard]] Band priced_band(Band band) const {
        for (int j = band.first_row; j < band.row_end(); ++j) {
            const Band::Run run = band.run(j);
            if (run.hi <= run.lo) continue;
            double* values = band.row_values(j);
            for (int i = run.lo; i < run.hi; ++i) values[i - run.lo] *= theta_[squares_.at(i, j)];
        }
        return band;
    }

    // What follows theta, worked out from the start.
    void follow_theta() {
        Raster<double> priced = laid_;
        const Grid& grid = priced.grid;
        for (int j = 0; j < grid.ny; ++j)
            for (int i = 0; i < grid.nx; ++i)
                priced.values[grid.at(i, j)] *= theta_[squares_.at(i, j)];
        field_ = fields_at(*ground_, priced);
        for (std::size_t k = 0; k < alone_.size(); ++k)
            for (const std::size_t c : *(*feedings_)[k].allowed) alone_[k][c] = stands_alone(k, c);
    }

    // |V|^2 by square.
    [[nodiscard]] std::vector<double> joint_energy() const {
        std::vector<double> energy(theta_.size(), 0.0);
        const Grid& grid = laid_.grid;
        const std::vector<std::uint8_t>& target = ground_->ground->target.values;
        for (int j = 0; j < grid.ny; ++j) {
            for (int i = 0; i < grid.nx; ++i) {
                const std::size_t cell = grid.at(i, j);
                if (target[cell] == 0) continue;
                energy[squares_.at(i, j)] +=
                    ground_->scale * laid_.values[cell] * laid_.values[cell];
            }
        }
        return energy;
    }

    // sum s x by square.
    [[nodiscard]] std::vector<double> energy_apart() const {
        std::vector<double> energy(theta_.size(), 0.0);
        for (std::size_t k = 0; k < mixtures_.size(); ++k) {
            for (const Part& part : mixtures_[k]) {
                for (const LaidShape::Square& square : shape(k, part.candidate).squares)
                    energy[square.index] +=
                        part.weight * energy_of(feeding(k), *ground_, square.energy);
            }
        }
        return energy;
    }

    const ChoiceModel* model_;
    const std::vector<RelaxedFeeding>* feedings_;
    const GroundModel* ground_;
    Squares squares_;
    std::vector<double> theta_;               // by square
    std::vector<std::vector<double>> alone_;  // by feeding and candidate, at theta
    std::vector<Mixture> mixtures_;
    Raster<double> laid_;  // V
    ChoiceFields field_;   // adjoint of theta V
};

}  // namespace

double relaxed_bound(const ChoiceModel& model, const std::vector<RelaxedFeeding>& feedings,
                     const RelaxedOptions& options) {
    require(!feedings.empty(), "relaxed choice: nothing to relax");
    Relaxation relaxation(model, feedings, options.start_theta);
    relaxation.move_theta(2.0 * options.theta_step);  // a first guess from whole choices
    double best = -std::numeric_limits<double>::infinity();
    for (int round = 1; round <= options.rounds; ++round) {
        relaxation.round();
        relaxation.move_theta(options.theta_step);
        if (round == options.rounds || round % kAskEvery == 0)
            best = std::max(best, relaxation.bound());
    }
    return best;
}

}  // namespace haylane
