// How the page is laid out; what it does stands in ground_page_work.cpp.
#include "app/desktop/ground/ground_page.h"

#include "app/desktop/ground/time_strip.h"
#include "app/desktop/jobs/work_bar.h"
#include "app/desktop/look.h"
#include "app/desktop/map/map_beside.h"
#include "app/desktop/paper_part.h"
#include "app/desktop/plain_table.h"

#include <QComboBox>
#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>
#include <QSortFilterProxyModel>
#include <QSplitter>
#include <QTableView>
#include <QVBoxLayout>

namespace haylane {
namespace {

constexpr int kLegend_px = 62;
constexpr int kCurve_px = 168;

}  // namespace

GroundPage::GroundPage(QWidget* parent)
    : QWidget(parent),
      work_(new Work(this)),
      map_(new MapViewWidget),
      other_map_(new MapViewWidget),
      season_(new QComboBox),
      measure_(new QComboBox),
      beside_(new QComboBox),
      model_(new PastureTableModel(this)),
      sorted_(new QSortFilterProxyModel(this)) {
    sorted_->setSourceModel(model_);
    sorted_->setSortRole(PastureTableModel::kSortRole);
    sorted_->setSortLocaleAware(true);
    auto* page = new QVBoxLayout(this);
    page->setContentsMargins(0, 0, 0, 0);
    page->addWidget(haylane::map_beside(make_left(), make_right(), 800, 460));
    connect_parts();
    set_ranch(nullptr);
}

QWidget* GroundPage::make_choices() {
    auto* choices = new QWidget;
    auto* row = new QHBoxLayout(choices);
    row->setContentsMargins(0, 0, 0, 0);
    const auto add = [row](const QString& text, QComboBox* box, const QString& tip) {
        auto* label = new QLabel(text);
        label->setBuddy(box);
        box->setAccessibleName(QString(text).remove('&'));
        box->setToolTip(tip);
        box->setSizeAdjustPolicy(QComboBox::AdjustToContents);
        row->addWidget(label);
        row->addWidget(box);
        row->addSpacing(10);
    };
    add(tr("&Season"), season_, tr("The winter whose feeding is shown"));
    add(tr("S&how"), measure_, tr("What the map, the table and the curve are about"));
    add(tr("&Beside"), beside_, tr("A second season on a second map that moves with the first"));
    row->addStretch(1);
    return choices;
}

QWidget* GroundPage::make_left() {
    map_->setAccessibleName(tr("Map of what lies on the ground"));
    other_map_->setAccessibleName(tr("Map of the season beside it"));
    other_map_->hide();
    auto* maps = new QHBoxLayout;
    maps->setSpacing(4);
    maps->addWidget(map_, 1);
    maps->addWidget(other_map_, 1);
    here_ = new QLabel;
    here_->setAccessibleName(tr("Under the pointer"));
    here_->setTextFormat(Qt::PlainText);
    time_ = new TimeStrip;
    legend_ = new PaperPart(tr("Legend"), kLegend_px);
    auto* left = new QWidget;
    auto* column = new QVBoxLayout(left);
    column->setContentsMargins(8, 8, 0, 6);
    column->setSpacing(5);
    column->addWidget(make_choices());
    column->addLayout(maps, 1);
    column->addWidget(here_);
    column->addWidget(time_);
    column->addWidget(legend_);
    return left;
}

QWidget* GroundPage::make_right() {
    title_ = new QLabel;
    QFont font = title_->font();
    font.setPointSizeF(font.pointSizeF() * 1.25);
    font.setBold(true);
    title_->setFont(font);
    title_->setWordWrap(true);
    evenness_ = new QLabel;
    evenness_->setWordWrap(true);
    evenness_->setAccessibleName(tr("How even"));
    bar_ = new WorkBar(work_);
    again_ = new QPushButton(tr("&Work it out"));
    again_->setToolTip(tr("The account of the season chosen was stopped; this starts it again"));
    table_ = plain_table(sorted_, tr("Pastures"));
    table_->setAccessibleDescription(tr("Choosing a row moves the map to the pasture; heads sort"));
    table_->setSortingEnabled(true);
    table_->sortByColumn(PastureTableModel::name, Qt::AscendingOrder);
    curve_ = new PaperPart(tr("Curve of evenness"), kCurve_px);
    curve_->setToolTip(
        tr("The lightest ground first: the nearer the curve is to the dashed line, "
           "the more even the ground. Of the pasture chosen, else of all."));
    report_row_ =
        new ReportRow("ground-report.pdf",
                      tr("The consultant's report on this season as a PDF, with how sure its "
                         "figures are; made in the background"));
    auto* right = new QWidget;
    auto* column = new QVBoxLayout(right);
    column->setContentsMargins(10, 8, 8, 6);
    column->setSpacing(6);
    column->addWidget(title_);
    column->addWidget(bar_);
    column->addWidget(again_);
    column->addWidget(evenness_);
    column->addWidget(table_, 1);
    column->addWidget(curve_);
    column->addWidget(report_row_);
    right->setMinimumWidth(420);
    return right;
}

}  // namespace haylane
