#pragma once
// The one window: a start page, or the pages of a ranch: the week, the ground, the hauls,
// trials, tracks, and the ranch itself. Errors stand in a strip above until dismissed or the next
// book; what was open stays open. Reading and planning never block it. Every change of the book can
// be undone.

#include "app/desktop/ground/ground_page.h"
#include "app/desktop/hauls/hauls_page.h"
#include "app/desktop/jobs/book_desk.h"
#include "app/desktop/jobs/open_job.h"
#include "app/desktop/map/backdrop.h"
#include "app/desktop/map/map_view_widget.h"
#include "app/desktop/map/measuring.h"
#include "app/desktop/ranch/ranch_page.h"
#include "app/desktop/start_page.h"
#include "app/desktop/tracks/tracks_page.h"
#include "app/desktop/trials/trials_page.h"
#include "app/desktop/week/week_page.h"

#include <filesystem>
#include <memory>
#include <optional>
#include <vector>

#include <QMainWindow>

class QFrame;
class QLabel;
class QStackedWidget;
class QTabWidget;

namespace haylane {

class MainWindow : public QMainWindow {
    Q_OBJECT

  public:
    explicit MainWindow(QWidget* parent = nullptr);
    ~MainWindow() override;
    MainWindow(const MainWindow&) = delete;
    MainWindow& operator=(const MainWindow&) = delete;
    MainWindow(MainWindow&&) = delete;
    MainWindow& operator=(MainWindow&&) = delete;

    // Start reading; the result comes later. While reading, further calls do nothing.
    void open_book(const std::filesystem::path& book);
    void make_book_from(const std::filesystem::path& folder, const std::filesystem::path& book,
                        bool replace);
    // An empty book, to be drawn round a place.
    void begin_ranch(const std::string& name, LonLat centre, const std::filesystem::path& book,
                     bool replace);
    // A book, or a folder to make one from (asks for the book's name).
    void open_any(const QString& path);

    // Reads a picture to stand behind the maps, and remembers it for this book; empty = none.
    void put_picture_behind(const QString& picture);
    [[nodiscard]] const Measuring& measuring() const { return measuring_; }

    // Whether a book is being read. Planning has a word of its own on the week's page.
    [[nodiscard]] bool busy() const { return job_->busy(); }
    // nullptr while none is open.
    [[nodiscard]] const std::shared_ptr<const ShownRanch>& ranch() const { return ranch_; }
    [[nodiscard]] bool shows_error() const;
    [[nodiscard]] BookDesk& desk() { return desk_; }
    void show_page(QWidget* page);
    [[nodiscard]] WeekPage* week_page() const { return week_page_; }
    [[nodiscard]] GroundPage* ground_page() const { return ground_page_; }
    [[nodiscard]] HaulsPage* hauls_page() const { return hauls_page_; }
    [[nodiscard]] TrialsPage* trials_page() const { return trials_page_; }
    [[nodiscard]] TracksPage* tracks_page() const { return tracks_page_; }
    [[nodiscard]] RanchPage* ranch_page() const { return ranch_page_; }

  protected:
    void dragEnterEvent(QDragEnterEvent* event) override;
    void dropEvent(QDropEvent* event) override;

  private:
    void make_strips(QWidget* parent);
    void make_file_menu();
    void make_edit_menu();
    void make_view_menu();
    void make_book_pages();
    void ask_for_book();
    void ask_for_folder();
    void ask_for_new_book(const QString& folder);
    void ask_for_new_ranch();
    void ask_for_sample();
    // A name for a new book, beside `suggested`; nullopt when it is given up. `replace`: of a book
    // there, as the user has agreed.
    struct NewBook {
        std::filesystem::path book;
        bool replace = false;
    };
    [[nodiscard]] std::optional<NewBook> ask_where(const QString& suggested);
    void speak_metric(bool metric);
    void start(const OpenOrder& order, const QString& note);
    void set_busy(bool busy);
    void show_ranch(std::shared_ptr<const ShownRanch> ranch);
    void close_ranch();
    void show_error(const Error& error);
    void show_undo();
    void show_place(Point world);
    [[nodiscard]] MapViewWidget* map_shown() const;
    void measure();
    void ask_for_picture();
    void show_picture_behind(const QString& picture);
    void set_backdrop(std::shared_ptr<const MapPicture> picture);

    BookDesk desk_;
    OpenJob* job_;
    Backdrop* backdrop_;
    Measuring measuring_;
    std::shared_ptr<const ShownRanch> ranch_;
    QFrame* error_strip_ = nullptr;
    QLabel* error_text_ = nullptr;
    QFrame* busy_strip_ = nullptr;
    QLabel* busy_text_ = nullptr;
    QStackedWidget* pages_ = nullptr;
    StartPage* start_page_ = nullptr;
    QTabWidget* book_pages_ = nullptr;
    WeekPage* week_page_ = nullptr;
    GroundPage* ground_page_ = nullptr;
    HaulsPage* hauls_page_ = nullptr;
    TrialsPage* trials_page_ = nullptr;
    TracksPage* tracks_page_ = nullptr;
    RanchPage* ranch_page_ = nullptr;
    QLabel* place_ = nullptr;
    QAction* metric_ = nullptr;
    QAction* no_picture_ = nullptr;
    QAction* undo_ = nullptr;
    QAction* redo_ = nullptr;
    std::vector<QAction*> opening_;  // off while reading
    std::vector<QAction*> looking_;  // on while a ranch is shown
};

}  // namespace haylane
