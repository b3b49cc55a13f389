#pragma once
// Yards by pastures: of each two the trip of the cheapest rig, by one figure. The cheapest yard of
// a pasture stands in bold; where there is no way the tip says why.

#include "app/session/haul_ranch.h"

#include <array>
#include <memory>
#include <optional>

#include <QAbstractTableModel>

namespace haylane {

enum class HaulFigure { cost_per_ton, cost_per_load, cost_per_head, minutes, distance, fuel };
inline constexpr std::array<HaulFigure, 6> kHaulFigures{
    HaulFigure::cost_per_ton, HaulFigure::cost_per_load, HaulFigure::cost_per_head,
    HaulFigure::minutes,      HaulFigure::distance,      HaulFigure::fuel};

class HaulMatrixModel : public QAbstractTableModel {
    Q_OBJECT

  public:
    // What rows are sorted by: numbers, absent ones last.
    static constexpr int kSortRole = Qt::UserRole;

    using QAbstractTableModel::QAbstractTableModel;

    // The ranch must outlive what is shown; no report shows nothing.
    void show(const Ranch* ranch, std::shared_ptr<const HaulReport> report, HaulFigure figure,
              bool metric);
    // nullptr for the column of pastures.
    [[nodiscard]] const HaulTrip* trip(int row, int column) const;
    // A trip in one sentence: way, bales, time, fuel, money; or why there is none.
    [[nodiscard]] QString words_of(const HaulTrip& trip) const;

    [[nodiscard]] int rowCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] int columnCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] QVariant data(const QModelIndex& index, int role) const override;
    [[nodiscard]] QVariant headerData(int section, Qt::Orientation orientation,
                                      int role) const override;

  private:
    [[nodiscard]] PastureId pasture(int row) const;
    [[nodiscard]] std::optional<double> value(const HaulTrip& trip) const;
    [[nodiscard]] QString text(const HaulTrip& trip) const;
    [[nodiscard]] bool is_best(int row, int column) const;

    const Ranch* ranch_ = nullptr;
    std::shared_ptr<const HaulReport> report_;
    std::vector<HaulTrip> trips_;  // by pasture, then yard
    HaulFigure figure_ = HaulFigure::cost_per_ton;
    bool metric_ = false;
};

// "a ton", "miles", with the unit.
[[nodiscard]] QString figure_name(HaulFigure figure, bool metric);

}  // namespace haylane
