#include "app/desktop/week/week_page.h"

#include "app/desktop/file_names.h"
#include "app/desktop/map/map_beside.h"
#include "app/desktop/week/feeding_card.h"
#include "app/papers/week_sheet.h"
#include "app/papers/words.h"
#include "core/plan/spoken.h"
#include "core/ranch/last_fed_day.h"

#include <chrono>

#include <QDateEdit>
#include <QDir>
#include <QFileDialog>
#include <QFileInfo>
#include <QHBoxLayout>
#include <QLabel>
#include <QProgressBar>
#include <QPushButton>
#include <QScrollArea>
#include <QSpinBox>
#include <QSplitter>
#include <QVBoxLayout>

namespace haylane {
namespace {

constexpr int kMostDays = 60;

QDate to_date(sys_days day) {
    const std::chrono::year_month_day date(day);
    return {static_cast<int>(date.year()), static_cast<int>(static_cast<unsigned>(date.month())),
            static_cast<int>(static_cast<unsigned>(date.day()))};
}

sys_days to_day(QDate date) {
    return std::chrono::year(date.year()) /
           std::chrono::month(static_cast<unsigned>(date.month())) /
           std::chrono::day(static_cast<unsigned>(date.day()));
}

// The day after the last feeding on record, else today.
QDate next_day(const Ranch& ranch) {
    const auto last = last_fed_day(ranch);
    return last ? to_date(*last + std::chrono::days(1)) : QDate::currentDate();
}

QString summary_of(const Plan& plan, const Ranch& ranch, bool metric) {
    const auto to_q = [](const std::string& text) { return QString::fromStdString(text); };
    QStringList parts{to_q(words::bale_count(plan.totals.bales)),
                      to_q(words::long_length(plan.totals.distance_m, metric)),
                      to_q(words::minutes(plan.totals.time_s)),
                      to_q(words::volume(plan.totals.fuel_l, metric))};
    if (plan.totals.cost) {
        parts << to_q(words::money(*plan.totals.cost, ranch.settings.currency));
    }
    return "<b>" + parts.join(", ").toHtmlEscaped() + "</b><br>" +
           to_q(words::hay_lasts(plan.hay_lasts)).toHtmlEscaped();
}

}  // namespace

WeekPage::WeekPage(QWidget* parent)
    : QWidget(parent),
      job_(new PlanJob(this)),
      map_(new MapViewWidget),
      from_(new QDateEdit),
      days_(new QSpinBox),
      plan_button_(new QPushButton(tr("&Plan these days"))),
      sheet_button_(new QPushButton(tr("Save the &sheet…"))),
      stop_button_(new QPushButton(tr("S&top"))),
      progress_(new QProgressBar),
      summary_(new QLabel),
      cards_(new QScrollArea) {
    from_->setCalendarPopup(true);
    from_->setDisplayFormat("ddd d MMM yyyy");
    from_->setAccessibleName(tr("First day"));
    days_->setRange(1, kMostDays);
    days_->setValue(7);
    days_->setPrefix(tr("Days: "));
    days_->setAccessibleName(tr("How many days"));
    progress_->setRange(0, 1000);
    progress_->setFixedHeight(16);
    progress_->setAccessibleName(tr("Progress of the plan"));
    summary_->setWordWrap(true);
    summary_->setAccessibleName(tr("The days together"));
    cards_->setWidgetResizable(true);
    cards_->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    cards_->setFrameShape(QFrame::NoFrame);
    cards_->setAccessibleName(tr("Feedings"));
    auto* asked = new QHBoxLayout;
    asked->addWidget(from_, 1);
    asked->addWidget(days_);
    auto* actions = new QHBoxLayout;
    actions->addWidget(plan_button_, 1);
    actions->addWidget(sheet_button_);
    auto* running = new QHBoxLayout;
    running->addWidget(progress_, 1);
    running->addWidget(stop_button_);
    auto* side = new QWidget;
    auto* column = new QVBoxLayout(side);
    column->setContentsMargins(12, 10, 4, 8);
    column->addLayout(asked);
    column->addLayout(actions);
    column->addLayout(running);
    column->addWidget(summary_);
    column->addWidget(cards_, 1);
    side->setMinimumWidth(340);
    auto* page = new QVBoxLayout(this);
    page->setContentsMargins(0, 0, 0, 0);
    page->addWidget(map_beside(map_, side, 860, 400));
    connect(plan_button_, &QPushButton::clicked, this, &WeekPage::plan);
    connect(sheet_button_, &QPushButton::clicked, this, &WeekPage::ask_for_sheet);
    connect(stop_button_, &QPushButton::clicked, job_, [this] {
        stop_button_->setEnabled(false);  // pressed once is enough
        job_->stop();
    });
    connect(job_, &PlanJob::progressed, this, [this](const QString& stage, double done_ratio) {
        progress_->setFormat(stage + "  %p %");
        progress_->setValue(static_cast<int>(done_ratio * 1000.0));
    });
    connect(job_, &PlanJob::planned, this, &WeekPage::show_plan);
    connect(job_, &PlanJob::failed, this, [this](const Error& error) {
        show_busy(false);
        if (error.code != "cancelled") emit failed(error);
    });
    show_busy(false);
}

void WeekPage::set_ranch(std::shared_ptr<const ShownRanch> ranch) {
    ranch_ = std::move(ranch);
    plan_.reset();
    map_->set_ranch(ranch_);
    if (ranch_) from_->setDate(next_day(ranch_->open.checked.ranch));
    show_cards();
    show_busy(job_->busy());
}

void WeekPage::plan() {
    if (!ranch_) return;
    const PlanRequest request{.from = to_day(from_->date()), .days = days_->value()};
    if (job_->start(ranch_->open.book, request)) show_busy(true);
}

void WeekPage::show_plan(std::shared_ptr<ShownPlan> plan) {
    // Another book, or none, may have been opened meanwhile.
    if (ranch_ && plan->open.book == ranch_->open.book) {
        plan_ = std::move(plan);
        map_->set_content(map_content(plan_->kept.result.plan, plan_->open.checked.ranch));
        show_cards();
    }
    show_busy(false);
}

void WeekPage::show_cards() {
    auto* all = new QWidget;
    auto* column = new QVBoxLayout(all);
    column->setContentsMargins(0, 0, 8, 0);
    column->setSpacing(8);
    summary_->clear();
    if (plan_) {
        const Ranch& ranch = plan_->open.checked.ranch;
        const Plan& plan = plan_->kept.result.plan;
        const bool metric = speaks_metric(ranch.settings);
        summary_->setText(summary_of(plan, ranch, metric));
        for (const PlannedFeeding& feeding : plan.feedings) {
            column->addWidget(new FeedingCard(feeding, ranch, metric));
        }
    } else {
        summary_->setText(tr("Choose the first day and press Plan these days."));
    }
    column->addStretch(1);
    cards_->setWidget(all);
}

void WeekPage::show_busy(bool busy) {
    progress_->setVisible(busy);
    stop_button_->setVisible(busy);
    stop_button_->setEnabled(busy);
    if (busy) {
        progress_->setFormat(tr("Reading the book"));
        progress_->setValue(0);
    }
    plan_button_->setEnabled(!busy && ranch_ != nullptr);
    sheet_button_->setEnabled(!busy && plan_ != nullptr);
}

Result<void> WeekPage::write_sheet(const std::filesystem::path& file) const {
    if (!plan_)
        return fail({"no_plan", "There is no plan yet.", file.string(), "Plan the days first."});
    const Ranch& ranch = plan_->open.checked.ranch;
    return write_week_sheet(file, plan_->kept.result, ranch,
                            {.metric = speaks_metric(ranch.settings)});
}

void WeekPage::ask_for_sheet() {
    const QString beside = QFileInfo(to_text(ranch_->open.book)).absolutePath();
    const QString chosen = QFileDialog::getSaveFileName(
        this, tr("Save the week's sheet"), QDir(beside).filePath("week-sheet.pdf"), "PDF (*.pdf)");
    if (chosen.isEmpty()) return;
    if (const auto written = write_sheet(to_path(chosen)); !written) {
        emit failed(written.error());
    }
}

}  // namespace haylane
