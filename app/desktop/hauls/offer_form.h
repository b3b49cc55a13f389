#pragma once
// A machine that may be bought, as machine_offer reads it: "price=45000;end_value=20000;years=8".

#include "core/ranch/ranch.h"

#include <string>

#include <QWidget>

class QComboBox;
class QDoubleSpinBox;
class QGridLayout;

namespace haylane {

class OfferForm : public QWidget {
    Q_OBJECT

  public:
    explicit OfferForm(QWidget* parent = nullptr);

    // Whose rigs' work it may do; nullptr = none.
    void set_ranch(const Ranch* ranch);
    // As it stands.
    [[nodiscard]] std::string offer() const;

  signals:
    void wanted(const std::string& offer);

  private:
    QDoubleSpinBox* add_number(QGridLayout& grid, const QString& name, const QString& tip,
                               double value, double least, double most);
    void add(QGridLayout& grid, const QString& name, const QString& tip, QWidget* field);

    int fields_ = 0;
    QDoubleSpinBox* price_;
    QDoubleSpinBox* end_value_;
    QDoubleSpinBox* years_;
    QDoubleSpinBox* days_;
    QDoubleSpinBox* quote_;
    QComboBox* rig_;
};

}  // namespace haylane
