#pragma once
// Asks for a new ranch's name and the place it is drawn round.

#include "gis/crs/frame.h"

#include <string>

#include <QDialog>

class QDoubleSpinBox;
class QLineEdit;

namespace haylane {

class NewRanchDialog : public QDialog {
    Q_OBJECT

  public:
    explicit NewRanchDialog(QWidget* parent = nullptr);
    [[nodiscard]] std::string name() const;
    [[nodiscard]] LonLat centre() const;

  private:
    QLineEdit* name_;
    QDoubleSpinBox* latitude_;
    QDoubleSpinBox* longitude_;
};

}  // namespace haylane
