#pragma once
// The two buttons that end a dialog: the one that does it, and Cancel.

#include <QDialog>
#include <QDialogButtonBox>
#include <QPushButton>

namespace haylane {

struct DialogButtons {
    QDialogButtonBox* box = nullptr;
    QPushButton* yes = nullptr;
};

// `yes` in the words of what it does. The dialog owns them once they are laid out in it.
[[nodiscard]] inline DialogButtons dialog_buttons(QDialog& dialog, const QString& yes) {
    auto* box = new QDialogButtonBox(QDialogButtonBox::Cancel);
    QObject::connect(box, &QDialogButtonBox::accepted, &dialog, &QDialog::accept);
    QObject::connect(box, &QDialogButtonBox::rejected, &dialog, &QDialog::reject);
    return {box, box->addButton(yes, QDialogButtonBox::AcceptRole)};
}

}  // namespace haylane
