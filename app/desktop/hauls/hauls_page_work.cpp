// What the hauls page does; how it is laid out stands in hauls_page.cpp.
#include "app/desktop/dates.h"
#include "app/desktop/hauls/haul_days_model.h"
#include "app/desktop/hauls/hauls_page.h"
#include "app/desktop/hauls/offer_form.h"
#include "app/desktop/hauls/what_if_row.h"
#include "app/desktop/jobs/work_bar.h"
#include "app/desktop/paper_part.h"
#include "app/papers/haul_chart.h"
#include "app/session/haul_files.h"
#include "core/plan/spoken.h"

#include <algorithm>

#include <QComboBox>
#include <QDateEdit>
#include <QLabel>
#include <QPushButton>
#include <QSortFilterProxyModel>
#include <QSpinBox>
#include <QTableView>

namespace haylane {
namespace {

QString to_q(const std::string& text) { return QString::fromStdString(text); }

QString paragraphs(const std::vector<std::string>& lines) {
    QString html;
    for (const std::string& line : lines)
        html += "<p style='margin:3px 0'>" + to_q(line).toHtmlEscaped() + "</p>";
    return html;
}

}  // namespace

void HaulsPage::connect_parts() {
    connect(day_, &QDateEdit::dateChanged, this, &HaulsPage::ask_anew);
    connect(figure_, &QComboBox::currentIndexChanged, this, &HaulsPage::show_matrix);
    connect(matrix_->selectionModel(), &QItemSelectionModel::selectionChanged, this,
            &HaulsPage::show_trip);
    connect(what_if_, &WhatIfRow::wanted, this, &HaulsPage::try_change);
    connect(offer_, &OfferForm::wanted, this, [this](const std::string& offer) {
        asked_.buys = {offer};
        ask_anew();
    });
    connect(forget_, &QPushButton::clicked, this, [this] {
        asked_.what_ifs.clear();
        ask_anew();
    });
    connect(most_stacks_, &QSpinBox::valueChanged, this, &HaulsPage::ask_anew);
    connect(bar_, &WorkBar::stop_wanted, this, [this] { given_up_ = true; });
    connect(again_, &QPushButton::clicked, this, &HaulsPage::ask_anew);
    connect(work_, &Work::failed, this, [this](const Error& error) {
        wanted_ = ranch_ != nullptr;
        if (error.code != "cancelled") {
            given_up_ = true;
            // They may be at fault.
            if (!asked_.what_ifs.empty()) asked_.what_ifs.pop_back();
            asked_.buys.clear();
            emit failed(error);
        }
        work_out();
    });
    connect(report_row_, &ReportRow::failed, this, &HaulsPage::failed);
}

bool HaulsPage::metric() const { return speaks_metric(ranch().settings); }

void HaulsPage::set_ranch(std::shared_ptr<const ShownRanch> ranch) {
    matrix_model_->show(nullptr, nullptr, HaulFigure::cost_per_ton, false);
    days_model_->show(nullptr, nullptr, false);
    report_.reset();
    ranch_ = std::move(ranch);
    asked_ = {};
    map_->set_ranch(ranch_);
    offer_->set_ranch(ranch_ ? &this->ranch() : nullptr);
    what_if_->set_ranch(ranch_ ? &this->ranch() : nullptr, ranch_ && metric());
    const QSignalBlocker quiet_figure(figure_);
    const QSignalBlocker quiet_day(day_);
    const QSignalBlocker quiet_stacks(most_stacks_);
    figure_->clear();
    if (ranch_) {
        for (const HaulFigure figure : kHaulFigures)
            figure_->addItem(figure_name(figure, metric()));
        const auto day = usual_haul_day(this->ranch());
        day_->setDate(day ? to_date(*day) : QDate::currentDate());
    }
    most_stacks_->setValue(0);
    ask_anew();
}

// Something else is asked.
void HaulsPage::ask_anew() {
    wanted_ = ranch_ != nullptr;
    given_up_ = false;
    if (ranch_) asked_.from = to_day(day_->date());
    asked_.stacks = most_stacks_->value();
    work_out();
}

void HaulsPage::showEvent(QShowEvent* event) {
    QWidget::showEvent(event);
    work_out();
}

// Shows what there is, and starts what is asked while the page is looked at.
void HaulsPage::work_out() {
    show_all();
    again_->setVisible(wanted_ && given_up_ && !work_->busy());
    if (work_->busy()) {
        if (wanted_) work_->stop();
        return;
    }
    if (!wanted_ || given_up_ || !isVisible()) return;
    wanted_ = false;
    work_->start<HaulReport>(
        "The account of hauling", ranch_->open.book,
        [ranch = ranch_, asked = asked_, metric = metric()](const Progress& progress) {
            HaulAsked watched = asked;
            watched.progress = progress;
            return haul_of_ranch(ranch->open, watched, {}, metric);
        },
        [this, ranch = ranch_](std::shared_ptr<const HaulReport> report) {
            if (ranch == ranch_) report_ = std::move(report);
            work_out();
        });
}

void HaulsPage::show_all() {
    const Ranch* ranch = ranch_ ? &this->ranch() : nullptr;
    days_model_->show(ranch, report_.get(), ranch_ && metric());
    show_matrix();
    show_stacks();
    show_offers();
    chart_->set_paint({});
    lead_->clear();
    distances_->clear();
    forget_->setEnabled(!asked_.what_ifs.empty());
    offer_report();
    if (!report_) return;
    const HaulWords words(this->ranch(), metric());
    const std::vector<std::string> lead = haul_lead(report_->account, words);
    lead_->setText(paragraphs(
        {lead.begin(),
         lead.begin() + std::min<std::ptrdiff_t>(2, static_cast<std::ptrdiff_t>(lead.size()))}));
    lead_->setToolTip(paragraphs(lead));
    std::vector<std::string> distances = distance_words(report_->account, words);
    if (has_haul_chart(report_->account)) {
        distances.insert(distances.begin(), haul_chart_words());
        chart_->set_paint(
            [report = report_, ranch = ranch_, metric = metric()](Sheet& sheet, const QRectF& box) {
                paint_haul_chart(sheet, box, report->account,
                                 HaulWords(ranch->open.checked.ranch, metric));
            });
    } else {
        distances.insert(distances.begin(),
                         tr("Prices of fuel, labor and machine are not known, so there is no "
                            "cost to show; give them in the settings.")
                             .toStdString());
    }
    distances_->setText(paragraphs(distances));
}

void HaulsPage::show_matrix() {
    const auto at = static_cast<std::size_t>(std::max(0, figure_->currentIndex()));
    matrix_model_->show(ranch_ ? &ranch() : nullptr, report_, kHaulFigures.at(at),
                        ranch_ && metric());
    // A way to begin with: the first herd's.
    if (report_ && !matrix_->selectionModel()->hasSelection() && sorted_->rowCount() > 0)
        matrix_->setCurrentIndex(sorted_->index(0, 1));
    show_trip();
}

void HaulsPage::show_trip() {
    MapContent content;
    content.about_ways = true;
    trip_->setText(report_ ? tr("Choose a yard and pasture in the table to see the way.")
                           : QString());
    const auto chosen = matrix_->selectionModel()->selectedIndexes();
    if (report_ && !chosen.isEmpty()) {
        const QModelIndex at = sorted_->mapToSource(chosen.front());
        if (const HaulTrip* trip = matrix_model_->trip(at.row(), at.column())) {
            trip_->setText(matrix_model_->words_of(*trip));
            if (trip->path.size() > 1) content.ways.push_back(trip->path);
            content.first_names = trip->via;
            content.first_names.push_back(ranch()[trip->yard].name);
            content.first_names.push_back(ranch()[trip->pasture].name);
        }
    }
    map_->set_content(std::move(content));
}

void HaulsPage::show_stacks() {
    stacks_->clear();
    if (!report_) return;
    if (!report_->stacks) return stacks_->setText(to_q(report_->why_no_stacks));
    const HaulWords words(ranch(), metric());
    const StackPlaces& places = *report_->stacks;
    std::vector<std::string> lines{stacks_hay_words(places, words)};
    const auto add = [&](const QString& name, const Siting& siting) {
        lines.push_back(tr("%1, %2 a year: %3.")
                            .arg(name, to_q(siting_cost(siting.cost, places, words)),
                                 to_q(siting_names(siting, places)))
                            .toStdString());
    };
    add(tr("Best"), places.proven->best);
    if (places.proven->runner_up) add(tr("Next best"), *places.proven->runner_up);
    if (places.today) add(tr("Today's yards"), *places.today);
    const std::vector<std::string> more = siting_words(places, words);
    lines.insert(lines.end(), more.begin(), more.end());
    stacks_->setText(paragraphs(lines));
}

void HaulsPage::show_offers() {
    offers_->clear();
    if (!report_) return;
    const HaulWords words(ranch(), metric());
    std::vector<std::string> lines;
    for (const MachineOffer& offer : report_->offers) {
        const std::vector<std::string> said = offer_words(offer, words);
        lines.insert(lines.end(), said.begin(), said.end());
    }
    offers_->setText(paragraphs(lines));
}

void HaulsPage::try_change(const std::string& change) {
    asked_.what_ifs.push_back(change);
    ask_anew();
}

void HaulsPage::offer_report() {
    if (!report_) return report_row_->set_report({}, {});
    report_row_->set_report(
        ranch_->open.book, [ranch = ranch_, report = report_, metric = metric()](
                               const std::filesystem::path& file, const Progress&) {
            return write_haul_paper(ranch->open.checked.ranch, *report, file, metric);
        });
}

}  // namespace haylane
