#include "app/desktop/new_ranch_dialog.h"

#include "app/desktop/dialog_buttons.h"

#include <QDoubleSpinBox>
#include <QFormLayout>
#include <QLabel>
#include <QLineEdit>

namespace haylane {
namespace {

constexpr double kMostLatitude_deg = 85.0;

QDoubleSpinBox* degrees(double most) {
    auto* box = new QDoubleSpinBox;
    box->setRange(-most, most);
    box->setDecimals(5);
    box->setSuffix("°");
    return box;
}

}  // namespace

NewRanchDialog::NewRanchDialog(QWidget* parent)
    : QDialog(parent),
      name_(new QLineEdit),
      latitude_(degrees(kMostLatitude_deg)),
      longitude_(degrees(180.0)) {
    setWindowTitle(tr("A new ranch"));
    name_->setPlaceholderText(tr("Name of the ranch"));
    latitude_->setToolTip(tr("North is positive: 46.30000"));
    longitude_->setToolTip(tr("East is positive, west negative: -103.40000"));
    auto* form = new QFormLayout(this);
    form->addRow(tr("&Name"), name_);
    form->addRow(tr("&Latitude (north positive)"), latitude_);
    form->addRow(tr("L&ongitude (west negative)"), longitude_);
    auto* note =
        new QLabel(tr("A phone shows both at the yard. Pastures, trails and gates that a "
                      "phone recorded can be read from its files afterwards."));
    note->setWordWrap(true);
    form->addRow(note);
    const auto [buttons, begin] = dialog_buttons(*this, tr("&Begin"));
    begin->setEnabled(false);
    form->addRow(buttons);
    connect(name_, &QLineEdit::textChanged, begin, [button = begin](const QString& text) {
        button->setEnabled(!text.trimmed().isEmpty());
    });
    resize(420, sizeHint().height());
}

std::string NewRanchDialog::name() const { return name_->text().trimmed().toStdString(); }

LonLat NewRanchDialog::centre() const { return {longitude_->value(), latitude_->value()}; }

}  // namespace haylane
