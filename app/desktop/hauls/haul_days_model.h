#pragma once
// A day's work for all herds: as it is, with each rig, and under each change that was tried.

#include "app/session/haul_ranch.h"

#include <memory>
#include <vector>

#include <QAbstractTableModel>
#include <QStringList>

namespace haylane {

class HaulDaysModel : public QAbstractTableModel {
    Q_OBJECT

  public:
    using QAbstractTableModel::QAbstractTableModel;

    // nullptr shows nothing.
    void show(const Ranch* ranch, const HaulReport* report, bool metric);

    [[nodiscard]] int rowCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] int columnCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] QVariant data(const QModelIndex& index, int role) const override;
    [[nodiscard]] QVariant headerData(int section, Qt::Orientation orientation,
                                      int role) const override;

  private:
    QStringList heads_;
    std::vector<QStringList> rows_;
};

}  // namespace haylane
