#pragma once
// A season's pastures as a table: bales, and of the measure shown the mean, the lightest quarter,
// the heaviest tenth and the share over the limit; beside another season its mean; and what is
// advised, with the reasons as a tip.

#include "app/papers/ground_words.h"
#include "app/session/ground_season.h"

#include <memory>
#include <optional>

#include <QAbstractTableModel>

namespace haylane {

// What the page shows of a ranch's ground.
struct GroundShown {
    std::shared_ptr<const GroundSeason> season;  // nullptr: nothing yet
    std::shared_ptr<const GroundSeason> beside;  // nullptr: one season only
    SeasonMeasure measure = SeasonMeasure::p2o5;
};

class PastureTableModel : public QAbstractTableModel {
    Q_OBJECT

  public:
    enum Column { name, bales, mean, low_quarter, high_tenth, over, advice, mean_beside, columns };
    // What rows are sorted by: numbers as numbers.
    static constexpr int kSortRole = Qt::UserRole;

    using QAbstractTableModel::QAbstractTableModel;

    // The ranch must outlive what is shown.
    void show(const Ranch* ranch, const GroundShown& shown, bool metric);
    // Of a row.
    [[nodiscard]] PastureId pasture(int row) const;

    [[nodiscard]] int rowCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] int columnCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] QVariant data(const QModelIndex& index, int role) const override;
    [[nodiscard]] QVariant headerData(int section, Qt::Orientation orientation,
                                      int role) const override;

  private:
    [[nodiscard]] const PastureAccount& account(int row) const;
    [[nodiscard]] const Advice* advice_for(int row) const;
    [[nodiscard]] QString text(int row, int column) const;
    [[nodiscard]] QVariant sort_value(int row, int column) const;
    [[nodiscard]] QString tip(int row, int column) const;

    const Ranch* ranch_ = nullptr;
    GroundShown shown_;
    std::optional<GroundWords> words_;
};

}  // namespace haylane
