#pragma once
// The one window: a start page, or the pages of a ranch: the week, the ground, the hauls, and the
// ranch's map with a summary and its problems beside it. Errors stand in a strip above until
// dismissed or the next book; what was open stays open. Reading and planning never block it.

#include "app/desktop/ground/ground_page.h"
#include "app/desktop/hauls/hauls_page.h"
#include "app/desktop/jobs/open_job.h"
#include "app/desktop/map/map_view_widget.h"
#include "app/desktop/side_panel.h"
#include "app/desktop/week/week_page.h"

#include <filesystem>
#include <memory>
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

    // Start reading; the result comes later. While reading, further calls do nothing.
    void open_book(const std::filesystem::path& book);
    void make_book_from(const std::filesystem::path& folder, const std::filesystem::path& book,
                        bool replace);
    // A book, or a folder to make one from (asks for the book's name).
    void open_any(const QString& path);

    // Whether a book is being read. Planning has a word of its own on the week's page.
    [[nodiscard]] bool busy() const { return job_->busy(); }
    // nullptr while none is open.
    [[nodiscard]] const std::shared_ptr<const ShownRanch>& ranch() const { return ranch_; }
    [[nodiscard]] bool shows_error() const;
    void show_page(QWidget* page);
    [[nodiscard]] WeekPage* week_page() const { return week_page_; }
    [[nodiscard]] GroundPage* ground_page() const { return ground_page_; }
    [[nodiscard]] HaulsPage* hauls_page() const { return hauls_page_; }
    [[nodiscard]] QWidget* ranch_page() const { return ranch_page_; }

  protected:
    void dragEnterEvent(QDragEnterEvent* event) override;
    void dropEvent(QDropEvent* event) override;

  private:
    void make_strips(QWidget* parent);
    void make_file_menu();
    void make_view_menu();
    void make_book_pages();
    void ask_for_book();
    void ask_for_folder();
    void ask_for_new_book(const QString& folder);
    void start(const OpenOrder& order, const QString& note);
    void set_busy(bool busy);
    void show_ranch(std::shared_ptr<const ShownRanch> ranch);
    void close_ranch();
    void show_error(const Error& error);
    void show_place(Point world);
    [[nodiscard]] MapViewWidget* map_shown() const;

    OpenJob* job_;
    std::shared_ptr<const ShownRanch> ranch_;
    QFrame* error_strip_ = nullptr;
    QLabel* error_text_ = nullptr;
    QFrame* busy_strip_ = nullptr;
    QLabel* busy_text_ = nullptr;
    QStackedWidget* pages_ = nullptr;
    QWidget* start_page_ = nullptr;
    QTabWidget* book_pages_ = nullptr;
    WeekPage* week_page_ = nullptr;
    GroundPage* ground_page_ = nullptr;
    HaulsPage* hauls_page_ = nullptr;
    QWidget* ranch_page_ = nullptr;
    MapViewWidget* map_ = nullptr;
    SidePanel* side_ = nullptr;
    QLabel* place_ = nullptr;
    std::vector<QAction*> opening_;  // off while reading
    std::vector<QAction*> looking_;  // on while a ranch is shown
};

}  // namespace haylane
