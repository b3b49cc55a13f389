#include "app/desktop/hauls/offer_form.h"

#include <QComboBox>
#include <QDoubleSpinBox>
#include <QGridLayout>
#include <QLabel>
#include <QPushButton>
#include <QVBoxLayout>
#include <fmt/format.h>

namespace haylane {
namespace {

constexpr double kMostMoney = 1e7;  // as machine_offer believes

}  // namespace

OfferForm::OfferForm(QWidget* parent) : QWidget(parent), rig_(new QComboBox) {
    auto* grid = new QGridLayout;
    grid->setVerticalSpacing(4);
    price_ =
        add_number(*grid, tr("Price &now"), tr("What it costs today"), 45000.0, 1.0, kMostMoney);
    end_value_ =
        add_number(*grid, tr("So&ld for"), tr("What it is sold for when the years are over"),
                   20000.0, 0.0, kMostMoney);
    years_ = add_number(*grid, tr("&Years kept"), tr("From now until it is sold"), 8.0, 0.5, 60.0);
    days_ =
        add_number(*grid, tr("&Days a year"), tr("Days of feeding in a year"), 150.0, 1.0, 366.0);
    quote_ = add_number(*grid, tr("&Custom feeder, a bale"),
                        tr("What somebody else would take a bale; 0 where nobody was asked"), 0.0,
                        0.0, 1e4);
    quote_->setDecimals(2);
    rig_->setSizeAdjustPolicy(QComboBox::AdjustToContents);
    add(*grid, tr("Does the wor&k of"), tr("Whose work it would do"), rig_);
    auto* weigh = new QPushButton(tr("Weigh &it"));
    weigh->setToolTip(tr("What it costs a year to own and to run, beside a custom feeder"));
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    column->addLayout(grid);
    column->addWidget(weigh, 0, Qt::AlignLeft);
    connect(weigh, &QPushButton::clicked, this, [this] { emit wanted(offer()); });
    set_ranch(nullptr);
}

void OfferForm::add(QGridLayout& grid, const QString& name, const QString& tip, QWidget* field) {
    auto* label = new QLabel(name);
    label->setBuddy(field);
    field->setAccessibleName(QString(name).remove('&'));
    field->setToolTip(tip);
    const int row = fields_ / 2;
    const int column = 2 * (fields_ % 2);
    grid.addWidget(label, row, column);
    grid.addWidget(field, row, column + 1);
    ++fields_;
}

QDoubleSpinBox* OfferForm::add_number(QGridLayout& grid, const QString& name, const QString& tip,
                                      double value, double least, double most) {
    auto* field = new QDoubleSpinBox;
    field->setDecimals(least == 0.5 ? 1 : 0);
    field->setRange(least, most);
    field->setSingleStep(most >= kMostMoney ? 1000.0 : 1.0);
    field->setGroupSeparatorShown(true);
    field->setValue(value);
    add(grid, name, tip, field);
    return field;
}

void OfferForm::set_ranch(const Ranch* ranch) {
    setEnabled(ranch != nullptr);
    rig_->clear();
    rig_->addItem(tr("each herd's own rig"), QString());
    if (ranch == nullptr) return;
    for (const Rig& rig : ranch->rigs) {
        // This sign parts what is said of a machine.
        if (rig.name.find(';') != std::string::npos) continue;
        const QString name = QString::fromStdString(rig.name);
        rig_->addItem(name, name);
    }
}

std::string OfferForm::offer() const {
    std::string text =
        fmt::format("price={:.0f};end_value={:.0f};years={:.1f};days={:.0f}", price_->value(),
                    end_value_->value(), years_->value(), days_->value());
    if (quote_->value() > 0.0) text += fmt::format(";quote={:.2f}", quote_->value());
    const std::string rig = rig_->currentData().toString().toStdString();
    if (!rig.empty()) text += ";rig=" + rig;
    return text;
}

}  // namespace haylane
