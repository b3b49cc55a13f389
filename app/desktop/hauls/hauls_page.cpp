// How the page is laid out; what it does stands in hauls_page_work.cpp.
#include "app/desktop/hauls/hauls_page.h"

#include "app/desktop/hauls/haul_days_model.h"
#include "app/desktop/hauls/offer_form.h"
#include "app/desktop/hauls/what_if_row.h"
#include "app/desktop/jobs/work_bar.h"
#include "app/desktop/map/map_beside.h"
#include "app/desktop/paper_part.h"
#include "app/desktop/plain_table.h"

#include <QComboBox>
#include <QDateEdit>
#include <QHBoxLayout>
#include <QHeaderView>
#include <QLabel>
#include <QPushButton>
#include <QScrollArea>
#include <QSortFilterProxyModel>
#include <QSpinBox>
#include <QSplitter>
#include <QTabWidget>
#include <QTableView>
#include <QVBoxLayout>

namespace haylane {
namespace {

constexpr int kChart_px = 200;

QLabel* wrapped(const QString& accessible_name) {
    auto* label = new QLabel;
    label->setWordWrap(true);
    label->setAccessibleName(accessible_name);
    label->setTextInteractionFlags(Qt::TextSelectableByMouse);
    return label;
}

// Text that may be longer than its room.
QScrollArea* scrolled(QWidget* inside) {
    auto* area = new QScrollArea;
    area->setWidget(inside);
    area->setWidgetResizable(true);
    area->setFrameShape(QFrame::NoFrame);
    area->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    return area;
}

}  // namespace

HaulsPage::HaulsPage(QWidget* parent)
    : QWidget(parent),
      work_(new Work(this)),
      map_(new MapViewWidget),
      day_(new QDateEdit),
      figure_(new QComboBox),
      matrix_model_(new HaulMatrixModel(this)),
      sorted_(new QSortFilterProxyModel(this)),
      days_model_(new HaulDaysModel(this)) {
    sorted_->setSourceModel(matrix_model_);
    sorted_->setSortRole(HaulMatrixModel::kSortRole);
    sorted_->setSortLocaleAware(true);
    auto* page = new QVBoxLayout(this);
    page->setContentsMargins(0, 0, 0, 0);
    page->addWidget(map_beside(make_left(), make_right(), 700, 560));
    connect_parts();
    set_ranch(nullptr);
}

QWidget* HaulsPage::make_left() {
    map_->setAccessibleName(tr("Map of the way"));
    trip_ = wrapped(tr("The way shown"));
    trip_->setMinimumHeight(3 * trip_->fontMetrics().lineSpacing() + 4);
    trip_->setAlignment(Qt::AlignTop | Qt::AlignLeft);
    lead_ = wrapped(tr("A day in short"));
    auto* left = new QWidget;
    auto* column = new QVBoxLayout(left);
    column->setContentsMargins(8, 8, 0, 6);
    column->setSpacing(5);
    column->addWidget(map_, 1);
    column->addWidget(trip_);
    column->addWidget(lead_);
    return left;
}

QWidget* HaulsPage::make_choices() {
    day_->setCalendarPopup(true);
    day_->setKeyboardTracking(false);
    day_->setDisplayFormat("d MMM yyyy");
    day_->setAccessibleName(tr("Day"));
    day_->setToolTip(tr("Its weather, and the gates and trails that are open on it, decide ways"));
    figure_->setAccessibleName(tr("Show"));
    figure_->setToolTip(tr("What the table says of each yard and pasture"));
    auto* on = new QLabel(tr("&On"));
    on->setBuddy(day_);
    auto* show = new QLabel(tr("S&how"));
    show->setBuddy(figure_);
    auto* choices = new QWidget;
    auto* row = new QHBoxLayout(choices);
    row->setContentsMargins(0, 0, 0, 0);
    row->addWidget(on);
    row->addWidget(day_);
    row->addSpacing(10);
    row->addWidget(show);
    row->addWidget(figure_);
    row->addStretch(1);
    return choices;
}

QWidget* HaulsPage::make_distance() {
    chart_ = new PaperPart(tr("Cost against distance"), kChart_px);
    distances_ = wrapped(tr("What distance costs"));
    auto* part = new QWidget;
    auto* column = new QVBoxLayout(part);
    column->setContentsMargins(6, 6, 6, 6);
    column->addWidget(chart_);
    column->addWidget(distances_);
    column->addStretch(1);
    return scrolled(part);
}

QWidget* HaulsPage::make_days() {
    what_if_ = new WhatIfRow;
    auto* table = plain_table(days_model_, tr("A day with each rig and under changes"));
    // A change's name may take two lines; the figures are all to be seen.
    table->setWordWrap(true);
    table->horizontalHeader()->setStretchLastSection(false);
    connect(days_model_, &HaulDaysModel::modelReset, table, [table] {
        if (table->horizontalHeader()->count() > 0)
            table->horizontalHeader()->setSectionResizeMode(0, QHeaderView::Stretch);
    });
    table->verticalHeader()->setSectionResizeMode(QHeaderView::ResizeToContents);
    forget_ = new QPushButton(tr("&Forget them"));
    forget_->setToolTip(tr("Takes away the changes that were tried here"));
    auto* row = new QHBoxLayout;
    row->addWidget(what_if_, 1);
    row->addWidget(forget_);
    auto* part = new QWidget;
    auto* column = new QVBoxLayout(part);
    column->setContentsMargins(6, 6, 6, 6);
    column->addLayout(row);
    column->addWidget(table, 1);
    return part;
}

QWidget* HaulsPage::make_stacks() {
    most_stacks_ = new QSpinBox;
    most_stacks_->setRange(0, 50);
    most_stacks_->setKeyboardTracking(false);
    most_stacks_->setSpecialValueText(tr("as many as there are yards"));
    most_stacks_->setAccessibleName(tr("Most places"));
    most_stacks_->setToolTip(
        tr("Of today's yards and a stack in each pasture, at most so many are used"));
    auto* most = new QLabel(tr("&Most places to stack"));
    most->setBuddy(most_stacks_);
    stacks_ = wrapped(tr("Where to stack"));
    auto* row = new QHBoxLayout;
    row->addWidget(most);
    row->addWidget(most_stacks_);
    row->addStretch(1);
    auto* part = new QWidget;
    auto* column = new QVBoxLayout(part);
    column->setContentsMargins(6, 6, 6, 6);
    column->addLayout(row);
    column->addWidget(stacks_);
    column->addStretch(1);
    return scrolled(part);
}

QWidget* HaulsPage::make_buying() {
    offer_ = new OfferForm;
    offers_ = wrapped(tr("What the machine costs"));
    auto* part = new QWidget;
    auto* column = new QVBoxLayout(part);
    column->setContentsMargins(6, 6, 6, 6);
    column->addWidget(offer_);
    column->addWidget(offers_);
    column->addStretch(1);
    return scrolled(part);
}

QWidget* HaulsPage::make_right() {
    bar_ = new WorkBar(work_);
    bar_->set_doing(tr("Ways and work"));
    again_ = new QPushButton(tr("&Work it out"));
    again_->setToolTip(tr("The account was stopped; this starts it again"));
    matrix_ = plain_table(sorted_, tr("Yards by pastures"));
    matrix_->setAccessibleDescription(
        tr("Choosing a cell shows its way on the map; heads sort. The cheapest yard is bold."));
    matrix_->setSelectionBehavior(QAbstractItemView::SelectItems);
    matrix_->setSortingEnabled(true);
    matrix_->sortByColumn(0, Qt::AscendingOrder);
    auto* parts = new QTabWidget;
    parts->setAccessibleName(tr("More on hauling"));
    parts->addTab(make_distance(), tr("Distance"));
    parts->addTab(make_days(), tr("Rigs and what if"));
    parts->addTab(make_stacks(), tr("Where to stack"));
    parts->addTab(make_buying(), tr("Buying a machine"));
    report_row_ = new ReportRow("haul-report.pdf",
                                tr("All of this as a PDF, with what it was reckoned with"));
    auto* right = new QWidget;
    auto* column = new QVBoxLayout(right);
    column->setContentsMargins(10, 8, 8, 6);
    column->setSpacing(6);
    column->addWidget(make_choices());
    column->addWidget(bar_);
    column->addWidget(again_);
    column->addWidget(matrix_, 4);
    column->addWidget(parts, 5);
    column->addWidget(report_row_);
    right->setMinimumWidth(460);
    return right;
}

}  // namespace haylane
