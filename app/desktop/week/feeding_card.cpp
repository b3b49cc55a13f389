#include "app/desktop/week/feeding_card.h"

#include "app/desktop/look.h"
#include "app/papers/card_words.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QMenu>
#include <QPainter>
#include <QToolButton>
#include <QVBoxLayout>

namespace haylane {
namespace {

QString as_html(const Rich& rich) {
    QString html;
    int at = 0;
    for (const auto& [start, length] : rich.bold_parts()) {
        html += rich.text().mid(at, start - at).toHtmlEscaped() + "<b>" +
                rich.text().mid(start, length).toHtmlEscaped() + "</b>";
        at = start + length;
    }
    html += rich.text().mid(at).toHtmlEscaped();
    return html.replace("  ", "&nbsp; ");  // the title's parts stand two spaces apart
}

}  // namespace

FeedingCard::FeedingCard(const PlannedFeeding& feeding, const Ranch& ranch, bool metric,
                         const CardMarks& marks, QWidget* parent)
    : QFrame(parent) {
    const Rich title = card_title(feeding, ranch);
    name_ = title.text();
    QStringList paragraphs{as_html(title)};
    QStringList said;
    if (marks.fed) said << tr("Fed: it stands in the book.");
    if (marks.held) said << tr("Held: the next plan leaves it as it is.");
    if (marks.moved) said << tr("Moved by hand: the words below are of the line as it lies now.");
    for (const QString& one : said) paragraphs << "<b>" + one.toHtmlEscaped() + "</b>";
    for (const Rich& line : card_lines(feeding, ranch, metric)) paragraphs << as_html(line);
    auto* text = new QLabel("<p style='margin:2px 0'>" +
                            paragraphs.join("</p><p style='margin:2px 0'>") + "</p>");
    text->setTextFormat(Qt::RichText);
    text->setWordWrap(true);
    text->setAccessibleName(name_);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(10, 6, 10, 8);
    column->addWidget(text);
    if (!marks.fed) column->addWidget(buttons(feeding, marks));
    setFrameShape(QFrame::StyledPanel);
    setAutoFillBackground(true);
    QPalette paper = palette();
    paper.setColor(QPalette::Window, feeding.firm ? look::kPaper : look::kGround.lighter(104));
    setPalette(paper);
}

QToolButton* FeedingCard::button(const QString& text, const QString& help) {
    auto* made = new QToolButton;
    made->setText(text);
    made->setToolTip(help);
    made->setAccessibleName(text + ", " + name_);
    made->setFocusPolicy(Qt::StrongFocus);
    return made;
}

QWidget* FeedingCard::buttons(const PlannedFeeding& feeding, const CardMarks& marks) {
    auto* fed = button(tr("Fed as planned"), tr("Record that this was fed, as planned"));
    fed->setPopupMode(QToolButton::MenuButtonPopup);
    // The book still holds the line as it was planned.
    fed->setEnabled(!marks.moved);
    auto* fed_menu = new QMenu(fed);
    fed_menu->addAction(tr("Fed &otherwise…"), this, &FeedingCard::fed_otherwise_wanted);
    fed->setMenu(fed_menu);
    connect(fed, &QToolButton::clicked, this, &FeedingCard::fed_wanted);
    QToolButton* hold = nullptr;
    if (marks.held) {
        hold = button(tr("Let go"), tr("The next plan may lay this feeding anew"));
        connect(hold, &QToolButton::clicked, this, &FeedingCard::let_go_wanted);
    } else {
        hold = button(tr("Hold"), tr("Keep this feeding as it is whatever is planned next"));
        hold->setPopupMode(QToolButton::MenuButtonPopup);
        auto* menu = new QMenu(hold);
        menu->addAction(tr("Hold the &line alone; bales and rig are planned anew"), this,
                        [this] { emit hold_wanted(true); });
        hold->setMenu(menu);
        connect(hold, &QToolButton::clicked, this, [this] { emit hold_wanted(false); });
    }
    auto* another = button(tr("Another way"), tr("Plan again with clearly different lines here"));
    another->setEnabled(!marks.held);
    connect(another, &QToolButton::clicked, this, &FeedingCard::another_wanted);
    auto* draw = button(tr("Draw it"), tr("Draw this feeding's line on the map yourself"));
    draw->setEnabled(!feeding.in_rings);
    connect(draw, &QToolButton::clicked, this, &FeedingCard::drawing_wanted);
    auto* all = new QWidget;
    auto* row = new QHBoxLayout(all);
    row->setContentsMargins(0, 4, 0, 0);
    row->setSpacing(6);
    for (QToolButton* one : {fed, hold, another, draw}) row->addWidget(one);
    row->addStretch(1);
    return all;
}

void FeedingCard::set_picked(bool picked) {
    picked_ = picked;
    update();
}

void FeedingCard::mousePressEvent(QMouseEvent* event) {
    QFrame::mousePressEvent(event);
    emit picked();
}

void FeedingCard::paintEvent(QPaintEvent* event) {
    QFrame::paintEvent(event);
    if (!picked_) return;
    QPainter painter(this);
    painter.setPen(QPen(look::kHay, 4.0));
    painter.drawRect(rect().adjusted(2, 2, -2, -2));
}

}  // namespace haylane
