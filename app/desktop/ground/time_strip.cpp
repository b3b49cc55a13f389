#include "app/desktop/ground/time_strip.h"

#include "app/papers/words.h"

#include <algorithm>
#include <chrono>

#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>
#include <QSlider>

namespace haylane {
namespace {

constexpr std::chrono::milliseconds kStep{450};  // long enough to see what changed

QString in_words(sys_days day) {
    const std::chrono::year_month_day date(day);
    return QString("%1 %2").arg(QString::fromStdString(words::date(day))).arg(int(date.year()));
}

}  // namespace

TimeStrip::TimeStrip(QWidget* parent)
    : QWidget(parent),
      text_(new QLabel),
      slider_(new QSlider(Qt::Horizontal)),
      run_(new QPushButton(tr("Let it &run"))) {
    text_->setMinimumWidth(
        text_->fontMetrics().horizontalAdvance(tr("By %1").arg("30 September 2026 ")));
    slider_->setTickPosition(QSlider::TicksBelow);
    slider_->setPageStep(4);
    slider_->setAccessibleName(tr("Day of the season"));
    slider_->setToolTip(
        tr("What had been laid by the end of this day; arrow keys go week by week"));
    run_->setCheckable(true);
    run_->setToolTip(tr("Goes through the season from its first feeding to its last"));
    auto* row = new QHBoxLayout(this);
    row->setContentsMargins(0, 0, 0, 0);
    row->addWidget(text_);
    row->addWidget(slider_, 1);
    row->addWidget(run_);
    clock_.setInterval(kStep);
    connect(&clock_, &QTimer::timeout, this, [this] {
        slider_->setValue(slider_->value() + 1);
        if (slider_->value() >= slider_->maximum()) run_->setChecked(false);
    });
    connect(run_, &QPushButton::toggled, this, &TimeStrip::run);
    connect(slider_, &QSlider::valueChanged, this, [this] {
        show_day();
        emit day_changed();
    });
    set_range({}, 7, 1, 0);
}

void TimeStrip::set_range(sys_days from, int step_days, int first, int last) {
    from_ = from;
    step_days_ = step_days;
    const bool any = first <= last;
    run_->setChecked(false);
    setEnabled(any);
    {
        const QSignalBlocker quiet(slider_);
        slider_->setRange(any ? first : 0, any ? last : 0);
        slider_->setValue(slider_->maximum());
    }
    show_day();
}

sys_days TimeStrip::day() const {
    return from_ + std::chrono::days{(slider_->value() + 1) * step_days_ - 1};
}

void TimeStrip::run(bool on) {
    if (on && slider_->value() >= slider_->maximum()) slider_->setValue(slider_->minimum());
    on ? clock_.start() : clock_.stop();
}

void TimeStrip::show_day() {
    text_->setText(isEnabled() ? tr("By %1").arg(in_words(day())) : QString());
}

}  // namespace haylane
