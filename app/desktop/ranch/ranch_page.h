#pragma once
// The ranch: its map to draw and edit, its tables and settings, and what is missing or odd in it,
// each problem leading to its place. Every change is one step to undo.

#include "app/desktop/jobs/book_desk.h"
#include "app/desktop/map/drawing.h"
#include "app/desktop/map/map_view_widget.h"
#include "app/desktop/ranch/settings_panel.h"
#include "app/desktop/ranch/shape_hand.h"
#include "app/desktop/ranch/tables_panel.h"
#include "app/desktop/side_panel.h"

#include <memory>

#include <QWidget>

class QLabel;
class QMenu;
class QPushButton;
class QTabWidget;

namespace haylane {

class RanchPage : public QWidget {
    Q_OBJECT

  public:
    // The desk must outlive it.
    explicit RanchPage(BookDesk& desk, QWidget* parent = nullptr);

    // nullptr = none.
    void set_ranch(std::shared_ptr<const ShownRanch> ranch);
    // The same book, changed.
    void update_ranch(std::shared_ptr<const ShownRanch> ranch);
    [[nodiscard]] MapViewWidget* map() const { return map_; }
    [[nodiscard]] ShapeHand& hand() const { return *hand_; }
    [[nodiscard]] TablesPanel& tables() const { return *tables_; }
    [[nodiscard]] SettingsPanel& settings() const { return *settings_; }

    // Starts drawing; asks for the name when it is drawn.
    void draw(const std::string& role);
    void split_picked();
    void join_picked(const std::string& uuid);
    void edit(const QString& what, const std::vector<RowEdit>& edits);

  signals:
    void failed(const haylane::Error& error);

  private:
    [[nodiscard]] QWidget* make_side();
    void start_drawing(DrawTool::Shape shape, const QString& help, DrawTool::Done done);
    void add_drawn(const std::string& role, const Polyline& drawn);
    void show_rows();
    void show_picked();
    void go_to(const QString& where);
    void read_file(const QString& role);
    [[nodiscard]] const RawRow* raw_row(const std::string& role, const std::string& uuid) const;

    BookDesk& desk_;
    std::shared_ptr<const ShownRanch> ranch_;
    MapViewWidget* map_;
    ShapeHand* hand_;
    Drawing drawing_;
    QPushButton* draw_;
    QPushButton* split_;
    QPushButton* join_;
    QPushButton* take_out_;
    QMenu* join_menu_;
    QLabel* note_;
    QTabWidget* tabs_;
    SidePanel* side_;
    TablesPanel* tables_;
    SettingsPanel* settings_;
};

}  // namespace haylane
