#pragma once
// What a plan is asked for, above the week's cards: first day, days, order of lines, gates and
// trails shut this morning; the button that plans, and while it plans, progress and a stop.

#include "core/plan/plan_request.h"
#include "core/ranch/ranch.h"

#include <QWidget>

class QComboBox;
class QDateEdit;
class QMenu;
class QProgressBar;
class QPushButton;
class QSpinBox;

namespace haylane {

class WeekAsked : public QWidget {
    Q_OBJECT

  public:
    explicit WeekAsked(QWidget* parent = nullptr);

    // Begins with the day after the last one fed. nullptr = none: nothing can be asked.
    void set_ranch(const Ranch* ranch);
    // Without a hand, progress or stop.
    [[nodiscard]] PlanRequest request() const;
    void show_progress(const QString& stage, double done_ratio);
    // Stop shows while a plan is made.
    void set_planning(bool planning);

  signals:
    void plan_wanted();
    void stop_wanted();

  private:
    void show_shut();

    QDateEdit* from_;
    QSpinBox* days_;
    QComboBox* order_;
    QPushButton* shut_;
    QMenu* shut_menu_;
    QPushButton* plan_;
    QPushButton* stop_;
    QProgressBar* progress_;
    bool any_ranch_ = false;
};

}  // namespace haylane
