#include "app/desktop/hauls/haul_matrix_model.h"

#include "app/papers/haul_words.h"

#include <utility>

#include <QFont>

namespace haylane {
namespace {

constexpr double kAbsent = 1e300;

QString to_q(const std::string& text) { return QString::fromStdString(text); }

}  // namespace

QString figure_name(HaulFigure figure, bool metric) {
    switch (figure) {
        case HaulFigure::cost_per_ton:
            return metric ? HaulMatrixModel::tr("Cost a tonne") : HaulMatrixModel::tr("Cost a ton");
        case HaulFigure::cost_per_load:
            return HaulMatrixModel::tr("Cost a load");
        case HaulFigure::cost_per_head:
            return HaulMatrixModel::tr("Cost a head and day");
        case HaulFigure::minutes:
            return HaulMatrixModel::tr("Minutes a load");
        case HaulFigure::distance:
            return metric ? HaulMatrixModel::tr("Kilometers one way")
                          : HaulMatrixModel::tr("Miles one way");
        case HaulFigure::fuel:
            return metric ? HaulMatrixModel::tr("Liters a load")
                          : HaulMatrixModel::tr("Gallons a load");
    }
    return {};
}

void HaulMatrixModel::show(const Ranch* ranch, std::shared_ptr<const HaulReport> report,
                           HaulFigure figure, bool metric) {
    if (ranch == ranch_ && report == report_ && metric == metric_) {
        figure_ = figure;
        if (rowCount() > 0) emit dataChanged(index(0, 0), index(rowCount() - 1, columnCount() - 1));
        return;
    }
    beginResetModel();
    ranch_ = ranch;
    report_ = ranch != nullptr ? std::move(report) : nullptr;
    figure_ = figure;
    metric_ = metric;
    trips_ = report_ ? best_trips(report_->account, ranch_->rigs.size()) : std::vector<HaulTrip>();
    endResetModel();
}

int HaulMatrixModel::rowCount(const QModelIndex& parent) const {
    if (parent.isValid() || !report_) return 0;
    return static_cast<int>(trips_.size() / ranch_->yards.size());
}

int HaulMatrixModel::columnCount(const QModelIndex& parent) const {
    if (parent.isValid()) return 0;
    return report_ ? 1 + static_cast<int>(ranch_->yards.size()) : 1;
}

const HaulTrip* HaulMatrixModel::trip(int row, int column) const {
    if (column < 1 || row < 0 || row >= rowCount() || column >= columnCount()) return nullptr;
    return &trips_[static_cast<std::size_t>(row) * ranch_->yards.size() +
                   static_cast<std::size_t>(column - 1)];
}

PastureId HaulMatrixModel::pasture(int row) const { return trip(row, 1)->pasture; }

std::optional<double> HaulMatrixModel::value(const HaulTrip& trip) const {
    if (!trip.reached) return std::nullopt;
    switch (figure_) {
        case HaulFigure::cost_per_ton:
            return trip.cost_per_kg();
        case HaulFigure::cost_per_load:
            return trip.work.cost;
        case HaulFigure::cost_per_head:
            return trip.cost_per_head();
        case HaulFigure::minutes:
            return trip.work.time_s;
        case HaulFigure::distance:
            return trip.one_way_m;
        case HaulFigure::fuel:
            return trip.work.fuel_l;
    }
    return std::nullopt;
}

QString HaulMatrixModel::text(const HaulTrip& trip) const {
    if (!trip.reached) return tr("no way");
    const HaulWords w(*ranch_, metric_);
    const QString unsure = trip.way_checked ? QString() : QString("?");
    switch (figure_) {
        case HaulFigure::cost_per_ton:
            return to_q(w.money_a_ton(trip.cost_per_kg())) + unsure;
        case HaulFigure::cost_per_load:
            return to_q(w.money(trip.work.cost)) + unsure;
        case HaulFigure::cost_per_head:
            return to_q(w.money(trip.cost_per_head())) + unsure;
        case HaulFigure::minutes:
            return QString::number(trip.work.time_s / 60.0, 'f', 0) + unsure;
        case HaulFigure::distance:
            return to_q(w.distance(trip.one_way_m)) + unsure;
        case HaulFigure::fuel:
            return to_q(w.fuel(trip.work.fuel_l)) + unsure;
    }
    return {};
}

QString HaulMatrixModel::words_of(const HaulTrip& trip) const {
    const HaulWords w(*ranch_, metric_);
    const QString ends =
        tr("%1 to %2").arg(to_q((*ranch_)[trip.yard].name), to_q((*ranch_)[trip.pasture].name));
    if (!trip.reached) return tr("%1: %2").arg(ends, to_q(trip.why_not));
    QString text = tr("%1 with %2: %3 %4 one way")
                       .arg(ends, to_q((*ranch_)[trip.rig].name), to_q(w.distance(trip.one_way_m)),
                            to_q(w.distance_unit()));
    if (!trip.via.empty()) text += tr(" by %1").arg(to_q(words::list(trip.via)));
    text += tr("; a load of %1 takes %2 and %3 %4")
                .arg(to_q(words::bale_count(trip.bales)), to_q(words::minutes(trip.work.time_s)),
                     to_q(w.fuel(trip.work.fuel_l)), to_q(w.fuel_unit()));
    if (trip.work.cost)
        text += tr(", %1, %2 a %3")
                    .arg(to_q(w.money(trip.work.cost)), to_q(w.money_a_ton(trip.cost_per_kg())),
                         to_q(w.ton()));
    if (!trip.way_checked) text += tr(". No gate or trail is known: a straight line, made longer");
    return text + ".";
}

bool HaulMatrixModel::is_best(int row, int column) const {
    const auto own = value(*trip(row, column));
    if (!own) return false;
    for (int other = 1; other < columnCount(); ++other) {
        if (value(*trip(row, other)).value_or(kAbsent) < *own) return false;
    }
    return columnCount() > 2;
}

QVariant HaulMatrixModel::data(const QModelIndex& index, int role) const {
    if (!checkIndex(index, CheckIndexOption::IndexIsValid) || !report_) return {};
    const HaulTrip* of = trip(index.row(), index.column());
    switch (role) {
        case Qt::DisplayRole:
            return of == nullptr ? to_q((*ranch_)[pasture(index.row())].name) : text(*of);
        case kSortRole:
            if (of == nullptr) return to_q((*ranch_)[pasture(index.row())].name);
            return value(*of).value_or(kAbsent);
        case Qt::ToolTipRole:
        case Qt::AccessibleDescriptionRole:
            return of == nullptr ? QVariant() : QVariant(words_of(*of));
        case Qt::FontRole: {
            QFont font;
            font.setBold(of != nullptr && is_best(index.row(), index.column()));
            return font;
        }
        case Qt::TextAlignmentRole:
            return QVariant::fromValue(
                Qt::Alignment(Qt::AlignVCenter | (of == nullptr ? Qt::AlignLeft : Qt::AlignRight)));
        default:
            return {};
    }
}

QVariant HaulMatrixModel::headerData(int section, Qt::Orientation orientation, int role) const {
    if (orientation != Qt::Horizontal || section < 0 || section >= columnCount()) return {};
    if (role == Qt::DisplayRole)
        return section == 0 ? tr("Pasture")
                            : to_q(ranch_->yards[static_cast<std::size_t>(section - 1)].name);
    if (role == Qt::TextAlignmentRole)
        return QVariant::fromValue(
            Qt::Alignment(Qt::AlignVCenter | (section == 0 ? Qt::AlignLeft : Qt::AlignRight)));
    return {};
}

}  // namespace haylane
