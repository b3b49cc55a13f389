#include "app/desktop/week/week_page.h"

#include "app/desktop/map/map_beside.h"
#include "app/desktop/week/day_dialogs.h"
#include "app/desktop/week/week_words.h"
#include "app/papers/words.h"
#include "app/session/find_named.h"
#include "core/plan/spoken.h"

#include <algorithm>

#include <QHBoxLayout>
#include <QLabel>
#include <QMenu>
#include <QPushButton>
#include <QSplitter>
#include <QToolButton>
#include <QVBoxLayout>

namespace haylane {
namespace {

const std::vector<std::string> kHoldTables{"locks"};
const std::vector<std::string> kFedTables{"feedings", "feeding_bales", "feeding_lines", "hay"};

}  // namespace

WeekPage::WeekPage(BookDesk& desk, QWidget* parent)
    : QWidget(parent),
      desk_(desk),
      job_(new PlanJob(this)),
      map_(new MapViewWidget),
      asked_(new WeekAsked),
      hand_(new LineHand(this)),
      drawing_(*map_, *hand_),
      give_(new QPushButton(tr("Sheet and lines"))),
      close_(new QToolButton),
      close_menu_(new QMenu(close_)),
      note_(new QLabel),
      summary_(new QLabel),
      cards_(new CardList) {
    auto* page = new QVBoxLayout(this);
    page->setContentsMargins(0, 0, 0, 0);
    page->addWidget(map_beside(map_, make_side(), 840, 420));
    map_->set_tool(hand_);
    connect(asked_, &WeekAsked::plan_wanted, this, &WeekPage::plan);
    connect(asked_, &WeekAsked::stop_wanted, this, [this] {
        next_.reset();
        job_->stop();
    });
    connect(job_, &PlanJob::progressed, asked_, &WeekAsked::show_progress);
    connect(job_, &PlanJob::planned, this, &WeekPage::take_plan);
    connect(job_, &PlanJob::failed, this, [this](const Error& error) {
        if (error.code != "cancelled") emit failed(error);
        run_next();
    });
    connect(&desk_, &BookDesk::busy_changed, this, &WeekPage::show_busy);
    connect_cards();
    connect_hand();
    show_busy();
}

QWidget* WeekPage::make_side() {
    give_->setToolTip(tr("The sheet for the cab door, and the lines for a phone or a cab display"));
    auto* give_menu = new QMenu(give_);
    give_menu->addAction(tr("&Print the sheet…"), this, &WeekPage::print_sheet);
    give_menu->addAction(tr("&Save the sheet as PDF…"), this, &WeekPage::save_sheet);
    give_menu->addAction(tr("Save the &lines (GPX, GeoJSON, KML)…"), this, &WeekPage::save_lines);
    give_->setMenu(give_menu);
    close_->setText(tr("Close ground"));
    close_->setPopupMode(QToolButton::MenuButtonPopup);
    close_->setToolTip(tr("Draw ground on the map that no hay is to be laid on for some days"));
    close_->setMenu(close_menu_);
    connect(close_, &QToolButton::clicked, this, &WeekPage::draw_closed);
    note_->setObjectName("note");
    note_->setWordWrap(true);
    note_->setTextFormat(Qt::RichText);
    note_->setFrameShape(QFrame::StyledPanel);
    note_->setMargin(8);
    note_->setAccessibleName(tr("What moving the line changes"));
    note_->hide();
    summary_->setWordWrap(true);
    summary_->setAccessibleName(tr("The days together"));
    auto* actions = new QHBoxLayout;
    actions->addWidget(give_);
    actions->addWidget(close_);
    actions->addStretch(1);
    auto* side = new QWidget;
    auto* column = new QVBoxLayout(side);
    column->setContentsMargins(12, 10, 4, 8);
    column->addWidget(asked_);
    column->addLayout(actions);
    column->addWidget(summary_);
    column->addWidget(note_);
    column->addWidget(cards_, 1);
    side->setMinimumWidth(360);
    return side;
}

void WeekPage::connect_cards() {
    connect(cards_, &CardList::picked, this, &WeekPage::pick);
    connect(cards_, &CardList::hold_wanted, this, &WeekPage::hold);
    connect(cards_, &CardList::let_go_wanted, this, &WeekPage::let_go);
    connect(cards_, &CardList::another_wanted, this, &WeekPage::ask_another);
    connect(cards_, &CardList::drawing_wanted, this, &WeekPage::draw_line);
    connect(cards_, &CardList::fed_otherwise_wanted, this, &WeekPage::fed_otherwise);
    connect(cards_, &CardList::fed_wanted, this, [this](std::size_t feeding) {
        const PlannedFeeding& f = feedings_[feeding];
        record_fed(
            {.date = f.date, .herd = plan_->open.checked.ranch[f.herd].name, .as_planned = true});
    });
}

void WeekPage::connect_hand() {
    connect(hand_, &LineHand::picked, this, &WeekPage::pick);
    connect(hand_, &LineHand::moving, this, &WeekPage::show_moved);
    connect(hand_, &LineHand::given_up, note_, &QLabel::hide);
    connect(hand_, &LineHand::failed, this, &WeekPage::failed);
    connect(hand_, &LineHand::dropped, this, &WeekPage::lay_at);
}

void WeekPage::set_ranch(std::shared_ptr<const ShownRanch> ranch) {
    drawing_.end();
    next_.reset();
    if (job_->busy()) job_->stop();
    ranch_ = std::move(ranch);
    map_->set_ranch(ranch_);
    asked_->set_ranch(ranch_ ? &ranch_->open.checked.ranch : nullptr);
    show_closed();
    show_plan(nullptr);
    show_busy();
}

void WeekPage::update_ranch(std::shared_ptr<const ShownRanch> ranch) {
    ranch_ = std::move(ranch);
    map_->update_ranch(ranch_);
    show_closed();
    show_cards();
}

void WeekPage::plan() {
    if (!ranch_) return;
    start({.book = ranch_->open.book, .request = asked_->request()}, tr("plan these days"), false);
}

void WeekPage::plan_again(std::optional<PlanOrder::Another> another, const QString& what,
                          bool follows) {
    if (!plan_) return;
    start({.book = ranch_->open.book, .request = plan_->request, .another = another}, what,
          follows);
}

void WeekPage::start(PlanOrder order, const QString& what, bool follows) {
    next_ = std::move(order);
    next_follow_ = {follows ? desk_.undo_stack()->index() : -1, what};
    if (job_->busy()) {
        job_->stop();
    } else {
        run_next();
    }
    show_busy();
}

void WeekPage::run_next() {
    if (next_ && ranch_) {
        follow_ = next_follow_;
        const PlanOrder order = *std::exchange(next_, std::nullopt);
        if (!job_->start(order)) next_ = order;
    }
    show_busy();
}

void WeekPage::take_plan(std::shared_ptr<ShownPlan> plan) {
    // Another book, or none, may have been opened meanwhile.
    if (ranch_ && plan->open.book == ranch_->open.book) {
        const auto show = [this, before = plan_, after = plan](bool back) {
            show_plan(back ? before : after);
        };
        const bool follows = follow_.at == desk_.undo_stack()->index();
        desk_.add_step(follow_.what, std::move(plan->in_book), show, follows);
        show_plan(std::move(plan));
    }
    run_next();
}

void WeekPage::show_plan(std::shared_ptr<ShownPlan> plan) {
    plan_ = std::move(plan);
    moved_.clear();
    note_->hide();
    show_all();
}

void WeekPage::show_all() {
    feedings_.clear();
    if (plan_) {
        feedings_ = plan_->kept.result.plan.feedings;
        for (const auto& [feeding, moved] : moved_) feedings_[feeding] = moved;
        Plan shown = plan_->kept.result.plan;
        shown.feedings = feedings_;
        map_->set_content(map_content(shown, plan_->open.checked.ranch));
    } else {
        map_->set_content({});
    }
    hand_->set_feedings(plan_ ? &feedings_ : nullptr, plan_ ? plan_->mover.get() : nullptr);
    show_cards();
    show_busy();
}

void WeekPage::show_cards() {
    if (!plan_) {
        cards_->clear();
        summary_->setText(ranch_ ? tr("Choose the first day and press Plan these days.") : "");
        return;
    }
    const Ranch& ranch = plan_->open.checked.ranch;
    summary_->setText(summary_html(plan_->kept.result.plan, ranch));
    std::vector<CardMarks> marks;
    for (std::size_t f = 0; f < feedings_.size(); ++f) marks.push_back(marks_of(f));
    cards_->set_feedings(feedings_, ranch, marks);
    cards_->pick(hand_->selected());
}

CardMarks WeekPage::marks_of(std::size_t feeding) const {
    const PlannedFeeding& f = feedings_[feeding];
    const std::string& herd = plan_->open.checked.ranch[f.herd].name;
    const Ranch& now = ranch_->open.checked.ranch;
    CardMarks marks{.moved = moved_.contains(feeding)};
    for (const StoredHold& hold : ranch_->holds)
        if (hold.kind != HoldKind::forbid && hold.herd == herd && hold.date == f.date)
            marks.held = true;
    if (const auto found = find_named(now.herds, herd))
        marks.fed = on_record(now, HerdId::at(*found), f.date);
    return marks;
}

void WeekPage::show_closed() {
    MultiPolygon closed;
    close_menu_->clear();
    if (ranch_) {
        for (const StoredHold& hold : ranch_->holds) {
            if (hold.kind != HoldKind::forbid) continue;
            closed.insert(closed.end(), hold.area.begin(), hold.area.end());
            close_menu_->addAction(tr("Open %1 again").arg(hold_text(hold)), this,
                                   [this, hold] { open_ground(hold); });
        }
    }
    if (close_menu_->isEmpty())
        close_menu_->addAction(tr("No ground is closed"))->setEnabled(false);
    hand_->set_closed(std::move(closed));
    map_->update();
}

void WeekPage::show_busy() {
    asked_->set_planning(busy());
    give_->setEnabled(plan_ != nullptr);
    close_->setEnabled(ranch_ != nullptr);
}

void WeekPage::show_note(const QString& html) {
    note_->setText(html);
    note_->setVisible(!html.isEmpty());
}

void WeekPage::show_moved(std::size_t feeding, const MovedLines& moved) {
    show_note(moved_html(day_and_herd(feeding), moved, plan_->open.checked.ranch));
}

void WeekPage::pick(std::size_t feeding) {
    hand_->select(feeding);
    cards_->pick(feeding);
    map_->update();
}

QString WeekPage::day_and_herd(std::size_t feeding) const {
    const PlannedFeeding& f = feedings_[feeding];
    return QString::fromStdString(words::short_date(f.date) + ", " +
                                  plan_->open.checked.ranch[f.herd].name);
}

void WeekPage::hold(std::size_t feeding, bool line_only) {
    const PlannedFeeding& f = feedings_[feeding];
    const HoldRequest request{
        .date = f.date, .herd = plan_->open.checked.ranch[f.herd].name, .line_only = line_only};
    desk_.carry_out({.what = tr("hold %1").arg(day_and_herd(feeding)),
                     .tables = kHoldTables,
                     .work = [request](const OpenRanch& open) { return hold_day(open, request); }});
}

void WeekPage::let_go(std::size_t feeding) {
    const PlannedFeeding& f = feedings_[feeding];
    const std::string herd = plan_->open.checked.ranch[f.herd].name;
    desk_.carry_out({.what = tr("let go %1").arg(day_and_herd(feeding)),
                     .tables = kHoldTables,
                     .work = [herd, date = f.date](const OpenRanch& open) {
                         return haylane::let_go(open, herd, date);
                     }});
}

void WeekPage::ask_another(std::size_t feeding) {
    const PlannedFeeding& f = feedings_[feeding];
    plan_again(PlanOrder::Another{f.herd, f.date}, tr("another way, %1").arg(day_and_herd(feeding)),
               false);
}

void WeekPage::record_fed(const DoneRequest& request) {
    desk_.carry_out({.what = tr("record %1")
                                 .arg(QString::fromStdString(words::short_date(request.date) +
                                                             ", " + request.herd)),
                     .tables = kFedTables,
                     .work = [request](const OpenRanch& open) -> Result<std::vector<std::string>> {
                         auto report = record_done(open, request);
                         if (!report) return fail(report.error());
                         return std::move(report->sentences);
                     }});
}

// The feeding as it would stand shows at once; the days are planned again round it.
void WeekPage::lay_at(std::size_t feeding, const MultiPolyline& lines, const MovedLines& moved) {
    show_moved(feeding, moved);
    if (!moved.broken.empty() || moved.feeding.lines.empty()) return;
    const PlannedFeeding& f = feedings_[feeding];
    const HoldRequest request{
        .date = f.date, .herd = plan_->open.checked.ranch[f.herd].name, .lines = lines};
    std::optional<PlannedFeeding> before;
    if (const auto was = moved_.find(feeding); was != moved_.end()) before = was->second;
    const auto show = [this, of = std::weak_ptr(plan_), feeding, before,
                       after = moved.feeding](bool back) {
        if (plan_ == of.lock()) put_aside(feeding, back ? before : std::optional(after));
    };
    const QString what = tr("move the line of %1").arg(day_and_herd(feeding));
    show(false);
    desk_.carry_out({.what = what,
                     .tables = kHoldTables,
                     .work = [request](const OpenRanch& open) { return hold_day(open, request); },
                     .then = [this, what] { plan_again(std::nullopt, what, true); },
                     .show = show});
}

void WeekPage::put_aside(std::size_t feeding, const std::optional<PlannedFeeding>& moved) {
    moved_.erase(feeding);
    if (moved) moved_.emplace(feeding, *moved);
    show_all();
}

void WeekPage::close_ground(const MultiPolygon& area, const CloseRequest& request) {
    CloseRequest asked = request;
    asked.area = area;
    const QString what = tr("close ground");
    desk_.carry_out(
        {.what = what,
         .tables = kHoldTables,
         .work = [asked](const OpenRanch& open) { return haylane::close_ground(open, asked); },
         .then = [this, what] { plan_again(std::nullopt, what, true); }});
}

void WeekPage::open_ground(const StoredHold& closed) {
    const QString what = tr("open ground");
    desk_.carry_out({.what = what,
                     .tables = kHoldTables,
                     .work = [closed](const OpenRanch& open) -> Result<std::vector<std::string>> {
                         if (const auto done = release_holds(open.book, {closed.number}); !done)
                             return fail(done.error());
                         return std::vector<std::string>{"Opened " + describe_hold(closed) + "."};
                     },
                     .then = [this, what] { plan_again(std::nullopt, what, true); }});
}

void WeekPage::fed_otherwise(std::size_t feeding) {
    FedDialog dialog(feedings_[feeding], plan_->open.checked.ranch, this);
    if (dialog.exec() == QDialog::Accepted) record_fed(dialog.request());
}

}  // namespace haylane
