#pragma once
// The ground: what a season left on it, on the map and pasture by pasture, week by week, and beside
// another season. Worked out in the background when it is first looked at.

#include "app/desktop/ground/pasture_table_model.h"
#include "app/desktop/jobs/open_job.h"
#include "app/desktop/jobs/work.h"
#include "app/desktop/map/map_view_widget.h"
#include "app/desktop/report_row.h"

#include <map>
#include <memory>
#include <optional>
#include <string>

#include <QWidget>

class QComboBox;
class QLabel;
class QPushButton;
class QSortFilterProxyModel;
class QTableView;

namespace haylane {

class PaperPart;
class TimeStrip;
class WorkBar;

class GroundPage : public QWidget {
    Q_OBJECT

  public:
    explicit GroundPage(QWidget* parent = nullptr);

    // nullptr = none.
    void set_ranch(std::shared_ptr<const ShownRanch> ranch);
    [[nodiscard]] bool busy() const { return work_->busy() || report_row_->busy(); }
    [[nodiscard]] const GroundShown& shown() const { return shown_; }
    [[nodiscard]] MapViewWidget* map() const { return map_; }
    [[nodiscard]] MapViewWidget* map_beside() const { return other_map_; }
    [[nodiscard]] ReportRow* report_row() const { return report_row_; }

  signals:
    void failed(const haylane::Error& error);

  protected:
    void showEvent(QShowEvent* event) override;

  private:
    [[nodiscard]] QWidget* make_left();
    [[nodiscard]] QWidget* make_choices();
    [[nodiscard]] QWidget* make_right();
    void connect_parts();
    void fill_choices();
    [[nodiscard]] std::optional<Span> chosen(const QComboBox* box) const;
    void choose();
    void work_out_missing();
    void work_out(const Span& span);
    void show_all();
    void show_range();
    void show_day();
    void show_curve();
    void show_figure(Point place, const MapViewWidget* map);
    void go_to_pasture();
    void offer_report();
    [[nodiscard]] const Ranch& ranch() const { return ranch_->open.checked.ranch; }
    [[nodiscard]] bool metric() const;
    // The same day of the season as the time strip's, in the season that a map shows.
    [[nodiscard]] sys_days day_in(const GroundSeason& season) const;
    [[nodiscard]] const GroundSeason* season_on(const MapViewWidget* map) const;
    [[nodiscard]] std::optional<PastureId> pasture_chosen() const;

    Work* work_;
    std::shared_ptr<const ShownRanch> ranch_;
    GroundShown shown_;
    std::map<std::string, std::shared_ptr<const GroundSeason>> done_;  // by the span's name
    std::string under_way_;
    bool given_up_ = false;  // stopped by hand; until something else is chosen
    MapViewWidget* map_;
    MapViewWidget* other_map_;
    QComboBox* season_;
    QComboBox* measure_;
    QComboBox* beside_;
    TimeStrip* time_ = nullptr;
    PaperPart* legend_ = nullptr;
    QLabel* here_ = nullptr;
    WorkBar* bar_ = nullptr;
    QPushButton* again_ = nullptr;
    QLabel* title_ = nullptr;
    QLabel* evenness_ = nullptr;
    PastureTableModel* model_;
    QSortFilterProxyModel* sorted_;
    QTableView* table_ = nullptr;
    PaperPart* curve_ = nullptr;
    ReportRow* report_row_ = nullptr;
};

}  // namespace haylane
