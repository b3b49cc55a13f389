#include "app/desktop/trials/trial_form.h"

#include "app/desktop/ranch/row_table_model.h"
#include "core/plan/spoken.h"

#include <algorithm>
#include <array>
#include <chrono>

#include <QCompleter>
#include <QDate>
#include <QFormLayout>
#include <QHBoxLayout>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>

namespace haylane {
namespace {

constexpr std::chrono::milliseconds kTick{500};
constexpr std::array kTimed{"hookup_s", "feed_s", "unhook_s"};
// What both feedings of a pair share.
constexpr std::array kShared{"rig", "lot", "date", "pair"};

template <class All>
bool is_one_of(const All& all, std::string_view name) {
    return std::any_of(all.begin(), all.end(), [&](const char* one) { return name == one; });
}

template <class T>
QStringList names_of(const std::vector<T>& items) {
    QStringList names;
    for (const T& item : items) names << QString::fromStdString(item.name);
    return names;
}

}  // namespace

TrialForm::TrialForm(QWidget* parent) : QWidget(parent) {
    ticking_.setInterval(kTick);
    connect(&ticking_, &QTimer::timeout, this, &TrialForm::show_clocks);
}

void TrialForm::set_ranch(const Ranch* ranch) {
    ranch_ = ranch;
    const bool metric = ranch != nullptr && speaks_metric(ranch->settings);
    const std::string units = metric ? "metric" : "us";
    if (units != units_) fill(metric);
    units_ = units;
    for (Line& line : lines_) {
        QStringList names;
        if (ranch != nullptr && line.column.spec->book == "rig") names = names_of(ranch->rigs);
        if (ranch != nullptr && line.column.spec->book == "lot") names = names_of(ranch->lots);
        if (names.isEmpty()) continue;
        auto* known = new QCompleter(names, line.text);
        known->setCaseSensitivity(Qt::CaseInsensitive);
        known->setCompletionMode(QCompleter::UnfilteredPopupCompletion);
        line.text->setCompleter(known);
        line.text->setPlaceholderText(names.join(", "));
    }
}

void TrialForm::fill(bool metric) {
    ticking_.stop();
    lines_.clear();
    delete layout();
    qDeleteAll(findChildren<QWidget*>(QString(), Qt::FindDirectChildrenOnly));
    auto* form = new QFormLayout(this);
    for (const ShownColumn& column : shown_columns("trials", metric))
        lines_.push_back({.column = column});
    for (Line& line : lines_) {
        if (line.column.spec->book == "bale_dm_ratio") {
            auto* samples = new QLabel(tr("<b>From the laboratory</b>, of bale and windrow"));
            form->addRow(samples);
        }
        line.text = new QLineEdit;
        line.text->setAccessibleName(column_title(line.column));
        if (line.column.spec->book == "date")
            line.text->setText(QDate::currentDate().toString(Qt::ISODate));
        if (line.column.spec->book == "pair")
            line.text->setToolTip(tr("The same mark for two feedings that are to be compared"));
        QWidget* field = line.text;
        if (is_one_of(kTimed, line.column.spec->book)) {
            line.clock = new QPushButton(tr("Start"));
            line.clock->setAccessibleName(tr("Clock of %1").arg(column_title(line.column)));
            connect(line.clock, &QPushButton::clicked, this, [this, &line] { turn_clock(line); });
            field = new QWidget;
            auto* row = new QHBoxLayout(field);
            row->setContentsMargins(0, 0, 0, 0);
            row->addWidget(line.text, 1);
            row->addWidget(line.clock);
        }
        const QString star = line.column.spec->required ? " *" : "";
        form->addRow(column_title(line.column) + star, field);
    }
}

void TrialForm::turn_clock(Line& line) {
    if (line.since.isValid()) {
        show_clocks();
        line.since.invalidate();
        line.clock->setText(tr("Start"));
    } else {
        line.before_min = line.text->text().toDouble();
        line.since.start();
        line.clock->setText(tr("Stop"));
    }
    const bool any = std::any_of(lines_.begin(), lines_.end(),
                                 [](const Line& one) { return one.since.isValid(); });
    any ? ticking_.start() : ticking_.stop();
}

void TrialForm::show_clocks() {
    for (Line& line : lines_) {
        if (!line.since.isValid()) continue;
        const double minutes =
            line.before_min + static_cast<double>(line.since.elapsed()) / 60000.0;
        line.text->setText(QString::number(minutes, 'f', 2));
    }
}

Result<RowEdit> TrialForm::edit() const {
    RowEdit edit{.role = "trials"};
    for (const Line& line : lines_) {
        const std::string text = line.text->text().trimmed().toStdString();
        if (text.empty()) continue;
        auto value = typed_cell(line.column, text);
        if (!value) return fail(value.error());
        edit.fields[std::string(line.column.spec->book)] = std::move(*value);
        edit.typed[line.column.heading] = text;
    }
    for (const char* needed : {"rig", "bales"})
        if (!edit.fields.contains(needed))
            return fail({"missing_value", std::string("A feeding needs its ") + needed + ".",
                         needed, "Write it above, then keep the feeding."});
    if (ranch_ != nullptr) {
        const auto* rig = std::get_if<std::string>(&edit.fields.at("rig"));
        const bool known =
            rig != nullptr && std::any_of(ranch_->rigs.begin(), ranch_->rigs.end(),
                                          [&](const Rig& one) { return one.name == *rig; });
        if (!known)
            return fail({"unknown_rig", "The ranch has no such rig.", "rig",
                         "Choose one of the rigs in the book, or add it on the Ranch page."});
    }
    return edit;
}

void TrialForm::begin_next() {
    for (Line& line : lines_) {
        if (line.since.isValid()) turn_clock(line);
        if (!is_one_of(kShared, line.column.spec->book)) line.text->clear();
    }
}

}  // namespace haylane
