#include "app/desktop/week/week_words.h"

#include "app/papers/moved_words.h"
#include "app/papers/words.h"
#include "app/session/hold.h"
#include "core/plan/spoken.h"

#include <QCoreApplication>
#include <QStringList>

namespace haylane {
namespace {

QString to_q(const std::string& text) { return QString::fromStdString(text); }

}  // namespace

QString summary_html(const Plan& plan, const Ranch& ranch) {
    const bool metric = speaks_metric(ranch.settings);
    QStringList parts{to_q(words::bale_count(plan.totals.bales)),
                      to_q(words::long_length(plan.totals.distance_m, metric)),
                      to_q(words::minutes(plan.totals.time_s)),
                      to_q(words::volume(plan.totals.fuel_l, metric))};
    if (plan.totals.cost) {
        parts << to_q(words::money(*plan.totals.cost, ranch.settings.currency));
    }
    return "<b>" + parts.join(", ").toHtmlEscaped() + "</b><br>" +
           to_q(words::hay_lasts(plan.hay_lasts)).toHtmlEscaped();
}

QString moved_html(const QString& whose, const MovedLines& moved, const Ranch& ranch) {
    const bool allowed = moved.broken.empty();
    QStringList lines{"<b>" + whose.toHtmlEscaped() + ": " +
                      (allowed
                           ? QCoreApplication::translate("WeekPage", "if it is laid here")
                           : QCoreApplication::translate("WeekPage", "it cannot be laid here")) +
                      "</b>"};
    for (const MovedWords& one : moved_words(moved, ranch, speaks_metric(ranch.settings)))
        lines << to_q(one.what).toHtmlEscaped() + ": " + to_q(one.how).toHtmlEscaped();
    return lines.join("<br>");
}

QString hold_text(const StoredHold& hold) { return to_q(describe_hold(hold)); }

}  // namespace haylane
