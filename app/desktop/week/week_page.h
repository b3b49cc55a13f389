#pragma once
// The week: the days' lines on the map, and a card for every feeding beside it. Plans when asked,
// with progress and a stop, and makes the sheet for the cab door.

#include "app/desktop/jobs/open_job.h"
#include "app/desktop/jobs/plan_job.h"
#include "app/desktop/map/map_view_widget.h"

#include <filesystem>
#include <memory>

#include <QWidget>

class QDateEdit;
class QLabel;
class QProgressBar;
class QPushButton;
class QScrollArea;
class QSpinBox;

namespace haylane {

class WeekPage : public QWidget {
    Q_OBJECT

  public:
    explicit WeekPage(QWidget* parent = nullptr);

    // Shows the ranch without a plan; nullptr = none.
    void set_ranch(std::shared_ptr<const ShownRanch> ranch);
    void plan();
    [[nodiscard]] bool busy() const { return job_->busy(); }
    // nullptr until there is one.
    [[nodiscard]] const std::shared_ptr<ShownPlan>& shown() const { return plan_; }
    [[nodiscard]] MapViewWidget* map() const { return map_; }
    // The sheet of the plan shown, as a PDF.
    [[nodiscard]] Result<void> write_sheet(const std::filesystem::path& file) const;

  signals:
    void failed(const haylane::Error& error);

  private:
    void show_plan(std::shared_ptr<ShownPlan> plan);
    void show_cards();
    void show_busy(bool busy);
    void ask_for_sheet();

    PlanJob* job_;
    std::shared_ptr<const ShownRanch> ranch_;
    std::shared_ptr<ShownPlan> plan_;
    MapViewWidget* map_;
    QDateEdit* from_;
    QSpinBox* days_;
    QPushButton* plan_button_;
    QPushButton* sheet_button_;
    QPushButton* stop_button_;
    QProgressBar* progress_;
    QLabel* summary_;
    QScrollArea* cards_;
};

}  // namespace haylane
