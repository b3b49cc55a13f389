// The heading says what holds for the herd's first feeding; a row that differs says so itself.

#include "app/papers/row_text.h"

#include "app/papers/map_painter.h"
#include "app/papers/words.h"

#include <algorithm>
#include <array>
#include <map>
#include <optional>
#include <set>
#include <string_view>

namespace haylane {
namespace {

QString to_q(const std::string& text) { return QString::fromStdString(text); }

double lay_time_s(const PlannedFeeding& feeding) {
    double time_s = 0.0;
    for (const PlannedLoad& load : feeding.loads) {
        for (const PlannedLeg& leg : load.legs) {
            if (leg.kind == LegKind::lay) time_s += leg.time_s;
        }
    }
    return time_s;
}

// "Thu 14, for 2 days"; brief: "Thu, for 2 days"; "Thu, held" where the user holds the line
QString day_text(const PlannedFeeding& feeding, bool brief) {
    QString text =
        to_q(brief ? words::weekday(feeding.date) : words::weekday_and_day(feeding.date));
    if (feeding.days_covered > 1) text += QStringLiteral(", for %1 days").arg(feeding.days_covered);
    if (feeding.by_hand == ByHand::held) text += QStringLiteral(", held");
    return text;
}

// "the SW corner" -> "SW corner"
QString without_article(QString place) {
    if (place.startsWith("the ")) place.remove(0, 4);
    return place;
}

QString toward_text(const PlannedFeeding& feeding, const LayWords& with) {
    QString place = with.landmark ? landmark_of(feeding) : QString();
    if (with.terse) place = without_article(place);
    QString text = to_q(words::compass(feeding.lines.front().heading_rad));
    if (!place.isEmpty()) text += " toward " + place;
    return text;
}

// "lay 900 ft NE toward the windmill"
QString line_words(const PlannedFeeding& feeding, bool metric, const LayWords& with) {
    QString text = "lay " + to_q(words::short_length(feeding.line_length_m, metric)) + " ";
    if (feeding.lines.size() > 1 && !with.terse)
        text += QStringLiteral("in %1 lines ").arg(feeding.lines.size());
    return text + toward_text(feeding, with);
}

// "set 8 bales in the rings, 100 ft apart going NE toward the windmill"
QString ring_words(const PlannedFeeding& feeding, bool metric, const LayWords& with) {
    QString text = to_q(words::set_in_rings(feeding, metric));
    if (feeding.lines.front().places.size() > 1) text += " going " + toward_text(feeding, with);
    return text;
}

bool has_caution(const PlannedFeeding& feeding, const std::string& brief) {
    return std::any_of(feeding.cautions.begin(), feeding.cautions.end(),
                       [&](const Caution& caution) { return caution.brief == brief; });
}

// What holds for a whole day, whatever the line: said once for all herds.
bool is_of_the_day(const Caution& caution) {
    static constexpr std::array<std::string_view, 4> kCodes{"bitter_cold", "cold_short", "long_day",
                                                            "thaw"};
    return std::find(kCodes.begin(), kCodes.end(), caution.code) != kCodes.end();
}

// "Tue", "Tue, Thu" or "Tue–Thu" for days in order; with the day of the month in longer plans.
std::string day_list(const std::vector<sys_days>& days, bool long_plan) {
    const auto name = [&](sys_days day) {
        return long_plan ? words::weekday_and_day(day) : words::weekday(day);
    };
    const bool run = days.back() - days.front() == std::chrono::days{days.size() - 1};
    if (run && days.size() > 2) return name(days.front()) + "–" + name(days.back());
    std::string text;
    for (const sys_days day : days) text += (text.empty() ? "" : ", ") + name(day);
    return text;
}

// " (A, C)" for the herds it holds for, when others are fed on those days too.
QString herds_meant(const Plan& plan, const std::string& brief, const std::vector<sys_days>& days) {
    std::set<std::int32_t> meant;
    std::set<std::int32_t> fed;
    for (const PlannedFeeding& feeding : plan.feedings) {
        if (std::find(days.begin(), days.end(), feeding.date) == days.end()) continue;
        fed.insert(feeding.herd.value);
        if (has_caution(feeding, brief)) meant.insert(feeding.herd.value);
    }
    if (meant == fed) return {};
    QString text;
    for (const std::int32_t herd : meant)
        text += (text.isEmpty() ? " (" : ", ") + herd_letter(herd);
    return text + ")";
}

// The cautions in a few words each, but for those said in the heading.
QString cautions_text(const PlannedFeeding& feeding, const std::vector<std::string>& but) {
    QString text;
    for (const Caution& caution : feeding.cautions) {
        if (is_of_the_day(caution)) continue;
        if (std::find(but.begin(), but.end(), caution.brief) != but.end()) continue;
        text += (text.isEmpty() ? "" : ", ") + to_q(caution.brief);
    }
    text.replace(" %", "\u00a0%");  // a number keeps its sign on its line
    return text.isEmpty() ? text : text + ".";
}

// One herd's rows as they are being written.
class HerdWriter {
  public:
    HerdWriter(const Plan& plan, const Ranch& ranch, bool metric, Sharing sharing)
        : plan_(plan), ranch_(ranch), metric_(metric), sharing_(sharing) {}

