#pragma once
// A planned feeding as a card of paper: the words of the week sheet's card, and below them what can
// be done with it. Days in pencil stand on paler paper; the card picked has a rim of hay colour.

#include "core/plan/plan.h"
#include "core/ranch/ranch.h"

#include <QFrame>

class QToolButton;

namespace haylane {

// What the book says of a planned feeding.
struct CardMarks {
    bool held = false;
    bool fed = false;
    bool moved = false;  // by hand since the plan was made
};

class FeedingCard : public QFrame {
    Q_OBJECT

  public:
    FeedingCard(const PlannedFeeding& feeding, const Ranch& ranch, bool metric,
                const CardMarks& marks, QWidget* parent = nullptr);
    void set_picked(bool picked);

  signals:
    void picked();
    void hold_wanted(bool line_only);
    void let_go_wanted();
    void another_wanted();
    void drawing_wanted();
    void fed_wanted();            // as planned
    void fed_otherwise_wanted();  // asks how

  protected:
    void mousePressEvent(QMouseEvent* event) override;
    void paintEvent(QPaintEvent* event) override;

  private:
    [[nodiscard]] QToolButton* button(const QString& text, const QString& help);
    [[nodiscard]] QWidget* buttons(const PlannedFeeding& feeding, const CardMarks& marks);

    QString name_;  // for those who hear it
    bool picked_ = false;
};

}  // namespace haylane
