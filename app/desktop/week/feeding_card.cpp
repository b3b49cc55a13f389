#include "app/desktop/week/feeding_card.h"

#include "app/desktop/look.h"
#include "app/papers/card_words.h"

#include <QLabel>
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
                         QWidget* parent)
    : QFrame(parent) {
    const Rich title = card_title(feeding, ranch);
    QStringList paragraphs{as_html(title)};
    for (const Rich& line : card_lines(feeding, ranch, metric)) paragraphs << as_html(line);
    auto* text = new QLabel("<p style='margin:2px 0'>" +
                            paragraphs.join("</p><p style='margin:2px 0'>") + "</p>");
    text->setTextFormat(Qt::RichText);
    text->setWordWrap(true);
    text->setTextInteractionFlags(Qt::TextSelectableByMouse | Qt::TextSelectableByKeyboard);
    text->setAccessibleName(title.text());
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(10, 6, 10, 8);
    column->addWidget(text);
    setFrameShape(QFrame::StyledPanel);
    setAutoFillBackground(true);
    QPalette paper = palette();
    paper.setColor(QPalette::Window, feeding.firm ? look::kPaper : look::kGround.lighter(104));
    setPalette(paper);
}

}  // namespace haylane
