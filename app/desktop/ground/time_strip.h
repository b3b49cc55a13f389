#pragma once
// A winter to slide through, week by week: the day shown, a slider, and a button that lets it run.

#include "core/base/day.h"

#include <QTimer>
#include <QWidget>

class QLabel;
class QPushButton;
class QSlider;

namespace haylane {

class TimeStrip : public QWidget {
    Q_OBJECT

  public:
    explicit TimeStrip(QWidget* parent = nullptr);

    // Steps of `step_days` from `from`: the day shown is the last of its step. Steps first to last
    // can be chosen, the last is. Nothing can be while first > last.
    void set_range(sys_days from, int step_days, int first, int last);
    [[nodiscard]] sys_days day() const;

  signals:
    void day_changed();

  private:
    void run(bool on);
    void show_day();

    QLabel* text_;
    QSlider* slider_;
    QPushButton* run_;
    QTimer clock_;
    sys_days from_;
    int step_days_ = 7;
};

}  // namespace haylane
