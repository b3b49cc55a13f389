#pragma once
// The hauls: what it costs to bring hay from each yard to each pasture, the way on the map, what a
// day takes with each rig and under changes, where to stack, and what a machine would cost. Worked
// out in the background when it is first looked at.

#include "app/desktop/hauls/haul_matrix_model.h"
#include "app/desktop/jobs/open_job.h"
#include "app/desktop/jobs/work.h"
#include "app/desktop/map/map_view_widget.h"
#include "app/desktop/report_row.h"
#include "app/session/haul_ranch.h"

#include <memory>

#include <QWidget>

class QComboBox;
class QDateEdit;
class QLabel;
class QPushButton;
class QSortFilterProxyModel;
class QSpinBox;
class QTableView;

namespace haylane {

class HaulDaysModel;
class OfferForm;
class PaperPart;
class WhatIfRow;
class WorkBar;

class HaulsPage : public QWidget {
    Q_OBJECT

  public:
    explicit HaulsPage(QWidget* parent = nullptr);

    // nullptr = none.
    void set_ranch(std::shared_ptr<const ShownRanch> ranch);
    [[nodiscard]] bool busy() const { return work_->busy() || report_row_->busy(); }
    // nullptr until there is one.
    [[nodiscard]] const std::shared_ptr<const HaulReport>& shown() const { return report_; }
    [[nodiscard]] MapViewWidget* map() const { return map_; }
    [[nodiscard]] ReportRow* report_row() const { return report_row_; }

  signals:
    void failed(const haylane::Error& error);

  protected:
    void showEvent(QShowEvent* event) override;

  private:
    [[nodiscard]] QWidget* make_left();
    [[nodiscard]] QWidget* make_right();
    [[nodiscard]] QWidget* make_choices();
    [[nodiscard]] QWidget* make_distance();
    [[nodiscard]] QWidget* make_days();
    [[nodiscard]] QWidget* make_stacks();
    [[nodiscard]] QWidget* make_buying();
    void connect_parts();
    void ask_anew();
    void work_out();
    void show_all();
    void show_matrix();
    void show_trip();
    void show_stacks();
    void show_offers();
    void try_change(const std::string& change);
    void offer_report();
    [[nodiscard]] const Ranch& ranch() const { return ranch_->open.checked.ranch; }
    [[nodiscard]] bool metric() const;

    Work* work_;
    std::shared_ptr<const ShownRanch> ranch_;
    std::shared_ptr<const HaulReport> report_;
    HaulAsked asked_;
    bool wanted_ = false;    // what is asked is not what is shown
    bool given_up_ = false;  // stopped by hand; until something else is asked
    MapViewWidget* map_;
    QDateEdit* day_;
    QComboBox* figure_;
    HaulMatrixModel* matrix_model_;
    QSortFilterProxyModel* sorted_;
    QTableView* matrix_ = nullptr;
    HaulDaysModel* days_model_;
    WhatIfRow* what_if_ = nullptr;
    QSpinBox* most_stacks_ = nullptr;
    QLabel* stacks_ = nullptr;
    OfferForm* offer_ = nullptr;
    QLabel* offers_ = nullptr;
    QLabel* trip_ = nullptr;
    QLabel* lead_ = nullptr;
    QLabel* distances_ = nullptr;
    PaperPart* chart_ = nullptr;
    WorkBar* bar_ = nullptr;
    QPushButton* again_ = nullptr;
    QPushButton* forget_ = nullptr;
    ReportRow* report_row_ = nullptr;
};

}  // namespace haylane
