#pragma once
// Beside the map: the ranch in four lines (pastures, herds, hay, what was fed) and its problems.

#include "app/desktop/jobs/open_job.h"
#include "app/desktop/models/problem_model.h"

#include <QWidget>

class QFormLayout;
class QLabel;
class QListView;

namespace haylane {

class SidePanel : public QWidget {
    Q_OBJECT

  public:
    explicit SidePanel(QWidget* parent = nullptr);

    void set_ranch(const ShownRanch& shown);
    [[nodiscard]] const ProblemModel& problems() const { return *problems_; }

  signals:
    // A problem was chosen: where it is said to be.
    void place_wanted(const QString& where);

  private:
    QLabel* name_;
    QFormLayout* facts_;
    QLabel* problems_title_;
    QListView* list_;
    ProblemModel* problems_;
};

}  // namespace haylane
