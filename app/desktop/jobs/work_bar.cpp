#include "app/desktop/jobs/work_bar.h"

#include <QHBoxLayout>
#include <QProgressBar>
#include <QPushButton>

namespace haylane {

WorkBar::WorkBar(Work* work, QWidget* parent)
    : QWidget(parent), bar_(new QProgressBar), stop_(new QPushButton(tr("S&top"))) {
    bar_->setRange(0, 1000);
    bar_->setFixedHeight(16);
    bar_->setAccessibleName(tr("How far the work is"));
    auto* row = new QHBoxLayout(this);
    row->setContentsMargins(0, 0, 0, 0);
    row->addWidget(bar_, 1);
    row->addWidget(stop_);
    setVisible(work->busy());
    connect(work, &Work::busy_changed, this, [this](bool busy) {
        bar_->setValue(0);
        stop_->setEnabled(busy);
        setVisible(busy);
    });
    connect(work, &Work::progressed, this,
            [this](double done_ratio) { bar_->setValue(static_cast<int>(done_ratio * 1000.0)); });
    connect(stop_, &QPushButton::clicked, work, [this, work] {
        stop_->setEnabled(false);  // pressed once is enough
        emit stop_wanted();
        work->stop();
    });
}

void WorkBar::set_doing(const QString& text) { bar_->setFormat(text + "  %p %"); }

}  // namespace haylane
