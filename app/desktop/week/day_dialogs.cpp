#include "app/desktop/week/day_dialogs.h"

#include "app/desktop/dates.h"
#include "app/desktop/dialog_buttons.h"
#include "app/papers/words.h"

#include <QComboBox>
#include <QDateEdit>
#include <QFormLayout>
#include <QLabel>
#include <QLineEdit>
#include <QSpinBox>

namespace haylane {
namespace {

constexpr int kMostBales = 999;

}  // namespace

FedDialog::FedDialog(const PlannedFeeding& planned, const Ranch& ranch, QWidget* parent)
    : QDialog(parent),
      planned_{.date = planned.date, .herd = ranch[planned.herd].name},
      bales_(new QSpinBox),
      lot_(new QComboBox),
      pasture_(new QComboBox) {
    setWindowTitle(tr("Fed otherwise than planned"));
    int bales = 0;
    for (const BaleDraw& draw : planned.bales) bales += draw.count;
    bales_->setRange(1, kMostBales);
    bales_->setValue(bales);
    lot_->addItem(tr("The planned hay, in proportion"), QString());
    for (const HayLot& lot : ranch.lots)
        lot_->addItem(QString::fromStdString(lot.name), QString::fromStdString(lot.name));
    for (const Pasture& pasture : ranch.pastures)
        pasture_->addItem(QString::fromStdString(pasture.name));
    pasture_->setCurrentText(QString::fromStdString(ranch[planned.pasture].name));
    auto* form = new QFormLayout(this);
    form->addRow(new QLabel(
        QString::fromStdString(words::short_date(planned.date) + ", " + ranch[planned.herd].name)));
    form->addRow(tr("&Bales"), bales_);
    form->addRow(tr("&Hay"), lot_);
    form->addRow(tr("P&asture"), pasture_);
    auto* note =
        new QLabel(tr("In another pasture no line is recorded; the hay then counts over "
                      "the whole pasture."));
    note->setWordWrap(true);
    form->addRow(note);
    form->addRow(dialog_buttons(*this, tr("&Record")).box);
}

DoneRequest FedDialog::request() const {
    DoneRequest request = planned_;
    request.bales = bales_->value();
    request.lot = lot_->currentData().toString().toStdString();
    request.pasture = pasture_->currentText().toStdString();
    return request;
}

CloseDialog::CloseDialog(sys_days from, const std::string& pasture, QWidget* parent)
    : QDialog(parent),
      name_(new QLineEdit(tr("closed ground"))),
      from_(new QDateEdit(to_date(from))),
      to_(new QDateEdit(to_date(from))),
      where_(new QComboBox) {
    setWindowTitle(tr("Close this ground to hay"));
    for (QDateEdit* day : {from_, to_}) {
        day->setCalendarPopup(true);
        day->setDisplayFormat("ddd d MMM yyyy");
    }
    connect(from_, &QDateEdit::dateChanged, to_, &QDateEdit::setMinimumDate);
    to_->setMinimumDate(from_->date());
    where_->addItem(tr("In every pasture it touches"), QString());
    if (!pasture.empty())
        where_->addItem(tr("In %1 alone").arg(QString::fromStdString(pasture)),
                        QString::fromStdString(pasture));
    auto* form = new QFormLayout(this);
    form->addRow(tr("&Name"), name_);
    form->addRow(tr("&First day"), from_);
    form->addRow(tr("&Last day"), to_);
    form->addRow(tr("&Where"), where_);
    auto* note = new QLabel(tr("No line is laid on it; it may be driven over."));
    form->addRow(note);
    form->addRow(dialog_buttons(*this, tr("&Close it")).box);
}

CloseRequest CloseDialog::request() const {
    return {.from = to_day(from_->date()),
            .to = to_day(to_->date()),
            .pasture = where_->currentData().toString().toStdString(),
            .name = name_->text().trimmed().toStdString()};
}

}  // namespace haylane