    [[nodiscard]] HerdRows write(HerdId herd) {
        HerdRows result;
        result.herd = herd;
        for (const PlannedFeeding& feeding : plan_.feedings) {
            if (feeding.herd == herd) feedings_.push_back(&feeding);
        }
        if (feedings_.empty()) return result;
        if (sharing_ == Sharing::all_rows && feedings_.size() > 1) find_common();
        result.in_rings = feedings_.front()->in_rings;
        result.heading = heading(*feedings_.front());
        for (const PlannedFeeding* feeding : feedings_) result.rows.push_back(row(*feeding));
        return result;
    }

  private:
    struct Said {
        QString text;
        sys_days date;
    };

    // What every feeding of the herd has: one landmark, one lot, and cautions.
    void find_common() {
        const PlannedFeeding& first = *feedings_.front();
        const auto all = [&](auto holds) {
            return std::all_of(feedings_.begin(), feedings_.end(), holds);
        };
        common_landmark_ = landmark_of(first);
        if (!all([&](const auto* one) {
                return !one->in_rings && landmark_of(*one) == common_landmark_;
            })) {
            common_landmark_.clear();
        }
        const auto one_lot = [](const PlannedFeeding& feeding) {
            return feeding.bales.size() == 1;
        };
        if (all([&](const auto* one) {
                return one_lot(*one) && one_lot(first) &&
                       one->bales.front().lot == first.bales.front().lot &&
                       one->bales.front().yard == first.bales.front().yard;
            })) {
            common_bales_ = first.bales.front();
        }
        for (const Caution& caution : first.cautions) {
            if (!is_of_the_day(caution) &&
                all([&](const auto* one) { return has_caution(*one, caution.brief); })) {
                common_cautions_.push_back(caution.brief);
            }
        }
    }

    [[nodiscard]] Rich heading(const PlannedFeeding& feeding) const {
        const Herd& herd = ranch_[feeding.herd];
        Rich text;
        text.add(herd_letter(feeding.herd.value) + "  " + to_q(herd.name), true);
        text.add(QStringLiteral(" (%1) in ").arg(herd.head));
        text.add(to_q(ranch_[feeding.pasture].name), true);
        text.add(", " + to_q(ranch_[feeding.rig].name));
        if (common_bales_) {
            text.add(", " + to_q(ranch_[common_bales_->lot].name) + " from " +
                     to_q(ranch_[common_bales_->yard].name));
        }
        text.add(". Way in: " + to_q(words::way_in(feeding, ranch_)) + ".");
        if (!common_landmark_.isEmpty()) text.add(" Lay toward " + common_landmark_ + ".");
        if (!common_cautions_.empty()) {
            text.add(" Caution every time", true);
            text.add(": " + to_q(words::list(common_cautions_)) + ".");
        }
        return text;
    }

    [[nodiscard]] bool shares(const PlannedFeeding& feeding) const {
        return sharing_ == Sharing::all_rows || (sharing_ == Sharing::pencil_rows && !feeding.firm);
    }

    // The text, or where it was said before.
    [[nodiscard]] QString said_before(std::vector<Said>& said, const QString& text, sys_days date,
                                      bool share) const {
        const auto same = std::find_if(said.begin(), said.end(),
                                       [&](const Said& one) { return one.text == text; });
        if (same == said.end()) {
            said.push_back({text, date});
            return {};
        }
        if (!share) return {};
        return to_q(plan_.days <= 7 ? words::weekday(same->date)
                                    : words::weekday_and_day(same->date));
    }

    [[nodiscard]] FeedingRow row(const PlannedFeeding& feeding) {
        FeedingRow made{
            static_cast<int>((feeding.date - plan_.from).count()) + 1, feeding.firm, {}};
        Rich& text = made.text;
        const bool brief = sharing_ == Sharing::all_rows && plan_.days <= 7;
        text.add(
            (feeding.firm ? QString() : QStringLiteral("✎ ")) + day_text(feeding, brief) + ": ",
            true);
        add_bales(text, feeding);
        add_changes(text, feeding);
        text.add(lay_text(feeding, metric_,
                          {common_landmark_.isEmpty(), sharing_ == Sharing::all_rows}) +
                 ".");
        add_cautions(text, feeding);
        return made;
    }

