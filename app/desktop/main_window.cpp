#include "app/desktop/main_window.h"

#include "app/desktop/file_names.h"
#include "app/desktop/look.h"
#include "app/desktop/models/problem_model.h"
#include "app/desktop/new_ranch_dialog.h"
#include "app/desktop/recent_books.h"
#include "core/plan/spoken.h"

#include <cmath>

#include <QAction>
#include <QApplication>
#include <QDir>
#include <QDragEnterEvent>
#include <QFileDialog>
#include <QFileInfo>
#include <QFrame>
#include <QLabel>
#include <QMenuBar>
#include <QMimeData>
#include <QProgressBar>
#include <QPushButton>
#include <QStackedWidget>
#include <QStatusBar>
#include <QTabWidget>
#include <QVBoxLayout>

namespace haylane {
namespace {

constexpr int kSaid_ms = 12000;

struct Strip {
    QFrame* frame;
    QLabel* text;
};

// A strip across the window: a band of colour, a text, and what stands at its right end.
Strip make_strip(QColor ground, QColor band_color, QWidget* at_end) {
    auto* strip = new QFrame;
    strip->setAutoFillBackground(true);
    QPalette palette = strip->palette();
    palette.setColor(QPalette::Window, ground);
    strip->setPalette(palette);
    auto* band = new QFrame;
    band->setFixedWidth(5);
    band->setAutoFillBackground(true);
    band->setPalette(QPalette(band_color));
    auto* text = new QLabel;
    text->setWordWrap(true);
    text->setTextInteractionFlags(Qt::TextSelectableByMouse);
    auto* row = new QHBoxLayout(strip);
    row->setContentsMargins(6, 6, 12, 6);
    row->setSpacing(10);
    row->addWidget(band);
    row->addWidget(text, 1);
    row->addWidget(at_end, 0, Qt::AlignTop);
    strip->hide();
    return {strip, text};
}

// What in bold, then where, unless that has been said, and what to do.
QString as_rich_text(const Error& error) {
    QStringList lines{"<b>" + as_sentence(error.what).toHtmlEscaped() + "</b>"};
    if (!error.where.empty() && error.what.find(error.where) == std::string::npos) {
        lines << QString::fromStdString(error.where).toHtmlEscaped();
    }
    if (!error.remedy.empty()) lines << as_sentence(error.remedy).toHtmlEscaped();
    return lines.join("<br>");
}

// The pasture around a place, by name.
QString pasture_at(const Ranch& ranch, Point place) {
    for (const Pasture& pasture : ranch.pastures) {
        if (contains(pasture.shape, place)) return QString::fromStdString(pasture.name);
    }
    return MainWindow::tr("Outside the pastures");
}

QString degrees(double value, const char* positive, const char* negative) {
    return QString::number(std::abs(value), 'f', 5) + "° " + (value < 0.0 ? negative : positive);
}

}  // namespace

MainWindow::MainWindow(QWidget* parent)
    : QMainWindow(parent), job_(new OpenJob(this)), backdrop_(new Backdrop(this)) {
    auto* middle = new QWidget;
    auto* column = new QVBoxLayout(middle);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(0);
    make_strips(middle);
    start_page_ = new StartPage;
    make_book_pages();
    pages_ = new QStackedWidget;
    pages_->addWidget(start_page_);
    pages_->addWidget(book_pages_);
    column->addWidget(pages_, 1);
    setCentralWidget(middle);
    place_ = new QLabel;
    statusBar()->addWidget(place_, 1);
    statusBar()->addPermanentWidget(new QLabel(
        tr("Drag or arrow keys move the map; wheel, + and − zoom; F shows the whole ranch")));
    make_file_menu();
    make_edit_menu();
    make_view_menu();
    connect(start_page_, &StartPage::open_wanted, this, &MainWindow::ask_for_book);
    connect(start_page_, &StartPage::make_wanted, this, &MainWindow::ask_for_folder);
    connect(start_page_, &StartPage::draw_wanted, this, &MainWindow::ask_for_new_ranch);
    connect(start_page_, &StartPage::sample_wanted, this, &MainWindow::ask_for_sample);
    connect(start_page_, &StartPage::book_wanted, this, &MainWindow::open_any);
    for (const MapViewWidget* map : book_pages_->findChildren<MapViewWidget*>()) {
        connect(map, &MapViewWidget::pointed_at, this, &MainWindow::show_place);
        connect(map, &MapViewWidget::pointed_away, place_, &QLabel::clear);
    }
    connect(job_, &OpenJob::opened, this, &MainWindow::show_ranch);
    connect(job_, &OpenJob::failed, this, &MainWindow::show_error);
    connect(backdrop_, &Backdrop::read_done, this, &MainWindow::set_backdrop);
    connect(backdrop_, &Backdrop::failed, this, &MainWindow::show_error);
    connect(book_pages_, &QTabWidget::currentChanged, this, [this] { measuring_.end(); });
    setAcceptDrops(true);
    start_page_->set_recent(recent_books());
    resize(1280, 720);
    close_ranch();
}

// What goes first still speaks of its end; nobody is left to hear it.
MainWindow::~MainWindow() {
    desk_.undo_stack()->disconnect(this);
    desk_.disconnect(this);
}

void MainWindow::make_book_pages() {
    ranch_page_ = new RanchPage(desk_);
    week_page_ = new WeekPage(desk_);
    book_pages_ = new QTabWidget;
    book_pages_->setDocumentMode(true);
    book_pages_->setAccessibleName(tr("Pages"));
    ground_page_ = new GroundPage;
    book_pages_->addTab(week_page_, tr("Week"));
    book_pages_->addTab(ground_page_, tr("Ground"));
    hauls_page_ = new HaulsPage;
    book_pages_->addTab(hauls_page_, tr("Hauls"));
    trials_page_ = new TrialsPage(desk_);
    book_pages_->addTab(trials_page_, tr("Trials"));
    tracks_page_ = new TracksPage(desk_);
    book_pages_->addTab(tracks_page_, tr("Tracks"));
    book_pages_->addTab(ranch_page_, tr("Ranch"));
    const auto say = [this](const QStringList& sentences) {
        statusBar()->showMessage(sentences.join("  "), kSaid_ms);
    };
    connect(ground_page_, &GroundPage::failed, this, &MainWindow::show_error);
    connect(hauls_page_, &HaulsPage::failed, this, &MainWindow::show_error);
    connect(week_page_, &WeekPage::failed, this, &MainWindow::show_error);
    connect(week_page_, &WeekPage::said, this, say);
    connect(ranch_page_, &RanchPage::failed, this, &MainWindow::show_error);
    connect(trials_page_, &TrialsPage::failed, this, &MainWindow::show_error);
    connect(tracks_page_, &TracksPage::failed, this, &MainWindow::show_error);
    connect(&desk_, &BookDesk::failed, this, &MainWindow::show_error);
    connect(&desk_, &BookDesk::said, this, say);
    connect(&desk_, &BookDesk::changed, this, [this](std::shared_ptr<const ShownRanch> ranch) {
        ranch_ = std::move(ranch);
        metric_->setChecked(speaks_metric(ranch_->open.checked.ranch.settings));
        ranch_page_->update_ranch(ranch_);
        ground_page_->set_ranch(ranch_);
        hauls_page_->set_ranch(ranch_);
        trials_page_->set_ranch(ranch_);
        tracks_page_->update_ranch(ranch_);
        week_page_->update_ranch(ranch_);
    });
}

// nullptr on a page without one.
MapViewWidget* MainWindow::map_shown() const {
    return book_pages_->currentWidget()->findChild<MapViewWidget*>();
}

void MainWindow::show_page(QWidget* page) { book_pages_->setCurrentWidget(page); }

void MainWindow::make_strips(QWidget* parent) {
    auto* close = new QPushButton(tr("&Dismiss"));
    const Strip error = make_strip(QColor(0xf3, 0xd9, 0xc6), look::kRust, close);
    error_strip_ = error.frame;
    error_text_ = error.text;
    error_strip_->setAccessibleName(tr("Error"));
    connect(close, &QPushButton::clicked, error_strip_, &QFrame::hide);
    auto* running = new QProgressBar;
    running->setRange(0, 0);
    running->setTextVisible(false);
    running->setFixedSize(160, 14);
    const Strip busy = make_strip(QColor(0xf6, 0xe6, 0xb8), look::kHay, running);
    busy_strip_ = busy.frame;
    busy_text_ = busy.text;
    parent->layout()->addWidget(error_strip_);
    parent->layout()->addWidget(busy_strip_);
}

void MainWindow::make_file_menu() {
    QMenu* file = menuBar()->addMenu(tr("&File"));
    opening_.push_back(file->addAction(tr("&Open a ranch book…"), QKeySequence::Open, this,
                                       &MainWindow::ask_for_book));
    opening_.push_back(
        file->addAction(tr("&Draw a new ranch…"), this, &MainWindow::ask_for_new_ranch));
    opening_.push_back(file->addAction(tr("&Make a book from a folder…"), QKeySequence::New, this,
                                       &MainWindow::ask_for_folder));
    looking_.push_back(file->addAction(tr("&Close the book"), QKeySequence::Close, this,
                                       &MainWindow::close_ranch));
    file->addSeparator();
    file->addAction(tr("&Quit"), QKeySequence(Qt::CTRL | Qt::Key_Q), this, &QWidget::close);
}

void MainWindow::make_edit_menu() {
    QMenu* edit = menuBar()->addMenu(tr("&Edit"));
    QUndoStack* stack = desk_.undo_stack();
    undo_ = edit->addAction(tr("&Undo"), QKeySequence::Undo, stack, &QUndoStack::undo);
    redo_ = edit->addAction(tr("&Redo"), stack, &QUndoStack::redo);
    redo_->setShortcuts({Qt::CTRL | Qt::SHIFT | Qt::Key_Z, Qt::CTRL | Qt::Key_Y});
    connect(stack, &QUndoStack::indexChanged, this, &MainWindow::show_undo);
    connect(&desk_, &BookDesk::busy_changed, this, &MainWindow::show_undo);
    show_undo();
}

// While a change is being written, nothing is undone: it would come between.
void MainWindow::show_undo() {
    const QUndoStack& stack = *desk_.undo_stack();
    undo_->setText(stack.canUndo() ? tr("&Undo: %1").arg(stack.undoText()) : tr("&Undo"));
    redo_->setText(stack.canRedo() ? tr("&Redo: %1").arg(stack.redoText()) : tr("&Redo"));
    undo_->setEnabled(stack.canUndo() && !desk_.busy());
    redo_->setEnabled(stack.canRedo() && !desk_.busy());
}

void MainWindow::make_view_menu() {
    QMenu* view = menuBar()->addMenu(tr("&View"));
    const auto add = [&](const QString& text, const QKeySequence& keys, auto what) {
        looking_.push_back(view->addAction(text, keys, this, what));
    };
    add(tr("W&eek"), Qt::CTRL | Qt::Key_1, [this] { show_page(week_page_); });
    add(tr("&Ground"), Qt::CTRL | Qt::Key_2, [this] { show_page(ground_page_); });
    add(tr("&Hauls"), Qt::CTRL | Qt::Key_3, [this] { show_page(hauls_page_); });
    add(tr("&Trials"), Qt::CTRL | Qt::Key_4, [this] { show_page(trials_page_); });
    add(tr("Trac&ks"), Qt::CTRL | Qt::Key_5, [this] { show_page(tracks_page_); });
    add(tr("&Ranch"), Qt::CTRL | Qt::Key_6, [this] { show_page(ranch_page_); });
    view->addSeparator();
    metric_ = view->addAction(tr("&Metric units"));
    metric_->setCheckable(true);
    connect(metric_, &QAction::triggered, this, &MainWindow::speak_metric);
    looking_.push_back(metric_);
    view->addSeparator();
    add(tr("Meas&ure on the map"), Qt::CTRL | Qt::Key_M, &MainWindow::measure);
    add(tr("&Picture behind the map…"), {}, &MainWindow::ask_for_picture);
    no_picture_ =
        view->addAction(tr("&No picture behind the map"), this, [this] { put_picture_behind({}); });
    view->addSeparator();
    add(tr("Zoom &in"), QKeySequence::ZoomIn, [this] {
        if (MapViewWidget* map = map_shown()) map->zoom(1.4);
    });
    add(tr("Zoom &out"), QKeySequence::ZoomOut, [this] {
        if (MapViewWidget* map = map_shown()) map->zoom(1.0 / 1.4);
    });
    add(tr("&Whole ranch"), Qt::CTRL | Qt::Key_0, [this] {
        if (MapViewWidget* map = map_shown()) map->fit();
    });
}

void MainWindow::measure() {
    MapViewWidget* map = map_shown();
    if (map == nullptr || !ranch_) return;
    measuring_.start(*map, speaks_metric(ranch_->open.checked.ranch.settings));
    statusBar()->showMessage(
        tr("Click corner after corner; Backspace takes one back; Enter leaves it standing; Esc "
           "ends measuring."),
        kSaid_ms);
}

void MainWindow::ask_for_picture() {
    const QString picture = QFileDialog::getOpenFileName(
        this, tr("A picture that knows where it lies"), {},
        tr("Georeferenced pictures (*.tif *.tiff *.jp2);;All files (*)"));
    if (!picture.isEmpty()) put_picture_behind(picture);
}

void MainWindow::put_picture_behind(const QString& picture) {
    if (!ranch_) return;
    remember_backdrop(to_text(ranch_->open.book), picture);
    show_picture_behind(picture);
}

void MainWindow::show_picture_behind(const QString& picture) {
    set_backdrop(nullptr);
    no_picture_->setEnabled(!picture.isEmpty());
    if (picture.isEmpty()) return backdrop_->stop();
    // A third wider all round, for what lies about the ranch.
    Box box = box_to_show({}, ranch_->open.checked.ranch);
    if (box.empty()) box.add({0.0, 0.0});
    const double around = std::max({3000.0, box.max_x - box.min_x, box.max_y - box.min_y}) / 3.0;
    backdrop_->read(to_path(picture), ranch_->open.frame, box.grown_by(around));
}

void MainWindow::set_backdrop(std::shared_ptr<const MapPicture> picture) {
    for (MapViewWidget* map : book_pages_->findChildren<MapViewWidget*>())
        map->set_backdrop(picture);
}

void MainWindow::speak_metric(bool metric) {
    if (!ranch_ || speaks_metric(ranch_->open.checked.ranch.settings) == metric) return;
    RowEdit edit{.role = "settings",
                 .fields = {{"key", "units"}, {"value", metric ? "metric" : "us"}},
                 .typed = {{"value", metric ? "metric" : "us"}}};
    for (const RawRow& row : rows_of(ranch_.get(), "settings"))
        if (row.text("key") == "units") edit.uuid = row.uuid;
    desk_.edit(tr("change of units"), {edit});
}

void MainWindow::open_book(const std::filesystem::path& book) {
    start({.book = book}, tr("Reading %1 …").arg(file_name(book)));
}

void MainWindow::make_book_from(const std::filesystem::path& folder,
                                const std::filesystem::path& book, bool replace) {
    start({.book = book, .folder = folder, .replace = replace},
          tr("Making %1 from the folder %2 …").arg(file_name(book), file_name(folder)));
}

void MainWindow::open_any(const QString& path) {
    if (QFileInfo(path).isDir()) {
        ask_for_new_book(path);
    } else {
        open_book(to_path(path));
    }
}

bool MainWindow::shows_error() const { return !error_strip_->isHidden(); }

void MainWindow::ask_for_book() {
    const QString path = QFileDialog::getOpenFileName(this, tr("Open a ranch book"), {},
                                                      tr("Ranch books (*.gpkg);;All files (*)"));
    if (!path.isEmpty()) open_book(to_path(path));
}

void MainWindow::ask_for_folder() {
    const QString folder = QFileDialog::getExistingDirectory(
        this, tr("Choose the folder with the ranch's maps and tables"));
    if (!folder.isEmpty()) ask_for_new_book(folder);
}

void MainWindow::ask_for_new_book(const QString& folder) {
    // Without a slash at its end, which a dropped or typed folder may have.
    const QString from = QDir(folder).absolutePath();
    if (const auto where = ask_where(from + ".gpkg"))
        make_book_from(to_path(from), where->book, where->replace);
}

std::optional<MainWindow::NewBook> MainWindow::ask_where(const QString& suggested) {
    const QString chosen = QFileDialog::getSaveFileName(this, tr("Save the new ranch book as"),
                                                        suggested, tr("Ranch books (*.gpkg)"));
    if (chosen.isEmpty()) return std::nullopt;
    const bool complete = chosen.endsWith(".gpkg", Qt::CaseInsensitive);
    // The dialog has asked about replacing only the name as chosen.
    return NewBook{to_path(complete ? chosen : chosen + ".gpkg"),
                   complete && QFileInfo::exists(chosen)};
}

void MainWindow::ask_for_new_ranch() {
    NewRanchDialog dialog(this);
    if (dialog.exec() != QDialog::Accepted) return;
    const QString name = QString::fromStdString(dialog.name()).replace('/', '-');
    if (const auto where = ask_where(QDir::home().filePath(name + ".gpkg")))
        begin_ranch(dialog.name(), dialog.centre(), where->book, where->replace);
}

// Beside the program where it is installed, or where it was built.
void MainWindow::ask_for_sample() {
    const QDir program(QCoreApplication::applicationDirPath());
    for (const char* at :
         {"../share/doc/haylane/examples/brindle-coulee", "../../../sample-maps/brindle-coulee"}) {
        if (!program.exists(at)) continue;
        const QString folder = QDir::cleanPath(program.filePath(at));
        if (const auto where = ask_where(QDir::home().filePath("brindle-coulee.gpkg")))
            make_book_from(to_path(folder), where->book, where->replace);
        return;
    }
    show_error({"sample_missing", "The sample ranch was not found beside the program.",
                QCoreApplication::applicationDirPath().toStdString(),
                "Install Haylane again, or open a book of your own."});
}

void MainWindow::begin_ranch(const std::string& name, LonLat centre,
                             const std::filesystem::path& book, bool replace) {
    start({.book = book, .replace = replace, .begun = OpenOrder::Begun{name, centre}},
          tr("Making %1 …").arg(file_name(book)));
}

void MainWindow::start(const OpenOrder& order, const QString& note) {
    if (!job_->start(order)) return;
    error_strip_->hide();
    busy_text_->setText(note.toHtmlEscaped());
    set_busy(true);
}

void MainWindow::set_busy(bool busy) {
    busy_strip_->setVisible(busy);
    start_page_->setEnabled(!busy);
    for (QAction* action : opening_) action->setEnabled(!busy);
}

void MainWindow::show_ranch(std::shared_ptr<const ShownRanch> ranch) {
    set_busy(false);
    ranch_ = std::move(ranch);
    pages_->setCurrentWidget(book_pages_);
    place_->clear();
    desk_.set_ranch(ranch_);
    ranch_page_->set_ranch(ranch_);
    week_page_->set_ranch(ranch_);
    ground_page_->set_ranch(ranch_);
    hauls_page_->set_ranch(ranch_);
    trials_page_->set_ranch(ranch_);
    tracks_page_->set_ranch(ranch_);
    if (MapViewWidget* map = map_shown()) map->setFocus();
    for (QAction* action : looking_) action->setEnabled(true);
    statusBar()->show();
    setWindowTitle(tr("%1 – Haylane").arg(file_name(ranch_->open.book)));
    remember_book(to_text(ranch_->open.book));
    start_page_->set_recent(recent_books());
    metric_->setChecked(speaks_metric(ranch_->open.checked.ranch.settings));
    show_picture_behind(backdrop_of(to_text(ranch_->open.book)));
    // A ranch that is only begun is drawn first.
    if (ranch_->open.checked.ranch.pastures.empty()) show_page(ranch_page_);
}

void MainWindow::close_ranch() {
    ranch_.reset();
    measuring_.end();
    backdrop_->stop();
    set_backdrop(nullptr);
    no_picture_->setEnabled(false);
    desk_.set_ranch(nullptr);
    ranch_page_->set_ranch(nullptr);
    week_page_->set_ranch(nullptr);
    ground_page_->set_ranch(nullptr);
    hauls_page_->set_ranch(nullptr);
    trials_page_->set_ranch(nullptr);
    tracks_page_->set_ranch(nullptr);
    pages_->setCurrentWidget(start_page_);
    for (QAction* action : looking_) action->setEnabled(false);
    statusBar()->hide();
    setWindowTitle(tr("Haylane"));
}

void MainWindow::show_error(const Error& error) {
    set_busy(busy());
    error_text_->setText(as_rich_text(error));
    error_strip_->show();
}

void MainWindow::show_place(Point world) {
    if (!ranch_) return;
    const LonLat at = ranch_->open.frame.to_lonlat(world);
    place_->setText(QString("%1    %2  %3")
                        .arg(pasture_at(ranch_->open.checked.ranch, world),
                             degrees(at.lat_deg, "N", "S"), degrees(at.lon_deg, "E", "W")));
}

void MainWindow::dragEnterEvent(QDragEnterEvent* event) {
    const QList<QUrl> urls = event->mimeData()->urls();
    if (!busy() && urls.size() == 1 && urls.front().isLocalFile()) event->acceptProposedAction();
}

void MainWindow::dropEvent(QDropEvent* event) {
    const QString path = event->mimeData()->urls().value(0).toLocalFile();
    if (path.isEmpty() || busy()) return;
    event->acceptProposedAction();
    open_any(path);
}

}  // namespace haylane
