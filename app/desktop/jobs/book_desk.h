#pragma once
// The open book as the window's pages work on it: each change is one piece of work in a thread of
// its own, is kept as what it changed row by row, and can be undone and redone; after every change
// the ranch is read again. Pieces of work wait for one another.

#include "app/desktop/jobs/open_job.h"
#include "gis/book/book_change.h"
#include "gis/book/edit_rows.h"

#include <deque>
#include <functional>
#include <memory>
#include <string>
#include <thread>
#include <vector>

#include <QObject>
#include <QUndoCommand>
#include <QUndoStack>

namespace haylane {

struct BookWork {
    QString what;                     // for the menu's undo: "hold Mon 11 Jan, Main cows"
    std::vector<std::string> tables;  // all that it may change
    // In the background, on the book as it then is; gives a sentence a thing done.
    std::function<Result<std::vector<std::string>>(const OpenRanch& open)> work;
    std::function<void()> then;                // after success, in the window's thread
    std::function<void(bool back)> show = {};  // what an undo (back) or redo is to show besides
};

class BookDesk : public QObject {
    Q_OBJECT

  public:
    using QObject::QObject;

    // Another book, or none: what was to be undone is forgotten.
    void set_ranch(std::shared_ptr<const ShownRanch> ranch);
    // As last read; nullptr while no book is open.
    [[nodiscard]] const std::shared_ptr<const ShownRanch>& ranch() const { return ranch_; }
    void carry_out(BookWork work);
    // Rows of the book's tables, as one piece of work.
    void edit(const QString& what, const std::vector<RowEdit>& edits,
              std::function<void()> then = {});
    // A change that was made elsewhere and recorded there. `follows`: it belongs to the step before
    // it, and is undone together with that.
    void add_step(const QString& what, BookChange change, std::function<void(bool back)> show,
                  bool follows);
    // Whether a change is under way or waits; reading again does not count.
    [[nodiscard]] bool busy() const { return changing_ || !waiting_.empty(); }
    // Nothing is under way, and the ranch is as last changed.
    [[nodiscard]] bool at_rest() const { return !running_ && waiting_.empty(); }
    [[nodiscard]] QUndoStack* undo_stack() { return &stack_; }

  signals:
    void changed(std::shared_ptr<const haylane::ShownRanch> ranch);
    void said(const QStringList& sentences);
    void failed(const haylane::Error& error);
    void busy_changed(bool busy);

  private:
    struct Done {
        std::vector<std::string> sentences;
        BookChange change;
        std::shared_ptr<const ShownRanch> ranch;
    };
    class Step;

    [[nodiscard]] Result<void> turn(const BookChange& change, bool back);
    void read_again();
    void run_next();
    void run(const BookWork& work);
    void finish(const BookWork& work, const Result<Done>& done);
    [[nodiscard]] static Result<Done> do_work(const std::shared_ptr<const ShownRanch>& ranch,
                                              const BookWork& work);

    std::shared_ptr<const ShownRanch> ranch_;
    QUndoStack stack_;
    std::deque<BookWork> waiting_;
    bool running_ = false;
    bool changing_ = false;
    bool read_wanted_ = false;
    std::jthread thread_;  // last: joined before anything it uses goes
};

}  // namespace haylane
