#pragma once
// Every setting with what it does, what is usual, where that comes from, and the user's own value.

#include "app/desktop/jobs/open_job.h"
#include "core/ranch/setting_keys.h"
#include "gis/book/edit_rows.h"

#include <memory>
#include <string>
#include <vector>

#include <QAbstractTableModel>
#include <QWidget>

class QLabel;
class QTableView;

namespace haylane {

class SettingsModel : public QAbstractTableModel {
    Q_OBJECT

  public:
    enum Column { key, own, usual, unit, column_count };
    using QAbstractTableModel::QAbstractTableModel;

    // The rows of the book's table of settings.
    void set_rows(const std::vector<RawRow>& rows, bool metric);
    // What it does, what is allowed and who says so.
    [[nodiscard]] QString about(int row) const;

    [[nodiscard]] int rowCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] int columnCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] QVariant data(const QModelIndex& index, int role) const override;
    [[nodiscard]] QVariant headerData(int section, Qt::Orientation orientation,
                                      int role) const override;
    [[nodiscard]] Qt::ItemFlags flags(const QModelIndex& index) const override;
    bool setData(const QModelIndex& index, const QVariant& value, int role) override;

  signals:
    void edit_wanted(const QString& what, const std::vector<haylane::RowEdit>& edits);

  private:
    struct Own {
        std::string uuid;  // empty: the user has set nothing
        std::string key;   // as the user wrote it, perhaps in another unit
        std::string value;
    };
    // In the user's own unit, or else in the ranch's.
    [[nodiscard]] SpokenSetting spoken_at(std::size_t row) const;

    bool metric_ = false;
    std::vector<Own> own_;  // by row: numeric settings first, then words
};

class SettingsPanel : public QWidget {
    Q_OBJECT

  public:
    explicit SettingsPanel(QWidget* parent = nullptr);
    // nullptr = none.
    void set_ranch(const std::shared_ptr<const ShownRanch>& ranch);
    [[nodiscard]] SettingsModel& model() const { return *model_; }

  signals:
    void edit_wanted(const QString& what, const std::vector<haylane::RowEdit>& edits);

  private:
    QTableView* table_;
    QLabel* about_;
    SettingsModel* model_;
};

}  // namespace haylane
