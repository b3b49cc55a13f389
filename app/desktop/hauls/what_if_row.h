#pragma once
// One change to try: what, how much, and a button. Gives it as the session reads it:
// "fuel_price_per_gal=5", "trail:Creek trail=gravel".

#include "core/ranch/ranch.h"

#include <string>
#include <vector>

#include <QWidget>

class QComboBox;
class QDoubleSpinBox;
class QPushButton;

namespace haylane {

class WhatIfRow : public QWidget {
    Q_OBJECT

  public:
    explicit WhatIfRow(QWidget* parent = nullptr);

    // Begins with the ranch's own prices and trails; nullptr = none.
    void set_ranch(const Ranch* ranch, bool metric);
    // As it stands; empty without a ranch.
    [[nodiscard]] std::string change() const;

  signals:
    void wanted(const std::string& change);

  private:
    struct Kind {
        QString name;
        std::string key;
        double value = 0.0;
        double least = 0.0;  // least = most: the key says all
        double most = 0.0;
        int decimals = 0;
    };
    void add(const Kind& kind);
    void show_kind();

    std::vector<Kind> kinds_;
    QComboBox* kind_;
    QDoubleSpinBox* value_;
    QPushButton* try_;
};

}  // namespace haylane
