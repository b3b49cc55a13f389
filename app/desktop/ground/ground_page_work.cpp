// What the ground page does; how it is laid out stands in ground_page.cpp.
#include "app/desktop/ground/ground_page.h"
#include "app/desktop/ground/ground_picture_of.h"
#include "app/desktop/ground/time_strip.h"
#include "app/desktop/jobs/work_bar.h"
#include "app/desktop/models/problem_model.h"
#include "app/desktop/paper_part.h"
#include "app/papers/ground_charts.h"
#include "app/papers/words.h"
#include "app/session/ground_ranch.h"
#include "core/plan/spoken.h"

#include <algorithm>

#include <QComboBox>
#include <QLabel>
#include <QPushButton>
#include <QSortFilterProxyModel>
#include <QTableView>

namespace haylane {
namespace {

constexpr int kWeek_days = 7;
constexpr int kLongStep_days = 28;  // of all seasons together

QString to_q(const std::string& text) { return QString::fromStdString(text); }

bool is_a_season(const Span& span) { return span.to - span.from < std::chrono::days{400}; }

int step_days(const Span& span) { return is_a_season(span) ? kWeek_days : kLongStep_days; }

// The step of a season that a day is in.
int step_of(const Span& span, sys_days day) {
    return static_cast<int>((day - span.from).count()) / step_days(span);
}

}  // namespace

void GroundPage::connect_parts() {
    for (const QComboBox* box : {season_, measure_, beside_})
        connect(box, &QComboBox::currentIndexChanged, this, &GroundPage::choose);
    connect(time_, &TimeStrip::day_changed, this, &GroundPage::show_day);
    for (MapViewWidget* map : {map_, other_map_}) {
        MapViewWidget* other = map == map_ ? other_map_ : map_;
        connect(map, &MapViewWidget::view_changed, other, [map, other] {
            if (map->isVisible()) other->follow(*map);
        });
        connect(map, &MapViewWidget::pointed_at, this,
                [this, map](Point place) { show_figure(place, map); });
        connect(map, &MapViewWidget::pointed_away, this, [this] { show_figure({}, nullptr); });
    }
    connect(table_->selectionModel(), &QItemSelectionModel::selectionChanged, this,
            &GroundPage::go_to_pasture);
    connect(work_, &Work::failed, this, [this](const Error& error) {
        if (error.code != "cancelled") {
            given_up_ = true;
            emit failed(error);
        }
        work_out_missing();
    });
    connect(bar_, &WorkBar::stop_wanted, this, [this] { given_up_ = true; });
    connect(again_, &QPushButton::clicked, this, [this] {
        given_up_ = false;
        work_out_missing();
    });
    connect(report_row_, &ReportRow::failed, this, &GroundPage::failed);
}

bool GroundPage::metric() const { return speaks_metric(ranch().settings); }

void GroundPage::set_ranch(std::shared_ptr<const ShownRanch> ranch) {
    model_->show(nullptr, {}, false);
    ranch_ = std::move(ranch);
    done_.clear();
    shown_ = {};
    given_up_ = false;
    map_->set_ranch(ranch_);
    other_map_->set_ranch(ranch_);
    fill_choices();
    choose();
}

void GroundPage::fill_choices() {
    const QSignalBlocker quiet_season(season_);
    const QSignalBlocker quiet_measure(measure_);
    const QSignalBlocker quiet_beside(beside_);
    for (QComboBox* box : {season_, measure_, beside_}) box->clear();
    if (!ranch_) return;
    const std::vector<Span> seasons = seasons_on_record(ranch());
    beside_->addItem(tr("nothing"));
    for (auto span = seasons.rbegin(); span != seasons.rend(); ++span) {
        season_->addItem(to_q(span->name), to_q(span->name));
        beside_->addItem(to_q(span->name), to_q(span->name));
    }
    if (!seasons.empty()) season_->addItem(tr("all on record"), QString());
    for (const SeasonMeasure measure : kSeasonMeasures)
        measure_->addItem(as_sentence(GroundWords::name(measure).toStdString()));
    const auto usual = season_measure_named(ranch().settings.objective_measure);
    measure_->setCurrentIndex(static_cast<int>(usual.value_or(SeasonMeasure::p2o5)));
}

std::optional<Span> GroundPage::chosen(const QComboBox* box) const {
    if (!ranch_ || !box->currentData().isValid()) return std::nullopt;
    const std::string name = box->currentData().toString().toStdString();
    return name.empty() ? all_on_record(ranch()) : season_named(ranch(), name);
}

// Something else was chosen.
void GroundPage::choose() {
    given_up_ = false;
    const auto span = chosen(season_);
    beside_->setEnabled(span && is_a_season(*span));
    if (!beside_->isEnabled()) {
        const QSignalBlocker quiet(beside_);
        beside_->setCurrentIndex(ranch_ ? 0 : -1);
    }
    shown_.measure = static_cast<SeasonMeasure>(std::max(0, ranch_ ? measure_->currentIndex() : 0));
    work_out_missing();
}

void GroundPage::showEvent(QShowEvent* event) {
    QWidget::showEvent(event);
    work_out_missing();
}

// Shows what is there, and starts what is not while the page is looked at.
void GroundPage::work_out_missing() {
    std::optional<Span> missing;
    for (const QComboBox* box : {beside_, season_}) {
        const auto span = chosen(box);
        if (span && !done_.contains(span->name)) missing = span;
    }
    show_all();
    again_->setVisible(missing && given_up_ && !work_->busy());
    if (work_->busy()) {
        if (!missing || missing->name != under_way_) work_->stop();
    } else if (missing && !given_up_ && isVisible()) {
        work_out(*missing);
    }
}

void GroundPage::work_out(const Span& span) {
    under_way_ = span.name;
    bar_->set_doing(to_q(span.name));
    work_->start<GroundSeason>(
        "The account of the ground", ranch_->open.book,
        [ranch = ranch_, span](const Progress& progress) {
            return ground_season(
                ranch->open.checked.ranch,
                {.span = span, .step_days = step_days(span), .progress = progress});
        },
        [this, ranch = ranch_](std::shared_ptr<const GroundSeason> season) {
            if (ranch == ranch_) done_[season->account.span.name] = std::move(season);
            work_out_missing();
        });
}

void GroundPage::show_all() {
    const auto done = [this](const QComboBox* box) -> std::shared_ptr<const GroundSeason> {
        const auto span = chosen(box);
        const auto found = span ? done_.find(span->name) : done_.end();
        return found == done_.end() ? nullptr : found->second;
    };
    const GroundShown before = shown_;
    shown_.season = done(season_);
    shown_.beside = shown_.season ? done(beside_) : nullptr;
    const bool same = before.season == shown_.season && before.beside == shown_.beside;
    const bool two = chosen(beside_).has_value();
    if (other_map_->isHidden() == two) other_map_->setVisible(two);
    if (two) other_map_->follow(*map_);
    model_->show(ranch_ ? &ranch() : nullptr, shown_, ranch_ && metric());
    if (!same) show_range();
    offer_report();
    const auto span = chosen(season_);
    title_->setText(
        span ? tr("%1, %2, %3")
                   .arg(measure_->currentText(),
                        GroundWords(ranch().settings, metric()).rate_unit(shown_.measure),
                        to_q(span->name))
             : tr("Nothing has been fed yet"));
    show_day();
    show_figure({}, nullptr);
}

void GroundPage::show_range() {
    int first = 1 << 20;
    int last = -1;
    for (const auto* season : {&shown_.season, &shown_.beside}) {
        if (!*season || (*season)->days.empty()) continue;
        const Span& span = (*season)->account.span;
        first = std::min(first, step_of(span, (*season)->days.front()));
        last = std::max(last, step_of(span, (*season)->days.back()));
    }
    if (shown_.season) {
        const Span& span = shown_.season->account.span;
        time_->set_range(span.from, step_days(span), first, last);
    } else {
        time_->set_range({}, kWeek_days, 1, 0);
    }
}

sys_days GroundPage::day_in(const GroundSeason& season) const {
    return season.account.span.from + (time_->day() - shown_.season->account.span.from);
}

void GroundPage::show_day() {
    bool outlined = false;
    for (MapViewWidget* map : {map_, other_map_}) {
        MapContent content;
        if (const GroundSeason* season = season_on(map)) {
            content = ground_content(*season, shown_.measure, day_in(*season), ranch(),
                                     GroundWords(ranch().settings, metric()));
        }
        outlined = outlined || !content.outlines.empty();
        map->set_content(std::move(content));
    }
    if (shown_.season) {
        const GroundWords words(ranch().settings, metric());
        const QString when = tr("by %1").arg(to_q(words::date(time_->day())));
        legend_->set_paint([title = load_title(shown_.measure, when, outlined, words)](
                               Sheet& sheet, const QRectF& box) {
            paint_legend(sheet, box.topLeft(), box.width(), title, load_legend());
        });
    } else {
        legend_->set_paint({});
    }
    show_curve();
}

void GroundPage::show_curve() {
    evenness_->clear();
    curve_->set_paint({});
    if (!shown_.season) return;
    const sys_days day = day_in(*shown_.season);
    const QString measure = GroundWords::name(shown_.measure);
    evenness_->setText(GroundWords::how_even(
        curve_by(*shown_.season, shown_.measure, day, std::nullopt, ranch()), shown_.measure));
    const auto pasture = pasture_chosen();
    const QString of = pasture ? measure + tr(", ") + to_q(ranch()[*pasture].name)
                               : measure + tr(", all feed ground");
    curve_->set_paint([curve = curve_by(*shown_.season, shown_.measure, day, pasture, ranch()), of](
                          Sheet& sheet, const QRectF& box) { paint_curve(sheet, box, curve, of); });
}

const GroundSeason* GroundPage::season_on(const MapViewWidget* map) const {
    return map == map_ ? shown_.season.get() : shown_.beside.get();
}

void GroundPage::show_figure(Point place, const MapViewWidget* map) {
    QString text;
    const GroundSeason* season = map != nullptr ? season_on(map) : nullptr;
    if (season != nullptr)
        text = figure_at(*season, shown_.measure, day_in(*season), place, ranch(),
                         GroundWords(ranch().settings, metric()));
    if (text.isEmpty() && shown_.season) text = tr("Point at the map to read what lies there.");
    here_->setText(text);
}

std::optional<PastureId> GroundPage::pasture_chosen() const {
    const auto rows = table_->selectionModel()->selectedRows();
    if (rows.isEmpty() || !shown_.season) return std::nullopt;
    return model_->pasture(sorted_->mapToSource(rows.front()).row());
}

void GroundPage::go_to_pasture() {
    if (const auto pasture = pasture_chosen()) {
        const Box box = box_of(ranch()[*pasture].shape);
        map_->show_box(box.grown_by(0.05 * std::max(box.max_x - box.min_x, box.max_y - box.min_y)));
    }
    if (shown_.season) show_curve();
}

void GroundPage::offer_report() {
    if (!shown_.season) return report_row_->set_report({}, {});
    const Span& span = shown_.season->account.span;
    GroundRequest request{.measures = {shown_.measure}};
    if (is_a_season(span)) {
        request.season = span.name;
    } else {
        request.all = true;
    }
    report_row_->set_report(
        ranch_->open.book, [ranch = ranch_, request, metric = metric()](
                               const std::filesystem::path& file, const Progress& progress) {
            GroundRequest watched = request;
            watched.progress = progress;
            return write_ground_paper(ranch->open.checked.ranch, watched, file, metric);
        });
}

}  // namespace haylane
