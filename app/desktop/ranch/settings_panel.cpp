#include "app/desktop/ranch/settings_panel.h"

#include "app/desktop/models/problem_model.h"
#include "app/desktop/ranch/row_table_model.h"
#include "core/plan/spoken.h"
#include "core/ranch/settings.h"

#include <algorithm>

#include <QHeaderView>
#include <QLabel>
#include <QTableView>
#include <QVBoxLayout>

namespace haylane {
namespace {

QString to_q(std::string_view text) {
    return QString::fromUtf8(text.data(), static_cast<qsizetype>(text.size()));
}

std::size_t numeric_count() { return setting_table().size(); }
std::size_t setting_count() { return numeric_count() + word_setting_keys().size(); }

std::string_view key_of(std::size_t row) {
    return row < numeric_count() ? setting_table()[row].key
                                 : word_setting_keys()[row - numeric_count()];
}

QString usual_of(const SettingInfo& info, const SpokenSetting& spoken) {
    const Settings usual;
    const std::optional<double> value =
        info.value != nullptr ? std::optional(usual.*info.value) : usual.*info.optional_value;
    return value ? QString::number(spoken.from_si(*value), 'g', 4) : QString();
}

// "Fence clearance" of "fence_clearance_ft".
QString words_of(const SpokenSetting& spoken) {
    std::string ending = "_" + std::string(spoken.unit);
    std::replace(ending.begin(), ending.end(), '/', '_');
    const std::string_view key = spoken.key;
    return column_words(key.ends_with(ending) ? key.substr(0, key.size() - ending.size()) : key);
}

}  // namespace

void SettingsModel::set_rows(const std::vector<RawRow>& rows, bool metric) {
    metric_ = metric;
    std::vector<Own> written_by_user(setting_count());
    for (const RawRow& row : rows) {
        const std::string written = row.text("key");
        const auto numeric = find_setting(written);
        for (std::size_t i = 0; i < written_by_user.size(); ++i) {
            const bool is = i < numeric_count() ? numeric && numeric->info == &setting_table()[i]
                                                : written == key_of(i);
            if (is) written_by_user[i] = {row.uuid, written, row.text("value")};
        }
    }
    if (own_.empty()) {
        beginResetModel();
        own_ = std::move(written_by_user);
        endResetModel();
    } else {
        own_ = std::move(written_by_user);
        emit dataChanged(index(0, 0), index(rowCount() - 1, column_count - 1));
    }
}

QString SettingsModel::about(int row) const {
    const auto at = static_cast<std::size_t>(row);
    if (at >= numeric_count()) return tr("Words or a date: see the manual's table of settings.");
    const SettingInfo& info = setting_table()[at];
    const SpokenSetting spoken = spoken_at(at);
    return tr("%1. Allowed: %2 to %3 %4. Usual value from: %5. In settings.csv: %6.")
        .arg(as_sentence(std::string(info.meaning)))
        .arg(spoken.from_si(info.least_si), 0, 'g', 6)
        .arg(spoken.from_si(info.most_si), 0, 'g', 6)
        .arg(unit_text(spoken.unit), to_q(info.source), to_q(spoken.key));
}

SpokenSetting SettingsModel::spoken_at(std::size_t row) const {
    const SettingInfo& info = setting_table()[row];
    const SpokenSetting metric = spoken_setting(info, true);
    const SpokenSetting us = spoken_setting(info, false);
    // The user's own value is shown in the unit that it was written in.
    const std::string& written = own_[row].key;
    if (written.empty()) return metric_ ? metric : us;
    return written == us.key ? us : metric;
}

int SettingsModel::rowCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : static_cast<int>(own_.size());
}

int SettingsModel::columnCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : column_count;
}

