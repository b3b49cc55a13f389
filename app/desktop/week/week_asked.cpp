#include "app/desktop/week/week_asked.h"

#include "app/desktop/dates.h"
#include "core/ranch/last_fed_day.h"

#include <chrono>

#include <QComboBox>
#include <QDateEdit>
#include <QHBoxLayout>
#include <QMenu>
#include <QProgressBar>
#include <QPushButton>
#include <QSpinBox>
#include <QVBoxLayout>

namespace haylane {
namespace {

constexpr int kMostDays = 60;

// The day after the last feeding on record, else today.
QDate next_day(const Ranch& ranch) {
    const auto last = last_fed_day(ranch);
    return last ? to_date(*last + std::chrono::days(1)) : QDate::currentDate();
}

}  // namespace

WeekAsked::WeekAsked(QWidget* parent)
    : QWidget(parent),
      from_(new QDateEdit),
      days_(new QSpinBox),
      order_(new QComboBox),
      shut_(new QPushButton),
      shut_menu_(new QMenu(shut_)),
      plan_(new QPushButton(tr("&Plan these days"))),
      stop_(new QPushButton(tr("S&top"))),
      progress_(new QProgressBar) {
    from_->setCalendarPopup(true);
    from_->setDisplayFormat("ddd d MMM yyyy");
    from_->setAccessibleName(tr("First day"));
    days_->setRange(1, kMostDays);
    days_->setValue(7);
    days_->setPrefix(tr("Days: "));
    days_->setAccessibleName(tr("How many days"));
    order_->addItem(tr("Next line beside the last"));
    order_->addItem(tr("Next line where it evens out best"));
    order_->setAccessibleName(tr("Where the next line goes"));
    order_->setToolTip(
        tr("Beside the herd's last line, block by block; or wherever the ground "
           "comes out most even, which moves the herd about more"));
    order_->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
    shut_->setMenu(shut_menu_);
    shut_->setToolTip(tr("Gates and trails that cannot be used: the plan goes round them"));
    progress_->setRange(0, 1000);
    progress_->setFixedHeight(16);
    progress_->setAccessibleName(tr("Progress of the plan"));
    plan_->setDefault(true);
    auto* days = new QHBoxLayout;
    days->addWidget(from_, 1);
    days->addWidget(days_);
    auto* how = new QHBoxLayout;
    how->addWidget(order_, 1);
    how->addWidget(shut_);
    auto* running = new QHBoxLayout;
    running->addWidget(progress_, 1);
    running->addWidget(stop_);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    column->addLayout(days);
    column->addLayout(how);
    column->addWidget(plan_);
    column->addLayout(running);
    connect(plan_, &QPushButton::clicked, this, &WeekAsked::plan_wanted);
    connect(stop_, &QPushButton::clicked, this, [this] {
        stop_->setEnabled(false);  // pressed once is enough
        emit stop_wanted();
    });
    set_planning(false);
    show_shut();
}

void WeekAsked::set_ranch(const Ranch* ranch) {
    any_ranch_ = ranch != nullptr;
    shut_menu_->clear();
    if (ranch != nullptr) {
        from_->setDate(next_day(*ranch));
        const auto add = [this](const std::string& name) {
            if (name.empty()) return;
            QAction* one = shut_menu_->addAction(QString::fromStdString(name).replace("&", "&&"));
            one->setCheckable(true);
            one->setData(QString::fromStdString(name));
            connect(one, &QAction::toggled, this, &WeekAsked::show_shut);
        };
        for (const Gate& gate : ranch->gates) add(gate.name);
        shut_menu_->addSeparator();
        for (const Trail& trail : ranch->trails) add(trail.name);
    }
    show_shut();
    set_planning(false);
}

void WeekAsked::show_shut() {
    const std::size_t n = request().blocked.size();
    shut_->setText(n == 0 ? tr("All gates open") : tr("%1 shut").arg(n));
    shut_->setAccessibleName(tr("Gates and trails shut this morning: %1").arg(n));
}

PlanRequest WeekAsked::request() const {
    PlanRequest request{.from = to_day(from_->date()), .days = days_->value()};
    if (order_->currentIndex() == 1) request.order = LineOrder::free;
    for (const QAction* one : shut_menu_->actions())
        if (one->isChecked()) request.blocked.push_back(one->data().toString().toStdString());
    return request;
}

void WeekAsked::show_progress(const QString& stage, double done_ratio) {
    progress_->setFormat(stage + "  %p %");
    progress_->setValue(static_cast<int>(done_ratio * 1000.0));
}

void WeekAsked::set_planning(bool planning) {
    progress_->setVisible(planning);
    stop_->setVisible(planning);
    stop_->setEnabled(planning);
    plan_->setEnabled(!planning && any_ranch_);
    if (planning) show_progress(tr("Reading the book"), 0.0);
}

}  // namespace haylane
