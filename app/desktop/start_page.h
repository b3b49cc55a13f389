#pragma once
// What the window shows while no ranch is open: what can be done, as two buttons.

#include <QWidget>

namespace haylane {

class StartPage : public QWidget {
    Q_OBJECT

  public:
    explicit StartPage(QWidget* parent = nullptr);

  signals:
    void open_wanted();
    void make_wanted();
};

}  // namespace haylane
