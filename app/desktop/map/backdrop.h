#pragma once
// A picture of the user's own behind the maps of a ranch: read in the background, remembered with
// the user's settings of this program for each book.

#include "app/desktop/jobs/work.h"
#include "app/papers/map_painter.h"
#include "gis/crs/frame.h"

#include <filesystem>
#include <memory>
#include <optional>

#include <QObject>

namespace haylane {

class Backdrop : public QObject {
    Q_OBJECT

  public:
    explicit Backdrop(QObject* parent = nullptr);

    // Reads the picture for the ground in the box; `read_done` comes later. What was asked for
    // before is given up.
    void read(const std::filesystem::path& picture, const Frame& frame, const Box& box);
    void stop();
    [[nodiscard]] bool busy() const { return work_->busy(); }

  signals:
    void read_done(std::shared_ptr<const haylane::MapPicture> picture);
    void failed(const haylane::Error& error);

  private:
    void begin();

    struct Asked {
        std::filesystem::path picture;
        Frame frame;
        Box box;
    };
    Work* work_;
    int serial_ = 0;             // of what was asked last: what else comes is late
    std::optional<Asked> next_;  // waits for the one under way to stop
};

// Empty = none.
[[nodiscard]] QString backdrop_of(const QString& book);
void remember_backdrop(const QString& book, const QString& picture);

}  // namespace haylane
