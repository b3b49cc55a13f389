#pragma once
// The feedings' cards, one below the other, by number of the feeding in the plan.

#include "app/desktop/week/feeding_card.h"

#include <optional>
#include <vector>

#include <QScrollArea>

namespace haylane {

class CardList : public QScrollArea {
    Q_OBJECT

  public:
    explicit CardList(QWidget* parent = nullptr);

    // `marks`: one a feeding. The place scrolled to stays.
    void set_feedings(const std::vector<PlannedFeeding>& feedings, const Ranch& ranch,
                      const std::vector<CardMarks>& marks);
    void clear();
    // Rims the card and scrolls to it.
    void pick(std::optional<std::size_t> feeding);

  signals:
    void picked(std::size_t feeding);
    void hold_wanted(std::size_t feeding, bool line_only);
    void let_go_wanted(std::size_t feeding);
    void another_wanted(std::size_t feeding);
    void drawing_wanted(std::size_t feeding);
    void fed_wanted(std::size_t feeding);
    void fed_otherwise_wanted(std::size_t feeding);

  private:
    void connect_card(FeedingCard* card, std::size_t feeding);

    std::vector<FeedingCard*> cards_;
};

}  // namespace haylane
