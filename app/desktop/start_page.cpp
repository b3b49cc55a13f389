#include "app/desktop/start_page.h"

#include "app/desktop/look.h"

#include <QLabel>
#include <QPushButton>
#include <QVBoxLayout>

namespace haylane {
namespace {

QLabel* line_of_text(const QString& text, double size_ratio, QColor color) {
    auto* label = new QLabel(text);
    QFont font = label->font();
    font.setPointSizeF(font.pointSizeF() * size_ratio);
    label->setFont(font);
    QPalette palette = label->palette();
    palette.setColor(QPalette::WindowText, color);
    palette.setColor(QPalette::Text, color);
    label->setPalette(palette);
    label->setWordWrap(true);
    return label;
}

}  // namespace

StartPage::StartPage(QWidget* parent) : QWidget(parent) {
    auto* column = new QVBoxLayout;
    column->setSpacing(6);
    column->setContentsMargins(36, 30, 36, 22);
    column->addWidget(line_of_text(tr("Where to lay the hay this week"), 1.9, look::kInk));
    column->addWidget(line_of_text(
        tr("A ranch book is one file (.gpkg) with your pastures, herds, hay and what was fed."),
        1.0, look::kFadedInk));
    column->addSpacing(18);
    const auto add_choice = [&](const QString& text, const QString& about, auto wanted) {
        auto* button = new QPushButton(text);
        button->setMinimumHeight(40);
        button->setAccessibleDescription(about);
        connect(button, &QPushButton::clicked, this, wanted);
        column->addWidget(button);
        column->addWidget(line_of_text(about, 0.9, look::kFadedInk));
        column->addSpacing(12);
    };
    add_choice(tr("&Open a ranch book…"), tr("Or drop the file anywhere on this window."),
               &StartPage::open_wanted);
    add_choice(tr("&Make a book from a folder…"),
               tr("The folder holds your maps and tables; they are read, not changed."),
               &StartPage::make_wanted);
    auto* middle = new QWidget;
    middle->setLayout(column);
    middle->setFixedWidth(560);
    middle->setAutoFillBackground(true);
    middle->setBackgroundRole(QPalette::Base);
    auto* page = new QVBoxLayout(this);
    page->addStretch(2);
    page->addWidget(middle, 0, Qt::AlignHCenter);
    page->addStretch(3);
}

}  // namespace haylane
