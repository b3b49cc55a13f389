#pragma once
// One feeding of a trial, written down as it happens: what is timed has a button that starts and
// stops the clock.

#include "gis/book/edit_cells.h"
#include "gis/book/edit_rows.h"

#include <vector>

#include <QElapsedTimer>
#include <QTimer>
#include <QWidget>

class QLineEdit;
class QPushButton;

namespace haylane {

class TrialForm : public QWidget {
    Q_OBJECT

  public:
    explicit TrialForm(QWidget* parent = nullptr);

    // Rigs and lots to choose from. nullptr = none. What is written stays unless the units change.
    void set_ranch(const Ranch* ranch);
    // The feeding as a new row. Errors: not_a_number.
    [[nodiscard]] Result<RowEdit> edit() const;
    // Blank but for rig, lot, date and mark, which the next feeding shares.
    void begin_next();

  private:
    struct Line {
        ShownColumn column;
        QLineEdit* text = nullptr;
        QPushButton* clock = nullptr;  // of what is timed
        QElapsedTimer since;
        double before_min = 0.0;  // on the clock when it was started
    };

    void fill(bool metric);
    void turn_clock(Line& line);
    void show_clocks();

    std::vector<Line> lines_;
    std::string units_;  // that the form was made for
    const Ranch* ranch_ = nullptr;
    QTimer ticking_;
};

}  // namespace haylane
