#include "app/desktop/ranch/add_dialogs.h"

#include "app/desktop/dialog_buttons.h"
#include "app/desktop/file_names.h"
#include "app/desktop/ranch/row_table_model.h"
#include "core/ranch/ranch.h"
#include "gis/book/read_folder.h"

#include <QComboBox>
#include <QFileDialog>
#include <QFormLayout>
#include <QHBoxLayout>
#include <QLabel>
#include <QLineEdit>
#include <QScrollArea>
#include <QVBoxLayout>

namespace haylane {
namespace {

QString to_q(std::string_view text) {
    return QString::fromUtf8(text.data(), static_cast<qsizetype>(text.size()));
}

}  // namespace

AddDialog::AddDialog(const std::string& role, const QString& what, QWidget* parent)
    : QDialog(parent), role_(role), name_(new QLineEdit) {
    setWindowTitle(tr("Add %1").arg(what));
    auto* form = new QFormLayout(this);
    form->addRow(tr("&Name"), name_);
    if (role == "off_limits") {
        kind_ = new QComboBox;
        for (const auto kind :
             {OffLimitsKind::water, OffLimitsKind::well, OffLimitsKind::building,
              OffLimitsKind::wetland, OffLimitsKind::buried_line, OffLimitsKind::other})
            kind_->addItem(to_q(to_string(kind)).replace("_", " "), to_q(to_string(kind)));
        form->addRow(tr("&Kind"), kind_);
        auto* note = new QLabel(tr("Setbacks follow the settings; local code may ask for more."));
        note->setWordWrap(true);
        form->addRow(note);
    }
    form->addRow(dialog_buttons(*this, tr("&Add")).box);
    name_->setFocus();
}

RowEdit AddDialog::edit() const {
    RowEdit edit{.role = role_};
    const std::string name = name_->text().trimmed().toStdString();
    if (!name.empty()) edit.fields["name"] = name;
    if (kind_ != nullptr) edit.fields["kind"] = kind_->currentData().toString().toStdString();
    return edit;
}

ColumnsDialog::ColumnsDialog(const RoleInfo& role, const SourceLayer& layer, QWidget* parent)
    : QDialog(parent), role_(role.name) {
    setWindowTitle(tr("Which column is which"));
    const auto match = match_columns(role, layer, {});
    auto* rows = new QWidget;
    auto* form = new QFormLayout(rows);
    for (const ColumnSpec* spec : columns_of(role.name)) {
        Choice choice{.spec = spec, .column = new QComboBox};
        choice.column->addItem(tr("– not in the file –"), QString());
        for (const std::string& name : layer.columns)
            choice.column->addItem(QString::fromStdString(name), QString::fromStdString(name));
        auto* both = new QWidget;
        auto* row = new QHBoxLayout(both);
        row->setContentsMargins(0, 0, 0, 0);
        row->addWidget(choice.column, 1);
        const QString units = to_q(unit_choices(spec->dimension));
        if (!units.isEmpty() && spec->bare_unit.empty()) {
            choice.unit = new QComboBox;
            choice.unit->addItem(tr("unit as named"), QString());
            for (const QString& unit : units.split(", "))
                choice.unit->addItem(unit.mid(1), unit.mid(1));
            row->addWidget(choice.unit);
        }
        if (match)
            for (const ColumnUse& use : match->uses)
                if (use.spec == spec) choice.column->setCurrentIndex(static_cast<int>(use.at) + 1);
        const QString star = spec->required ? " *" : "";
        form->addRow(column_words(spec->base) + star, both);
        choices_.push_back(choice);
    }
    auto* scroll = new QScrollArea;
    scroll->setWidget(rows);
    scroll->setWidgetResizable(true);
    auto* column = new QVBoxLayout(this);
    column->addWidget(new QLabel(tr("%1, rows: %2. Columns with * are needed.")
                                     .arg(QString::fromStdString(layer.file))
                                     .arg(layer.rows.size())));
    column->addWidget(scroll, 1);
    column->addWidget(dialog_buttons(*this, tr("&Read the rows")).box);
    resize(520, 480);
}

std::vector<ColumnAlias> ColumnsDialog::aliases() const {
    std::vector<ColumnAlias> all;
    for (const Choice& choice : choices_) {
        const std::string name = choice.column->currentData().toString().toStdString();
        if (name.empty()) continue;
        const std::string unit =
            choice.unit == nullptr ? "" : choice.unit->currentData().toString().toStdString();
        const std::string base(choice.spec->base);
        const std::string tail(choice.spec->tail);
        // A name that says its unit needs no help.
        if (unit.empty() && plain_heading(name).starts_with(base)) continue;
        all.push_back({role_, base + tail, name, unit});
    }
    return all;
}

Result<BookRows> ask_for_rows(const RoleInfo& role, QWidget* parent) {
    const QString chosen = QFileDialog::getOpenFileName(
        parent, QObject::tr("Read rows from a file"), {},
        QObject::tr("Tables and maps (*.csv *.tsv *.geojson *.json *.gpkg *.shp *.kml *.gpx)"));
    if (chosen.isEmpty()) return BookRows{};
    const auto layers = read_role_file(to_path(chosen), role);
    if (!layers) return fail(layers.error());
    for (const SourceLayer& layer : *layers) {
        if (layer.rows.empty()) continue;
        ColumnsDialog dialog(role, layer, parent);
        if (dialog.exec() != QDialog::Accepted) return BookRows{};
        return book_rows(role, layer, dialog.aliases());
    }
    return fail({"nothing_to_read", "The file holds no rows.", chosen.toStdString(),
                 "Choose another file."});
}

}  // namespace haylane
