#pragma once
// The week: the days' lines on the map, and a card for every feeding beside it. Plans when asked,
// with progress and a stop; takes the user's hand (hold, another way, a line moved or drawn, ground
// closed, a day recorded), plans again round it, and gives the sheet and the lines away.

#include "app/desktop/jobs/book_desk.h"
#include "app/desktop/jobs/plan_job.h"
#include "app/desktop/map/drawing.h"
#include "app/desktop/map/map_view_widget.h"
#include "app/desktop/week/card_list.h"
#include "app/desktop/week/line_hand.h"
#include "app/desktop/week/week_asked.h"
#include "app/session/hold.h"
#include "app/session/record_done.h"

#include <map>
#include <memory>
#include <optional>

#include <QWidget>

class QLabel;
class QMenu;
class QPushButton;
class QToolButton;

namespace haylane {

class WeekPage : public QWidget {
    Q_OBJECT

  public:
    // The desk must outlive it.
    explicit WeekPage(BookDesk& desk, QWidget* parent = nullptr);

    // Shows the ranch without a plan; nullptr = none.
    void set_ranch(std::shared_ptr<const ShownRanch> ranch);
    // The same book, changed.
    void update_ranch(std::shared_ptr<const ShownRanch> ranch);
    void plan();
    [[nodiscard]] bool busy() const { return job_->busy() || next_.has_value(); }
    // nullptr until there is one.
    [[nodiscard]] const std::shared_ptr<ShownPlan>& shown() const { return plan_; }
    // As the cards have them: the plan's, or moved by hand since.
    [[nodiscard]] const std::vector<PlannedFeeding>& feedings() const { return feedings_; }
    [[nodiscard]] MapViewWidget* map() const { return map_; }

    void hold(std::size_t feeding, bool line_only);
    void let_go(std::size_t feeding);
    void ask_another(std::size_t feeding);
    void record_fed(const DoneRequest& request);
    // `moved`: the planner's word on these lines.
    void lay_at(std::size_t feeding, const MultiPolyline& lines, const MovedLines& moved);
    void close_ground(const MultiPolygon& area, const CloseRequest& request);
    void open_ground(const StoredHold& closed);

  signals:
    void failed(const haylane::Error& error);
    void said(const QStringList& sentences);

  private:
    struct Follow {
        int at = 0;  // the undo stack's place when it was asked for
        QString what;
    };

    [[nodiscard]] QWidget* make_side();
    void connect_cards();
    void connect_hand();
    void draw_line(std::size_t feeding);
    void draw_closed();
    void fed_otherwise(std::size_t feeding);
    void start(PlanOrder order, const QString& what, bool follows);
    void plan_again(std::optional<PlanOrder::Another> another, const QString& what, bool follows);
    void run_next();
    void take_plan(std::shared_ptr<ShownPlan> plan);
    void show_plan(std::shared_ptr<ShownPlan> plan);
    void show_all();
    void show_cards();
    void show_closed();
    void show_busy();
    void show_note(const QString& html);
    void show_moved(std::size_t feeding, const MovedLines& moved);
    void put_aside(std::size_t feeding, const std::optional<PlannedFeeding>& moved);
    void pick(std::size_t feeding);
    void save_sheet();
    void save_lines();
    void print_sheet();
    [[nodiscard]] QString day_and_herd(std::size_t feeding) const;
    [[nodiscard]] CardMarks marks_of(std::size_t feeding) const;

    BookDesk& desk_;
    PlanJob* job_;
    std::shared_ptr<const ShownRanch> ranch_;
    std::shared_ptr<ShownPlan> plan_;
    std::map<std::size_t, PlannedFeeding> moved_;  // by hand, since the plan was made
    std::vector<PlannedFeeding> feedings_;         // the plan's, with those moved
    std::optional<PlanOrder> next_;                // waits for the plan under way to stop
    Follow follow_;                                // of the plan under way
    Follow next_follow_;
    MapViewWidget* map_;
    WeekAsked* asked_;
    LineHand* hand_;
    Drawing drawing_;
    QPushButton* give_;
    QToolButton* close_;
    QMenu* close_menu_;
    QLabel* note_;
    QLabel* summary_;
    CardList* cards_;
};

}  // namespace haylane
