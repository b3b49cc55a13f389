#include "app/desktop/ranch/ranch_page.h"

#include "app/desktop/map/map_beside.h"
#include "app/desktop/ranch/add_dialogs.h"
#include "app/papers/words.h"
#include "core/geometry/split_shape.h"
#include "core/plan/spoken.h"
#include "gis/book/roles.h"

#include <array>

#include <QHBoxLayout>
#include <QLabel>
#include <QMenu>
#include <QPushButton>
#include <QSplitter>
#include <QTabWidget>
#include <QVBoxLayout>

namespace haylane {
namespace {

struct Drawable {
    const char* role;
    const char* what;
    DrawTool::Shape shape;
};

constexpr std::array kDrawables{
    Drawable{"pastures", QT_TR_NOOP("a pasture"), DrawTool::Shape::area},
    Drawable{"gates", QT_TR_NOOP("a gate"), DrawTool::Shape::point},
    Drawable{"yards", QT_TR_NOOP("a stack yard"), DrawTool::Shape::point},
    Drawable{"trails", QT_TR_NOOP("a trail"), DrawTool::Shape::line},
    Drawable{"water", QT_TR_NOOP("water to drink at"), DrawTool::Shape::point},
    Drawable{"off_limits", QT_TR_NOOP("ground off limits"), DrawTool::Shape::area},
    Drawable{"shelter", QT_TR_NOOP("shelter"), DrawTool::Shape::area},
    Drawable{"soft", QT_TR_NOOP("soft ground"), DrawTool::Shape::area},
};

const Drawable& drawable(const std::string& role) {
    for (const Drawable& one : kDrawables)
        if (role == one.role) return one;
    return kDrawables.front();
}

RowShape shape_of(DrawTool::Shape kind, const Polyline& drawn) {
    switch (kind) {
        case DrawTool::Shape::point:
            return drawn.front();
        case DrawTool::Shape::line:
            return MultiPolyline{drawn};
        default:
            return MultiPolygon{{drawn, {}}};
    }
}

}  // namespace

RanchPage::RanchPage(BookDesk& desk, QWidget* parent)
    : QWidget(parent),
      desk_(desk),
      map_(new MapViewWidget),
      hand_(new ShapeHand(this)),
      drawing_(*map_, *hand_),
      draw_(new QPushButton(tr("&Draw"))),
      split_(new QPushButton(tr("&Split"))),
      join_(new QPushButton(tr("&Join"))),
      take_out_(new QPushButton(tr("Take &out"))),
      join_menu_(new QMenu(join_)),
      note_(new QLabel),
      tabs_(new QTabWidget),
      side_(new SidePanel),
      tables_(new TablesPanel),
      settings_(new SettingsPanel) {
    auto* page = new QVBoxLayout(this);
    page->setContentsMargins(0, 0, 0, 0);
    page->addWidget(map_beside(map_, make_side(), 820, 440));
    map_->set_tool(hand_);
    connect(hand_, &ShapeHand::edit_wanted, this, &RanchPage::edit);
    connect(hand_, &ShapeHand::picked_changed, this, &RanchPage::show_picked);
    connect(tables_, &TablesPanel::edit_wanted, this, &RanchPage::edit);
    connect(tables_, &TablesPanel::import_wanted, this, &RanchPage::read_file);
    connect(tables_, &TablesPanel::failed, this, &RanchPage::failed);
    connect(tables_, &TablesPanel::picked, this, [this](const QString& uuid) {
        hand_->pick(uuid.toStdString());
        map_->update();
    });
    connect(settings_, &SettingsPanel::edit_wanted, this, &RanchPage::edit);
    connect(side_, &SidePanel::place_wanted, this, &RanchPage::go_to);
    connect(split_, &QPushButton::clicked, this, &RanchPage::split_picked);
    connect(take_out_, &QPushButton::clicked, this, [this] {
        const DrawnRow* row = hand_->picked();
        if (row == nullptr) return;
        edit(tr("take out %1").arg(QString::fromStdString(row->name)),
             {{.role = row->role, .uuid = row->uuid, .take_out = true}});
    });
    show_picked();
}

QWidget* RanchPage::make_side() {
    auto* draw_menu = new QMenu(draw_);
    for (const Drawable& one : kDrawables)
        draw_menu->addAction(tr("Draw %1").arg(tr(one.what)), this,
                             [this, role = std::string(one.role)] { draw(role); });
    draw_->setMenu(draw_menu);
    split_->setToolTip(tr("Cut the pasture picked in two along a line that you draw"));
    join_->setToolTip(tr("Make one pasture of the one picked and a neighbour"));
    join_->setMenu(join_menu_);
    take_out_->setToolTip(tr("Take what is picked off the map and out of the book"));
    note_->setWordWrap(true);
    note_->setObjectName("note");
    note_->setAccessibleName(tr("What is picked"));
    tabs_->addTab(side_, tr("Problems"));
    tabs_->addTab(tables_, tr("Tables"));
    tabs_->addTab(settings_, tr("Settings"));
    auto* buttons = new QHBoxLayout;
    for (QPushButton* one : {draw_, split_, join_, take_out_}) buttons->addWidget(one);
    buttons->addStretch(1);
    auto* side = new QWidget;
    auto* column = new QVBoxLayout(side);
    column->setContentsMargins(10, 10, 6, 8);
    column->addLayout(buttons);
    column->addWidget(note_);
    column->addWidget(tabs_, 1);
    side->setMinimumWidth(380);
    return side;
}

void RanchPage::set_ranch(std::shared_ptr<const ShownRanch> ranch) {
    drawing_.end();
    ranch_ = std::move(ranch);
    map_->set_ranch(ranch_);
    show_rows();
}

void RanchPage::update_ranch(std::shared_ptr<const ShownRanch> ranch) {
    ranch_ = std::move(ranch);
    map_->update_ranch(ranch_);
    show_rows();
}

void RanchPage::show_rows() {
    hand_->set_rows(ranch_ ? drawn_rows(ranch_->open.raw) : std::vector<DrawnRow>{});
    if (ranch_) side_->set_ranch(*ranch_);
    tables_->set_ranch(ranch_);
    settings_->set_ranch(ranch_);
    draw_->setEnabled(ranch_ != nullptr);
    show_picked();
}

void RanchPage::show_picked() {
    const DrawnRow* row = hand_->picked();
    const bool pasture = row != nullptr && row->role == "pastures";
    split_->setEnabled(pasture);
    take_out_->setEnabled(row != nullptr);
    join_menu_->clear();
    for (const DrawnRow& other : hand_->rows()) {
        if (!pasture || other.role != "pastures" || other.uuid == row->uuid) continue;
        join_menu_->addAction(tr("with %1").arg(QString::fromStdString(other.name)), this,
                              [this, uuid = other.uuid] { join_picked(uuid); });
    }
    join_->setEnabled(!join_menu_->isEmpty());
    if (drawing_.under_way()) return;
    if (row == nullptr) {
        note_->setText(tr("Click something on the map to pick it, or draw something new."));
        return;
    }
    QString text =
        "<b>" + QString::fromStdString(row->name.empty() ? row->role : row->name).toHtmlEscaped() +
        "</b>";
    if (const auto* area = std::get_if<MultiPolygon>(&row->shape))
        text += ", " + QString::fromStdString(words::area(
                           area_m2(*area), speaks_metric(ranch_->open.checked.ranch.settings)));
    const bool point = corners_of(row->shape).size() == 1;
    text += "<br>" + (point ? tr("Drag it to its place.")
                            : tr("Drag a corner; double click on the line sets one, Delete takes "
                                 "the one picked away."));
    note_->setText(text);
    tables_->show_role(row->role);
    tables_->pick(row->uuid);
}

void RanchPage::edit(const QString& what, const std::vector<RowEdit>& edits) {
    desk_.edit(what, edits);
}

void RanchPage::start_drawing(DrawTool::Shape shape, const QString& help, DrawTool::Done done) {
    drawing_.start(
        shape,
        [this, done = std::move(done)](std::optional<Polyline> drawn) {
            show_picked();
            done(std::move(drawn));
        },
        [this](const MapViewWidget& map, Point p) { return hand_->snapped_to_fences(map, p); });
    note_->setText(help.toHtmlEscaped());
}

void RanchPage::draw(const std::string& role) {
    const Drawable& what = drawable(role);
    const QString help =
        what.shape == DrawTool::Shape::point
            ? tr("Click where %1 is; Esc gives it up.").arg(tr(what.what))
            : tr("Click round or along %1; double click or Enter ends it, Backspace takes a corner "
                 "back, Esc gives it up. Corners go to fences near them.")
                  .arg(tr(what.what));
    start_drawing(what.shape, help, [this, role](std::optional<Polyline> drawn) {
        if (drawn) add_drawn(role, *drawn);
    });
}

void RanchPage::add_drawn(const std::string& role, const Polyline& drawn) {
    const Drawable& what = drawable(role);
    AddDialog dialog(role, tr(what.what), this);
    if (dialog.exec() != QDialog::Accepted) return;
    RowEdit edit_row = dialog.edit();
    edit_row.shape = shape_of(what.shape, drawn);
    edit(tr("draw %1").arg(tr(what.what)), {edit_row});
}

void RanchPage::split_picked() {
    const DrawnRow* row = hand_->picked();
    if (row == nullptr || row->role != "pastures") return;
    start_drawing(
        DrawTool::Shape::line,
        tr("Draw the new fence across %1, from fence to fence; double click or Enter ends it.")
            .arg(QString::fromStdString(row->name)),
        [this, uuid = row->uuid, name = row->name](std::optional<Polyline> drawn) {
            const RawRow* raw = drawn ? raw_row("pastures", uuid) : nullptr;
            const auto* shape = raw ? std::get_if<MultiPolygon>(&raw->shape) : nullptr;
            if (shape == nullptr) return;
            const auto parts = split_shape(*shape, *drawn);
            if (!parts) {
                emit failed(parts.error());
                return;
            }
            std::vector<RowEdit> edits;
            for (std::size_t i = 0; i < parts->size(); ++i) {
                RowEdit part{.role = "pastures", .shape = (*parts)[i]};
                if (i == 0) {
                    part.uuid = uuid;
                } else {
                    part.fields = raw->fields;
                    part.fields["name"] = name + " " + std::to_string(i + 1);
                }
                edits.push_back(std::move(part));
            }
            edit(tr("split %1").arg(QString::fromStdString(name)), edits);
        });
}

void RanchPage::join_picked(const std::string& uuid) {
    const DrawnRow* row = hand_->picked();
    const RawRow* own = row == nullptr ? nullptr : raw_row("pastures", row->uuid);
    const RawRow* other = raw_row("pastures", uuid);
    if (own == nullptr || other == nullptr) return;
    const auto* a = std::get_if<MultiPolygon>(&own->shape);
    const auto* b = std::get_if<MultiPolygon>(&other->shape);
    if (a == nullptr || b == nullptr) return;
    const auto joined = join_shapes({*a, *b});
    if (!joined) {
        emit failed(joined.error());
        return;
    }
    edit(tr("join %1 and %2")
             .arg(QString::fromStdString(own->text("name")),
                  QString::fromStdString(other->text("name"))),
         {{.role = "pastures", .uuid = row->uuid, .shape = *joined},
          {.role = "pastures", .uuid = uuid, .take_out = true, .into = own->text("name")}});
}

const RawRow* RanchPage::raw_row(const std::string& role, const std::string& uuid) const {
    for (const RawRow& row : rows_of(ranch_.get(), role))
        if (row.uuid == uuid) return &row;
    return nullptr;
}

// To the row that a problem speaks of, in its table and on the map.
void RanchPage::go_to(const QString& where) {
    if (!ranch_) return;
    for (const auto& [role, rows] : ranch_->open.raw.roles) {
        for (const RawRow& row : rows) {
            if (QString::fromStdString(row.where) != where) continue;
            tables_->show_role(role);
            tables_->pick(row.uuid);
            hand_->pick(row.uuid);
            const auto corners = corners_of(row.shape);
            if (!corners.empty()) map_->look_at(corners);
            return;
        }
    }
}

void RanchPage::read_file(const QString& role) {
    const RoleInfo* info = find_role(role.toStdString());
    if (info == nullptr || !ranch_) return;
    const auto rows = ask_for_rows(*info, this);
    if (!rows) {
        emit failed(rows.error());
    } else if (!rows->rows.empty()) {
        edit(tr("read rows of %1").arg(role),
             edits_of(role.toStdString(), *rows, ranch_->open.frame));
    }
}

}  // namespace haylane
