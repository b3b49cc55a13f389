#pragma once
// What the week's page asks before something is recorded: how a day was fed otherwise than planned,
// and for how long ground is closed.

#include "app/session/hold.h"
#include "app/session/record_done.h"
#include "core/plan/plan.h"

#include <optional>

#include <QDialog>

class QComboBox;
class QDateEdit;
class QLineEdit;
class QSpinBox;

namespace haylane {

class FedDialog : public QDialog {
    Q_OBJECT

  public:
    // Begins with what was planned.
    FedDialog(const PlannedFeeding& planned, const Ranch& ranch, QWidget* parent = nullptr);
    [[nodiscard]] DoneRequest request() const;

  private:
    DoneRequest planned_;
    QSpinBox* bales_;
    QComboBox* lot_;
    QComboBox* pasture_;
};

class CloseDialog : public QDialog {
    Q_OBJECT

  public:
    // `pasture`: that the area lies in; empty = in several, or none.
    CloseDialog(sys_days from, const std::string& pasture, QWidget* parent = nullptr);
    // Without the area.
    [[nodiscard]] CloseRequest request() const;

  private:
    QLineEdit* name_;
    QDateEdit* from_;
    QDateEdit* to_;
    QComboBox* where_;
};

}  // namespace haylane
