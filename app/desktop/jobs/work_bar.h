#pragma once
// What is being worked out, how far it is, and a button that stops it; hidden while nothing is. It
// keeps its room, so that nothing beside it moves.

#include "app/desktop/jobs/work.h"

#include <QWidget>

class QProgressBar;
class QPushButton;

namespace haylane {

class WorkBar : public QWidget {
    Q_OBJECT

  public:
    explicit WorkBar(Work* work, QWidget* parent = nullptr);
    // Said beside the share done: "P2O5 of 2026-27".
    void set_doing(const QString& text);

  signals:
    void stop_wanted();

  private:
    QProgressBar* bar_;
    QPushButton* stop_;
};

}  // namespace haylane
