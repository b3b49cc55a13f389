#include "app/desktop/side_panel.h"

#include "app/desktop/look.h"
#include "app/desktop/models/problem_cards.h"
#include "app/papers/words.h"
#include "core/plan/spoken.h"
#include "core/ranch/last_fed_day.h"

#include <algorithm>
#include <utility>
#include <vector>

#include <QFormLayout>
#include <QLabel>
#include <QListView>
#include <QVBoxLayout>

namespace haylane {
namespace {

using Fact = std::pair<QString, QString>;

QString counted(std::size_t count, const QString& one, const QString& many) {
    return QString::fromStdString(words::whole_number(static_cast<double>(count))) + " " +
           (count == 1 ? one : many);
}

QString pastures_in_words(const Ranch& ranch) {
    double area = 0.0;
    for (const Pasture& pasture : ranch.pastures) area += area_m2(pasture.shape);
    return QString::number(ranch.pastures.size()) + " with " +
           QString::fromStdString(words::area(area, speaks_metric(ranch.settings)));
}

QString herds_in_words(const Ranch& ranch) {
    std::size_t head = 0;
    for (const Herd& herd : ranch.herds) head += static_cast<std::size_t>(std::max(0, herd.head));
    return QString::number(ranch.herds.size()) + " with " + counted(head, "head", "head");
}

QString hay_in_words(const Ranch& ranch) {
    std::size_t bales = 0;
    std::size_t lots = 0;
    for (const HayLot& lot : ranch.lots) {
        if (lot.bales <= 0) continue;
        bales += static_cast<std::size_t>(lot.bales);
        ++lots;
    }
    return counted(bales, "bale", "bales") + " in " + counted(lots, "lot", "lots");
}

QString fed_in_words(const Ranch& ranch) {
    const auto last = last_fed_day(ranch);
    if (!last) return SidePanel::tr("nothing on record yet");
    const std::chrono::year_month_day day(*last);
    return counted(ranch.feedings.size(), "feeding", "feedings") + ", last " +
           QString::fromStdString(words::date(*last)) + " " +
           QString::number(static_cast<int>(day.year()));
}

QLabel* heading() {
    auto* label = new QLabel;
    QFont font = label->font();
    font.setPointSizeF(font.pointSizeF() * 1.25);
    font.setBold(true);
    label->setFont(font);
    label->setWordWrap(true);
    return label;
}

QLabel* faded(const QString& text) {
    auto* label = new QLabel(text);
    QPalette palette = label->palette();
    palette.setColor(QPalette::WindowText, look::kFadedInk);
    label->setPalette(palette);
    return label;
}

}  // namespace

SidePanel::SidePanel(QWidget* parent)
    : QWidget(parent),
      name_(heading()),
      facts_(new QFormLayout),
      problems_title_(heading()),
      list_(new QListView),
      problems_(new ProblemModel(this)) {
    list_->setModel(problems_);
    list_->setItemDelegate(new ProblemCards(list_));
    list_->setResizeMode(QListView::Adjust);
    list_->setVerticalScrollMode(QAbstractItemView::ScrollPerPixel);
    list_->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    list_->setVerticalScrollBarPolicy(Qt::ScrollBarAlwaysOn);  // keeps the width that cards wrap to
    list_->setAccessibleName(tr("Problems"));
    problems_title_->setBuddy(list_);
    facts_->setContentsMargins(0, 2, 0, 10);
    facts_->setVerticalSpacing(3);
    facts_->setHorizontalSpacing(14);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(12, 10, 12, 12);
    column->addWidget(name_);
    column->addLayout(facts_);
    column->addWidget(problems_title_);
    column->addWidget(list_, 1);
    setMinimumWidth(260);
    const auto go = [this](const QModelIndex& index) {
        emit place_wanted(problems_->index(index.row(), ProblemModel::where).data().toString());
    };
    connect(list_, &QListView::clicked, this, go);
    connect(list_, &QListView::activated, this, go);
}

void SidePanel::set_ranch(const ShownRanch& shown) {
    const Ranch& ranch = shown.open.checked.ranch;
    name_->setText(QString::fromStdString(ranch.name));
    while (facts_->rowCount() > 0) facts_->removeRow(0);
    for (const auto& [title, text] : std::vector<Fact>{{tr("Pastures"), pastures_in_words(ranch)},
                                                       {tr("Herds"), herds_in_words(ranch)},
                                                       {tr("Hay left"), hay_in_words(ranch)},
                                                       {tr("Fed"), fed_in_words(ranch)}}) {
        auto* value = new QLabel(text);
        value->setWordWrap(true);
        facts_->addRow(faded(title), value);
    }
    const Problems& found = shown.open.checked.problems;
    problems_->set_problems(found);
    problems_title_->setText(found.empty() ? tr("No &problems")
                                           : tr("&Problems (%1)").arg(found.size()));
}

}  // namespace haylane
