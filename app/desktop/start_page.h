#pragma once
// What the window shows while no ranch is open: the books opened last, and what else can be done.

#include <QStringList>
#include <QWidget>

class QVBoxLayout;

namespace haylane {

class StartPage : public QWidget {
    Q_OBJECT

  public:
    explicit StartPage(QWidget* parent = nullptr);

    // Paths, the last one first.
    void set_recent(const QStringList& books);

  signals:
    void open_wanted();
    void make_wanted();
    void draw_wanted();
    void sample_wanted();
    void book_wanted(const QString& path);

  private:
    QVBoxLayout* recent_;
};

}  // namespace haylane
