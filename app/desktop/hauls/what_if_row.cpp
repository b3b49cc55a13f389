#include "app/desktop/hauls/what_if_row.h"

#include "core/base/units.h"

#include <algorithm>

#include <QComboBox>
#include <QDoubleSpinBox>
#include <QHBoxLayout>
#include <QPushButton>
#include <fmt/format.h>

namespace haylane {
namespace {

constexpr double kLitersPerM3 = 1000.0;
constexpr double kMostMoney = 1000.0;

std::vector<std::string> trail_names(const Ranch& ranch) {
    std::vector<std::string> names;
    for (const Trail& trail : ranch.trails) {
        const bool better = trail.surface == Surface::paved || trail.surface == Surface::gravel;
        // These signs part changes from each other and a trail from its surface.
        if (better || trail.name.empty() || trail.name.find_first_of(";=") != std::string::npos)
            continue;
        if (std::find(names.begin(), names.end(), trail.name) == names.end())
            names.push_back(trail.name);
    }
    return names;
}

}  // namespace

WhatIfRow::WhatIfRow(QWidget* parent)
    : QWidget(parent),
      kind_(new QComboBox),
      value_(new QDoubleSpinBox),
      try_(new QPushButton(tr("Tr&y it"))) {
    kind_->setAccessibleName(tr("What would be changed"));
    kind_->setToolTip(tr("A change to try on the whole day's work; nothing in the book changes"));
    kind_->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
    kind_->setMinimumContentsLength(18);
    value_->setAccessibleName(tr("To how much"));
    value_->setMinimumWidth(90);
    try_->setToolTip(tr("Works the day out under this change and adds a row"));
    auto* row = new QHBoxLayout(this);
    row->setContentsMargins(0, 0, 0, 0);
    row->addWidget(kind_, 1);
    row->addWidget(value_);
    row->addWidget(try_);
    connect(kind_, &QComboBox::currentIndexChanged, this, &WhatIfRow::show_kind);
    connect(try_, &QPushButton::clicked, this, [this] {
        if (const std::string asked = change(); !asked.empty()) emit wanted(asked);
    });
    set_ranch(nullptr, false);
}

void WhatIfRow::add(const Kind& kind) {
    kinds_.push_back(kind);
    kind_->addItem(kind.name);
}

void WhatIfRow::set_ranch(const Ranch* ranch, bool metric) {
    kinds_.clear();
    kind_->clear();
    setEnabled(ranch != nullptr);
    if (ranch == nullptr) return;
    const Settings& s = ranch->settings;
    const double liters = metric ? 1.0 : units::kLitersPerGallon;
    const double hour = units::kSecondsPerHour;
    add({metric ? tr("Fuel price a liter") : tr("Fuel price a gallon"),
         metric ? "fuel_price_per_l" : "fuel_price_per_gal",
         s.fuel_price_per_m3.value_or(0.0) / kLitersPerM3 * liters, 0.0, kMostMoney, 2});
    add({tr("Labor an hour"), "labor_per_h", s.labor_per_s.value_or(0.0) * hour, 0.0, kMostMoney,
         2});
    add({tr("Machine an hour"), "machine_per_h", s.machine_per_s.value_or(0.0) * hour, 0.0,
         kMostMoney, 2});
    add({tr("Days' feed at a time"), "days_at_once", 4.0, 1.0, 7.0, 0});
    add({tr("Bales a load"), "bales_per_load", 3.0, 1.0, 40.0, 0});
    for (const std::string& name : trail_names(*ranch))
        add({tr("%1 graveled").arg(QString::fromStdString(name)), "trail:" + name + "=gravel", 0.0,
             0.0, 0.0, 0});
}

void WhatIfRow::show_kind() {
    const auto at = static_cast<std::size_t>(std::max(0, kind_->currentIndex()));
    if (at >= kinds_.size()) return;
    const Kind& kind = kinds_[at];
    value_->setVisible(kind.least < kind.most);
    value_->setDecimals(kind.decimals);
    value_->setRange(kind.least, kind.most);
    value_->setSingleStep(kind.decimals > 0 ? 0.5 : 1.0);
    value_->setValue(kind.value);
}

std::string WhatIfRow::change() const {
    const auto at = static_cast<std::size_t>(std::max(0, kind_->currentIndex()));
    if (at >= kinds_.size()) return {};
    const Kind& kind = kinds_[at];
    if (!(kind.least < kind.most)) return kind.key;
    return fmt::format("{}={:.{}f}", kind.key, value_->value(), kind.decimals);
}

}  // namespace haylane
