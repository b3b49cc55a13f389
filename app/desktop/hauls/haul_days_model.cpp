#include "app/desktop/hauls/haul_days_model.h"

#include "app/papers/haul_words.h"

namespace haylane {
namespace {

QStringList to_list(const std::vector<std::string>& cells) {
    QStringList list;
    for (const std::string& cell : cells) list << QString::fromStdString(cell);
    return list;
}

// Heads of narrow columns stand in two lines.
QStringList folded(QStringList heads) {
    for (QString& head : heads) {
        const qsizetype middle = head.indexOf(' ', head.size() / 3);
        if (head.size() > 12 && middle > 0) head[middle] = '\n';
    }
    return heads;
}

}  // namespace

void HaulDaysModel::show(const Ranch* ranch, const HaulReport* report, bool metric) {
    beginResetModel();
    rows_.clear();
    heads_.clear();
    if (ranch != nullptr && report != nullptr) {
        const HaulWords w(*ranch, metric);
        heads_ = folded(to_list(haul_day_heads(w)));
        heads_[0] = tr("All herds, a day");
        const auto add = [&](const std::string& name, const HaulRange& day) {
            rows_.push_back(to_list(haul_day_words(name, day, w)));
        };
        add(tr("as now").toStdString(), report->account.day);
        for (const RigWork& rig : report->account.rigs) {
            const QString name = QString::fromStdString((*ranch)[rig.rig].name);
            add(tr("all with %1").arg(name).toStdString(), rig.day);
        }
        for (const HaulWhatIf& one : report->what_ifs) add(what_if_words(one.name), one.day);
    }
    endResetModel();
}

int HaulDaysModel::rowCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : static_cast<int>(rows_.size());
}

int HaulDaysModel::columnCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : static_cast<int>(heads_.size());
}

QVariant HaulDaysModel::data(const QModelIndex& index, int role) const {
    if (!checkIndex(index, CheckIndexOption::IndexIsValid)) return {};
    if (role == Qt::DisplayRole || role == Qt::ToolTipRole)
        return rows_[static_cast<std::size_t>(index.row())].at(index.column());
    if (role == Qt::TextAlignmentRole)
        return QVariant::fromValue(Qt::Alignment(
            Qt::AlignVCenter | (index.column() == 0 ? Qt::AlignLeft : Qt::AlignRight)));
    return {};
}

QVariant HaulDaysModel::headerData(int section, Qt::Orientation orientation, int role) const {
    if (orientation != Qt::Horizontal || section < 0 || section >= heads_.size()) return {};
    if (role == Qt::DisplayRole) return heads_.at(section);
    if (role == Qt::TextAlignmentRole)
        return QVariant::fromValue(
            Qt::Alignment(Qt::AlignVCenter | (section == 0 ? Qt::AlignLeft : Qt::AlignRight)));
    return {};
}

}  // namespace haylane
