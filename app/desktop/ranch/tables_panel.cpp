#include "app/desktop/ranch/tables_panel.h"

#include "core/plan/spoken.h"
#include "gis/book/roles.h"

#include <array>

#include <QComboBox>
#include <QHBoxLayout>
#include <QHeaderView>
#include <QInputDialog>
#include <QLabel>
#include <QPushButton>
#include <QTableView>
#include <QVBoxLayout>

namespace haylane {
namespace {

struct Shown {
    const char* role;
    const char* title;
    const char* about;
};

constexpr std::array kShown{
    Shown{"herds", QT_TR_NOOP("Herds"),
          QT_TR_NOOP("Pastures a herd may be fed in are parted by semicolons.")},
    Shown{"hay", QT_TR_NOOP("Hay"),
          QT_TR_NOOP("A row a lot: which yard it stands in, and how many "
                     "bales are left.")},
    Shown{"rigs", QT_TR_NOOP("Rigs"), QT_TR_NOOP("Method: shred or unroll.")},
    Shown{"weather", QT_TR_NOOP("Weather"), QT_TR_NOOP("The days ahead: cold, wind, thaw.")},
    Shown{"moves", QT_TR_NOOP("Moves"), QT_TR_NOOP("On which day a herd goes to which pasture.")},
    Shown{"pastures", QT_TR_NOOP("Pastures"), QT_TR_NOOP("Their fences are drawn on the map.")},
    Shown{"gates", QT_TR_NOOP("Gates"), QT_TR_NOOP("They are drawn on the map, on the fence.")},
    Shown{"trails", QT_TR_NOOP("Trails"), QT_TR_NOOP("They are drawn on the map.")},
    Shown{"yards", QT_TR_NOOP("Yards"), QT_TR_NOOP("Where hay is stacked.")},
    Shown{"off_limits", QT_TR_NOOP("Off limits"),
          QT_TR_NOOP("Water, wells, buildings, wetland: with your own setbacks.")},
    Shown{"water", QT_TR_NOOP("Water"), QT_TR_NOOP("Where cattle drink.")},
    Shown{"shelter", QT_TR_NOOP("Shelter"), QT_TR_NOOP("Trees, banks, windbreaks.")},
    Shown{"soft", QT_TR_NOOP("Soft ground"), QT_TR_NOOP("Not driven on in a thaw.")},
    Shown{"soil", QT_TR_NOOP("Soil samples"), ""},
    Shown{"hay_fields", QT_TR_NOOP("Hay fields"), ""},
};

}  // namespace

TablesPanel::TablesPanel(QWidget* parent)
    : QWidget(parent),
      roles_(new QComboBox),
      about_(new QLabel),
      table_(new QTableView),
      model_(new RowTableModel(this)),
      add_(new QPushButton(tr("&Add a row"))),
      take_out_(new QPushButton(tr("&Take out"))) {
    for (const Shown& shown : kShown) roles_->addItem(tr(shown.title), QString(shown.role));
    roles_->setAccessibleName(tr("Which table"));
    about_->setWordWrap(true);
    table_->setModel(model_);
    table_->setAccessibleName(tr("Table"));
    table_->setSelectionBehavior(QAbstractItemView::SelectItems);
    table_->setSelectionMode(QAbstractItemView::ExtendedSelection);
    table_->verticalHeader()->setDefaultSectionSize(24);
    table_->horizontalHeader()->setMaximumSectionSize(220);
    auto* import = new QPushButton(tr("&Read a file…"));
    import->setToolTip(tr("Rows from a table or a map made elsewhere"));
    auto* buttons = new QHBoxLayout;
    for (QPushButton* one : {add_, take_out_, import}) buttons->addWidget(one);
    buttons->addStretch(1);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(8, 8, 8, 8);
    column->addWidget(roles_);
    column->addWidget(about_);
    column->addWidget(table_, 1);
    column->addLayout(buttons);
    connect(roles_, &QComboBox::currentIndexChanged, this, &TablesPanel::show_rows);
    connect(add_, &QPushButton::clicked, this, &TablesPanel::add_row);
    connect(take_out_, &QPushButton::clicked, this, &TablesPanel::take_out);
    connect(import, &QPushButton::clicked, this,
            [this] { emit import_wanted(roles_->currentData().toString()); });
    connect(model_, &RowTableModel::edit_wanted, this, &TablesPanel::edit_wanted);
    connect(model_, &RowTableModel::failed, this, &TablesPanel::failed);
    connect(model_, &RowTableModel::modelReset, table_, &QTableView::resizeColumnsToContents);
    connect(table_->selectionModel(), &QItemSelectionModel::currentRowChanged, this,
            [this](const QModelIndex& now) {
                if (now.isValid()) emit picked(QString::fromStdString(model_->row(now.row()).uuid));
            });
}

void TablesPanel::set_ranch(std::shared_ptr<const ShownRanch> ranch) {
    ranch_ = std::move(ranch);
    show_rows();
}

void TablesPanel::show_role(const std::string& role) {
    const int at = roles_->findData(QString::fromStdString(role));
    if (at >= 0) roles_->setCurrentIndex(at);
}

void TablesPanel::show_rows() {
    const Shown& shown = kShown[static_cast<std::size_t>(roles_->currentIndex())];
    about_->setText(tr(shown.about));
    about_->setVisible(*shown.about != '\0');
    const bool metric = ranch_ && speaks_metric(ranch_->open.checked.ranch.settings);
    model_->set_rows(shown.role, rows_of(ranch_.get(), shown.role), metric);
    // What stands on the map is drawn there.
    const RoleInfo* role = find_role(shown.role);
    add_->setEnabled(ranch_ && role != nullptr && role->shape == RoleShape::none);
    take_out_->setEnabled(ranch_ != nullptr);
}

void TablesPanel::pick(const std::string& uuid) {
    for (int row = 0; row < model_->rowCount(); ++row) {
        if (model_->row(row).uuid != uuid) continue;
        const QSignalBlocker quiet(this);
        table_->setCurrentIndex(model_->index(row, std::max(0, table_->currentIndex().column())));
        return;
    }
}

void TablesPanel::add_row() {
    const auto columns = columns_of(model_->role());
    RowEdit edit{.role = model_->role()};
    if (!columns.empty() && columns.front()->required) {
        bool given = false;
        const QString name =
            QInputDialog::getText(this, tr("Add to %1").arg(roles_->currentText().toLower()),
                                  tr("Its name"), QLineEdit::Normal, {}, &given);
        if (!given || name.trimmed().isEmpty()) return;
        edit.fields[std::string(columns.front()->book)] = name.trimmed().toStdString();
    }
    emit edit_wanted(tr("add to %1").arg(roles_->currentText().toLower()), {edit});
}

void TablesPanel::take_out() {
    const std::vector<RowEdit> edits = take_out_picked(*table_, *model_);
    if (!edits.empty())
        emit edit_wanted(tr("take out of %1").arg(roles_->currentText().toLower()), edits);
}

}  // namespace haylane
