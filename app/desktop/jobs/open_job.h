#pragma once
// Opens a ranch book, or first makes one, from a folder or empty, in a thread of its own, so that
// the window never waits. One order at a time. Signals arrive in the thread that this object lives
// in; its end waits for the thread, since reading cannot be broken off.

#include "app/session/open_ranch.h"
#include "gis/book/hold_store.h"

#include <filesystem>
#include <memory>
#include <optional>
#include <thread>
#include <vector>

#include <QImage>
#include <QObject>

namespace haylane {

struct OpenOrder {
    std::filesystem::path book;
    std::optional<std::filesystem::path> folder;  // make the book from it first
    bool replace = false;                         // a book that is already there
    // Or begin an empty one, to be drawn round a place.
    struct Begun {
        std::string ranch;
        LonLat centre;
    };
    std::optional<Begun> begun = std::nullopt;
};

// What a window shows: the checked ranch, what the user holds and closes, and its hillshade (null
// without terrain).
struct ShownRanch {
    OpenRanch open;
    std::vector<StoredHold> holds;
    QImage shade;
};

// The rows of a role as the book has them; none without a ranch.
[[nodiscard]] const std::vector<RawRow>& rows_of(const ShownRanch* shown, const std::string& role);

// Reads a book to be shown; the shade is taken from `before`, where there is one, since terrain is
// never changed in an open book.
[[nodiscard]] Result<std::shared_ptr<const ShownRanch>> show_ranch(
    const std::filesystem::path& book, const ShownRanch* before = nullptr);

class OpenJob : public QObject {
    Q_OBJECT

  public:
    using QObject::QObject;

    // False, and nothing happens, while an earlier order is under way.
    bool start(const OpenOrder& order);
    [[nodiscard]] bool busy() const { return busy_; }

  signals:
    void opened(std::shared_ptr<const haylane::ShownRanch> ranch);
    void failed(const haylane::Error& error);

  private:
    void finish(const Result<std::shared_ptr<const ShownRanch>>& result);

    bool busy_ = false;
    std::jthread thread_;  // last: joined before anything it uses goes
};

}  // namespace haylane