    void add_bales(Rich& text, const PlannedFeeding& feeding) {
        if (common_bales_) {
            const int count = feeding.bales.front().count;
            text.add(QString::number(count) + (count == 1 ? " bale. " : " bales. "));
            return;
        }
        const QString bales = bales_text(feeding.bales, ranch_);
        const QString when = said_before(bales_said_, bales, feeding.date, shares(feeding));
        text.add((when.isEmpty() ? bales : "bales as " + when) + ". ");
    }

    void add_changes(Rich& text, const PlannedFeeding& feeding) const {
        if (feeding.pasture != feedings_.front()->pasture) {
            text.add("In ").add(to_q(ranch_[feeding.pasture].name), true).add(". ");
        }
        if (feeding.rig != feedings_.front()->rig) text.add(to_q(ranch_[feeding.rig].name) + ". ");
        if (to_q(words::way_in(feeding, ranch_)) !=
            to_q(words::way_in(*feedings_.front(), ranch_))) {
            text.add("Way in: " + to_q(words::way_in(feeding, ranch_)) + ". ");
        }
    }

    void add_cautions(Rich& text, const PlannedFeeding& feeding) {
        const QString cautions = cautions_text(feeding, common_cautions_);
        if (cautions.isEmpty()) return;
        const QString when = said_before(cautions_said_, cautions, feeding.date, shares(feeding));
        const bool terse = sharing_ == Sharing::all_rows;
        text.add(terse ? QStringLiteral(" ⚠") : QStringLiteral(" Caution"), true);
        if (!when.isEmpty())
            text.add(" as " + when + ".");
        else
            text.add((terse ? " " : ": ") + cautions);
    }

    const Plan& plan_;
    const Ranch& ranch_;
    bool metric_;
    Sharing sharing_;
    std::vector<const PlannedFeeding*> feedings_;  // the herd's
    QString common_landmark_;
    std::optional<BaleDraw> common_bales_;
    std::vector<std::string> common_cautions_;
    std::vector<Said> bales_said_;
    std::vector<Said> cautions_said_;
};

}  // namespace

QString bales_text(const std::vector<BaleDraw>& bales, const Ranch& ranch) {
    QString text;
    for (std::size_t i = 0; i < bales.size(); ++i) {
        const BaleDraw& draw = bales[i];
        if (i > 0) text += " + ";
        text += QString::number(draw.count) + " " + to_q(ranch[draw.lot].name);
        const bool yard_ends = i + 1 == bales.size() || bales[i + 1].yard != draw.yard;
        if (yard_ends) text += ", " + to_q(ranch[draw.yard].name);
    }
    return text.isEmpty() ? QStringLiteral("no bales") : text;
}

QString lay_text(const PlannedFeeding& feeding, bool metric, const LayWords& with) {
    QString text;
    if (!feeding.start.from.empty()) {
        const QString from = to_q(feeding.start.from);
        text = with.terse ? without_article(from) : "From " + from;
        if (feeding.start.distance_m >= 1.0) {
            text += " " + to_q(words::short_length(feeding.start.distance_m, metric)) + " " +
                    to_q(words::compass(feeding.start.bearing_rad));
        }
        text += with.terse ? ": " : ", ";
    }
    text +=
        feeding.in_rings ? ring_words(feeding, metric, with) : line_words(feeding, metric, with);
    if (feeding.start.from.empty()) text[0] = text[0].toUpper();
    const double time_s = lay_time_s(feeding);
    if (time_s <= 0.0) return text;
    return text + (with.terse ? ", " : ", about ") + to_q(words::minutes(time_s));
}

Rich day_cautions(const Plan& plan) {
    std::map<std::string, std::vector<sys_days>> days_of;  // by brief text
    for (const PlannedFeeding& feeding : plan.feedings) {
        for (const Caution& caution : feeding.cautions) {
            if (!is_of_the_day(caution)) continue;
            std::vector<sys_days>& days = days_of[caution.brief];
            if (days.empty() || days.back() != feeding.date) days.push_back(feeding.date);
        }
    }
    Rich text;
    for (const auto& [brief, days] : days_of) {
        text.add(text.empty() ? QStringLiteral("Caution ") : QStringLiteral("; "), text.empty());
        text.add(to_q(day_list(days, plan.days > 7) + ": " + brief) +
                 herds_meant(plan, brief, days));
    }
    return text.empty() ? text : text.add(".");
}

QString landmark_of(const PlannedFeeding& feeding) {
    const std::string key = "toward ";
    const auto at = feeding.toward.find(key);
    return at == std::string::npos ? QString() : to_q(feeding.toward.substr(at + key.size()));
}

std::vector<HerdRows> herd_rows(const Plan& plan, const Ranch& ranch, bool metric,
                                Sharing sharing) {
    std::vector<HerdRows> all;
    for (std::size_t i = 0; i < ranch.herds.size(); ++i) {
        HerdRows rows = HerdWriter(plan, ranch, metric, sharing).write(HerdId::at(i));
        if (!rows.rows.empty()) all.push_back(std::move(rows));
    }
    return all;
}

}  // namespace haylane
