#pragma once
// Recorded drives: files are dropped or chosen, read and cut in the background, shown on the map
// and on a strip of time; a piece that was cut wrongly is put right; the feedings that are ready
// are accepted into the book, which can be undone.

#include "app/desktop/jobs/book_desk.h"
#include "app/desktop/jobs/work.h"
#include "app/desktop/map/map_view_widget.h"
#include "app/desktop/tracks/cut_strip.h"
#include "app/desktop/tracks/track_layer.h"
#include "app/session/log_tracks.h"

#include <filesystem>
#include <memory>
#include <optional>
#include <vector>

#include <QWidget>

class QComboBox;
class QLabel;
class QPushButton;
class QTextBrowser;

namespace haylane {

class WorkBar;

class TracksPage : public QWidget {
    Q_OBJECT

  public:
    // The desk must outlive it.
    explicit TracksPage(BookDesk& desk, QWidget* parent = nullptr);

    // nullptr = none. What was read for the ranch before is put away.
    void set_ranch(std::shared_ptr<const ShownRanch> ranch);
    // The same book, changed: what was read stays until it is accepted.
    void update_ranch(std::shared_ptr<const ShownRanch> ranch);
    // Files and folders.
    void read(std::vector<std::filesystem::path> files);
    [[nodiscard]] bool busy() const { return work_->busy(); }
    // nullptr until something is read.
    [[nodiscard]] const std::shared_ptr<const LogProposal>& proposal() const { return proposal_; }
    [[nodiscard]] MapViewWidget* map() const { return map_; }
    [[nodiscard]] CutStrip* strip() const { return strip_; }
    void pick(std::size_t track, std::size_t piece);
    // The piece picked was this.
    void correct(Motion motion);
    void accept();

  signals:
    void failed(const haylane::Error& error);

  protected:
    void dragEnterEvent(QDragEnterEvent* event) override;
    void dropEvent(QDropEvent* event) override;

  private:
    [[nodiscard]] QWidget* make_left();
    [[nodiscard]] QWidget* make_right();
    void ask_for_files();
    void show_proposal(std::shared_ptr<const LogProposal> proposal);
    void show_track();
    void show_piece();
    [[nodiscard]] const LoggedTrack* track_shown() const;

    BookDesk& desk_;
    Work* work_;
    std::shared_ptr<const ShownRanch> ranch_;
    std::shared_ptr<const LogProposal> proposal_;
    std::optional<LocalDay> local_;
    MapViewWidget* map_;
    TrackLayer* layer_;
    CutStrip* strip_;
    WorkBar* bar_;
    QComboBox* tracks_;
    QComboBox* was_;
    QPushButton* correct_;
    QLabel* piece_;
    QTextBrowser* told_;
    QPushButton* open_;
    QPushButton* accept_;
};

}  // namespace haylane
