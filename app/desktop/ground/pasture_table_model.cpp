#include "app/desktop/ground/pasture_table_model.h"

#include <array>

namespace haylane {
namespace {

QString sentences(const std::vector<std::string>& items) {
    QStringList all;
    for (const std::string& item : items) all << QString::fromStdString(item);
    return all.join(' ');
}

// In a narrow column: "feed 1st: N" would need ordinals, so "feed, 1".
QString short_advice(const Advice& advice) {
    if (advice.kind == AdviceKind::feed_next)
        return PastureTableModel::tr("feed, %1").arg(advice.rank);
    if (advice.kind == AdviceKind::rest) return PastureTableModel::tr("rest, %1").arg(advice.rank);
    return "–";
}

double sort_place(const Advice* advice) {
    if (advice == nullptr || advice->kind == AdviceKind::as_it_is) return 1e6;
    return advice->rank + (advice->kind == AdviceKind::rest ? 1e9 : 0.0);
}

}  // namespace

void PastureTableModel::show(const Ranch* ranch, const GroundShown& shown, bool metric) {
    if (ranch == ranch_ && shown.season == shown_.season && shown.beside == shown_.beside) {
        shown_.measure = shown.measure;
        if (rowCount() > 0) emit dataChanged(index(0, 0), index(rowCount() - 1, columnCount() - 1));
        return;
    }
    beginResetModel();
    ranch_ = ranch;
    shown_ = shown;
    words_.reset();
    if (ranch_ == nullptr) {
        shown_ = {};
    } else {
        words_.emplace(ranch_->settings, metric);
    }
    endResetModel();
}

PastureId PastureTableModel::pasture(int row) const { return account(row).pasture; }

int PastureTableModel::rowCount(const QModelIndex& parent) const {
    if (parent.isValid() || !shown_.season) return 0;
    return static_cast<int>(shown_.season->account.pastures.size());
}

int PastureTableModel::columnCount(const QModelIndex& parent) const {
    if (parent.isValid()) return 0;
    return shown_.beside ? columns : mean_beside;
}

const PastureAccount& PastureTableModel::account(int row) const {
    return shown_.season->account.pastures[static_cast<std::size_t>(row)];
}

const Advice* PastureTableModel::advice_for(int row) const {
    for (const Advice& one : shown_.season->account.advice) {
        if (one.pasture == pasture(row)) return &one;
    }
    return nullptr;
}

QString PastureTableModel::text(int row, int column) const {
    const PastureAccount& of = account(row);
    const LoadFigures& load = of[shown_.measure];
    const Provenance& from = of.ledger.provenance;
    const auto rate = [&](double per_m2) { return words_->rate(per_m2, shown_.measure, from); };
    switch (column) {
        case name:
            return QString::fromStdString((*ranch_)[of.pasture].name);
        case bales:
            return words_->count(of.ledger.bales, from);
        case mean:
            return rate(load.mean_per_m2);
        case low_quarter:
            return rate(load.low_quarter_per_m2);
        case high_tenth:
            return rate(load.high_tenth_per_m2);
        case over:
            return load.limit_per_m2 ? GroundWords::percent(load.over_limit_ratio) : tr("no limit");
        case advice: {
            const Advice* given = advice_for(row);
            return given != nullptr ? short_advice(*given) : QString("–");
        }
        case mean_beside: {
            const PastureAccount& other =
                shown_.beside->account.pastures[static_cast<std::size_t>(row)];
            return words_->rate(other[shown_.measure].mean_per_m2, shown_.measure,
                                other.ledger.provenance);
        }
        default:
            return {};
    }
}

QVariant PastureTableModel::sort_value(int row, int column) const {
    const PastureAccount& of = account(row);
    const LoadFigures& load = of[shown_.measure];
    switch (column) {
        case bales:
            return of.ledger.bales;
        case mean:
            return load.mean_per_m2;
        case low_quarter:
            return load.low_quarter_per_m2;
        case high_tenth:
            return load.high_tenth_per_m2;
        case over:
            return load.limit_per_m2 ? load.over_limit_ratio : -1.0;
        case advice:
            return sort_place(advice_for(row));
        case mean_beside:
            return shown_.beside->account.pastures[static_cast<std::size_t>(row)][shown_.measure]
                .mean_per_m2;
        default:
            return text(row, column);
    }
}

QString PastureTableModel::tip(int row, int column) const {
    if (column == over) {
        const auto& limit = account(row)[shown_.measure].limit_per_m2;
        return limit ? tr("Limit: %1 %2")
                           .arg(words_->rate(*limit, shown_.measure, {}),
                                words_->rate_unit(shown_.measure))
                     : tr("The pasture has no limit for this.");
    }
    const Advice* given = advice_for(row);
    if (given == nullptr) return {};
    return QString("%1. %2 %3")
        .arg(GroundWords::advice(*given), sentences(given->reasons), sentences(given->cautions))
        .trimmed();
}

QVariant PastureTableModel::data(const QModelIndex& index, int role) const {
    if (!checkIndex(index, CheckIndexOption::IndexIsValid) || !shown_.season) return {};
    switch (role) {
        case Qt::DisplayRole:
            return text(index.row(), index.column());
        case kSortRole:
            return sort_value(index.row(), index.column());
        case Qt::ToolTipRole:
            return tip(index.row(), index.column());
        case Qt::TextAlignmentRole:
            return QVariant::fromValue(Qt::Alignment(
                Qt::AlignVCenter | (index.column() == name ? Qt::AlignLeft : Qt::AlignRight)));
        default:
            return {};
    }
}

QVariant PastureTableModel::headerData(int section, Qt::Orientation orientation, int role) const {
    if (orientation != Qt::Horizontal || section < 0 || section >= columnCount()) return {};
    if (role == Qt::TextAlignmentRole)
        return QVariant::fromValue(
            Qt::Alignment(Qt::AlignVCenter | (section == name ? Qt::AlignLeft : Qt::AlignRight)));
    if (role == Qt::ToolTipRole) {
        static const std::array<const char*, columns> kTips{
            QT_TR_NOOP("Click a row to look at the pasture"),
            QT_TR_NOOP("Bales fed in these dates"),
            QT_TR_NOOP("What was put down, over all of the pasture"),
            QT_TR_NOOP("Mean of the lightest quarter of its feed ground"),
            QT_TR_NOOP("Mean of the heaviest tenth of its feed ground"),
            QT_TR_NOOP("How much of its feed ground is over the pasture's limit"),
            QT_TR_NOOP("Where to feed next and what to let rest, in order; point at it for why"),
            QT_TR_NOOP("The other season's mean")};
        return tr(kTips[static_cast<std::size_t>(section)]);
    }
    if (role != Qt::DisplayRole) return {};
    switch (section) {
        case name:
            return tr("Pasture");
        case bales:
            return tr("Bales");
        case mean:
            return tr("Mean");
        case low_quarter:
            return tr("Lightest\nquarter");
        case high_tenth:
            return tr("Heaviest\ntenth");
        case over:
            return tr("Over\nlimit");
        case advice:
            return tr("Advice");
        default:
            return shown_.beside
                       ? tr("Mean\n%1")
                             .arg(QString::fromStdString(shown_.beside->account.span.name))
                       : QString();
    }
}

}  // namespace haylane
