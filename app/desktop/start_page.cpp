#include "app/desktop/start_page.h"

#include "app/desktop/look.h"

#include <QFileInfo>
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

StartPage::StartPage(QWidget* parent) : QWidget(parent), recent_(new QVBoxLayout) {
    auto* column = new QVBoxLayout;
    column->setSpacing(6);
    column->setContentsMargins(36, 26, 36, 18);
    column->addWidget(line_of_text(tr("Where to lay the hay this week"), 1.9, look::kInk));
    column->addWidget(line_of_text(
        tr("A ranch book is one file (.gpkg) with your pastures, herds, hay and what was fed."),
        1.0, look::kFadedInk));
    column->addSpacing(10);
    recent_->setSpacing(4);
    column->addLayout(recent_);
    column->addSpacing(6);
    const auto add_choice = [&](const QString& text, const QString& about, auto wanted) {
        auto* button = new QPushButton(text);
        button->setMinimumHeight(36);
        button->setAccessibleDescription(about);
        connect(button, &QPushButton::clicked, this, wanted);
        column->addWidget(button);
        column->addWidget(line_of_text(about, 0.9, look::kFadedInk));
        column->addSpacing(8);
    };
    add_choice(tr("&Open a ranch book…"), tr("Or drop the file anywhere on this window."),
               &StartPage::open_wanted);
    add_choice(tr("&Make a book from a folder…"),
               tr("The folder holds your maps and tables; they are read, not changed."),
               &StartPage::make_wanted);
    add_choice(tr("&Draw a new ranch…"),
               tr("Begin with a name and a place; draw pastures, gates and yards on the map."),
               &StartPage::draw_wanted);
    add_choice(tr("&Try the sample ranch…"), tr("An invented ranch with everything in it."),
               &StartPage::sample_wanted);
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

void StartPage::set_recent(const QStringList& books) {
    while (QLayoutItem* item = recent_->takeAt(0)) {
        delete item->widget();
        delete item;
    }
    if (books.isEmpty()) return;
    recent_->addWidget(line_of_text(tr("Opened last"), 1.0, look::kFadedInk));
    for (const QString& book : books) {
        auto* button = new QPushButton(QFileInfo(book).completeBaseName().replace("&", "&&"));
        button->setFlat(true);
        button->setStyleSheet("text-align: left; padding: 4px");
        button->setToolTip(book);
        button->setAccessibleDescription(book);
        connect(button, &QPushButton::clicked, this, [this, book] { emit book_wanted(book); });
        recent_->addWidget(button);
    }
}

}  // namespace haylane
