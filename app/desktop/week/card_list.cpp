#include "app/desktop/week/card_list.h"

#include "core/plan/spoken.h"

#include <QScrollBar>
#include <QVBoxLayout>

namespace haylane {

CardList::CardList(QWidget* parent) : QScrollArea(parent) {
    setWidgetResizable(true);
    setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    setFrameShape(QFrame::NoFrame);
    setAccessibleName(tr("Feedings"));
}

void CardList::clear() {
    cards_.clear();
    setWidget(new QWidget);
}

void CardList::set_feedings(const std::vector<PlannedFeeding>& feedings, const Ranch& ranch,
                            const std::vector<CardMarks>& marks) {
    const int scrolled = verticalScrollBar()->value();
    cards_.clear();
    auto* all = new QWidget;
    auto* column = new QVBoxLayout(all);
    column->setContentsMargins(0, 0, 8, 0);
    column->setSpacing(8);
    const bool metric = speaks_metric(ranch.settings);
    for (std::size_t f = 0; f < feedings.size(); ++f) {
        auto* card = new FeedingCard(feedings[f], ranch, metric, marks[f]);
        connect_card(card, f);
        column->addWidget(card);
        cards_.push_back(card);
    }
    column->addStretch(1);
    setWidget(all);
    all->adjustSize();
    verticalScrollBar()->setValue(scrolled);
}

void CardList::connect_card(FeedingCard* card, std::size_t feeding) {
    connect(card, &FeedingCard::picked, this, [this, feeding] { emit picked(feeding); });
    connect(card, &FeedingCard::hold_wanted, this,
            [this, feeding](bool line_only) { emit hold_wanted(feeding, line_only); });
    connect(card, &FeedingCard::let_go_wanted, this,
            [this, feeding] { emit let_go_wanted(feeding); });
    connect(card, &FeedingCard::another_wanted, this,
            [this, feeding] { emit another_wanted(feeding); });
    connect(card, &FeedingCard::drawing_wanted, this,
            [this, feeding] { emit drawing_wanted(feeding); });
    connect(card, &FeedingCard::fed_wanted, this, [this, feeding] { emit fed_wanted(feeding); });
    connect(card, &FeedingCard::fed_otherwise_wanted, this,
            [this, feeding] { emit fed_otherwise_wanted(feeding); });
}

void CardList::pick(std::optional<std::size_t> feeding) {
    for (std::size_t f = 0; f < cards_.size(); ++f) cards_[f]->set_picked(feeding == f);
    if (feeding && *feeding < cards_.size()) ensureWidgetVisible(cards_[*feeding], 0, 0);
}

}  // namespace haylane
