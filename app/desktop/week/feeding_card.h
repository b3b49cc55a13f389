#pragma once
// A planned feeding as a card of paper: the words of the week sheet's card. Days in pencil stand on
// paler paper.

#include "core/plan/plan.h"
#include "core/ranch/ranch.h"

#include <QFrame>

namespace haylane {

class FeedingCard : public QFrame {
    Q_OBJECT

  public:
    FeedingCard(const PlannedFeeding& feeding, const Ranch& ranch, bool metric,
                QWidget* parent = nullptr);
};

}  // namespace haylane