QVariant SettingsModel::data(const QModelIndex& index, int role) const {
    if (!index.isValid()) return {};
    const auto at = static_cast<std::size_t>(index.row());
    const bool numeric = at < numeric_count();
    if (role == Qt::ToolTipRole) return about(index.row());
    if (role == Qt::TextAlignmentRole && (index.column() == own || index.column() == usual))
        return QVariant(Qt::AlignRight | Qt::AlignVCenter);
    if (role != Qt::DisplayRole && role != Qt::EditRole) return {};
    switch (index.column()) {
        case key:
            return numeric ? words_of(spoken_at(at)) : column_words(key_of(at));
        case own:
            return QString::fromStdString(own_[at].value);
        case usual:
            return numeric ? usual_of(setting_table()[at], spoken_at(at)) : QString();
        default:
            return numeric ? unit_text(spoken_at(at).unit) : QString();
    }
}

QVariant SettingsModel::headerData(int section, Qt::Orientation orientation, int role) const {
    if (role != Qt::DisplayRole) return {};
    if (orientation == Qt::Vertical) return section + 1;
    switch (section) {
        case key:
            return tr("Setting");
        case own:
            return tr("Yours");
        case usual:
            return tr("Usual");
        case unit:
            return tr("Unit");
        default:
            return {};
    }
}

Qt::ItemFlags SettingsModel::flags(const QModelIndex& index) const {
    const Qt::ItemFlags all = QAbstractTableModel::flags(index);
    return index.isValid() && index.column() == own ? all | Qt::ItemIsEditable : all;
}

bool SettingsModel::setData(const QModelIndex& index, const QVariant& value, int role) {
    if (!index.isValid() || index.column() != own || role != Qt::EditRole) return false;
    const auto at = static_cast<std::size_t>(index.row());
    const std::string text = value.toString().trimmed().toStdString();
    const Own& now = own_[at];
    if (text == now.value) return false;
    const QString what =
        tr("set %1").arg(data(this->index(index.row(), key), Qt::DisplayRole).toString().toLower());
    if (text.empty()) {
        emit edit_wanted(what, {{.role = "settings", .uuid = now.uuid, .take_out = true}});
        return true;
    }
    RowEdit edit{.role = "settings", .uuid = now.uuid, .fields = {{"value", text}}};
    if (now.uuid.empty())
        edit.fields["key"] = at < numeric_count() ? spoken_at(at).key : std::string(key_of(at));
    edit.typed = {{"value", text}};
    emit edit_wanted(what, {edit});
    return true;
}

SettingsPanel::SettingsPanel(QWidget* parent)
    : QWidget(parent), table_(new QTableView), about_(new QLabel), model_(new SettingsModel(this)) {
    table_->setModel(model_);
    table_->setAccessibleName(tr("Settings"));
    table_->setEditTriggers(QAbstractItemView::AllEditTriggers);
    table_->verticalHeader()->hide();
    table_->verticalHeader()->setDefaultSectionSize(24);
    table_->horizontalHeader()->setSectionResizeMode(SettingsModel::key, QHeaderView::Stretch);
    for (const int narrow : {SettingsModel::own, SettingsModel::usual, SettingsModel::unit})
        table_->setColumnWidth(narrow, 66);
    about_->setWordWrap(true);
    about_->setMinimumHeight(64);
    about_->setAlignment(Qt::AlignTop | Qt::AlignLeft);
    about_->setAccessibleName(tr("What the setting does"));
    about_->setText(tr("Leave a setting blank to go by the usual value."));
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(8, 8, 8, 8);
    column->addWidget(table_, 1);
    column->addWidget(about_);
    connect(model_, &SettingsModel::edit_wanted, this, &SettingsPanel::edit_wanted);
    connect(table_->selectionModel(), &QItemSelectionModel::currentChanged, this,
            [this](const QModelIndex& now) {
                if (now.isValid()) about_->setText(model_->about(now.row()));
            });
}

void SettingsPanel::set_ranch(const std::shared_ptr<const ShownRanch>& ranch) {
    model_->set_rows(rows_of(ranch.get(), "settings"),
                     ranch && speaks_metric(ranch->open.checked.ranch.settings));
}

}  // namespace haylane
