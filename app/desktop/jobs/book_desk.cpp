#include "app/desktop/jobs/book_desk.h"

#include "app/desktop/jobs/background.h"

#include <utility>

namespace haylane {

// A change of the book on the undo stack. The change has been made when it is pushed.
class BookDesk::Step : public QUndoCommand {
  public:
    Step(BookDesk* desk, const QString& what, BookChange change,
         std::function<void(bool back)> show, bool follows)
        : desk_(desk), follows_(follows) {
        setText(what);
        changes_.push_back(std::move(change));
        if (show) shows_.push_back(std::move(show));
    }

    void undo() override { turn_all(true); }
    void redo() override {
        if (std::exchange(made_, false)) return;
        turn_all(false);
    }
    [[nodiscard]] int id() const override { return 1; }
    bool mergeWith(const QUndoCommand* other) override {
        const auto* next = dynamic_cast<const Step*>(other);
        if (next == nullptr || !next->follows_) return false;
        changes_.insert(changes_.end(), next->changes_.begin(), next->changes_.end());
        shows_.insert(shows_.end(), next->shows_.begin(), next->shows_.end());
        return true;
    }

  private:
    void turn_all(bool back) {
        const std::size_t n = changes_.size();
        for (std::size_t i = 0; i < n; ++i) {
            const std::size_t at = back ? n - 1 - i : i;
            if (const auto turned = desk_->turn(changes_[at], back); !turned) {
                // What was turned of this step goes back, so that the step is whole.
                for (std::size_t k = i; k-- > 0;)
                    static_cast<void>(desk_->turn(changes_[back ? n - 1 - k : k], !back));
                setObsolete(true);
                emit desk_->failed(turned.error());
                return;
            }
        }
        const std::size_t m = shows_.size();
        for (std::size_t i = 0; i < m; ++i) shows_[back ? m - 1 - i : i](back);
        desk_->read_again();
    }

    BookDesk* desk_;
    std::vector<BookChange> changes_;
    std::vector<std::function<void(bool back)>> shows_;
    bool follows_;
    bool made_ = true;
};

void BookDesk::set_ranch(std::shared_ptr<const ShownRanch> ranch) {
    ranch_ = std::move(ranch);
    waiting_.clear();
    read_wanted_ = false;
    stack_.clear();
}

void BookDesk::carry_out(BookWork work) {
    if (!ranch_) return;
    waiting_.push_back(std::move(work));
    if (!running_) run_next();
}

void BookDesk::edit(const QString& what, const std::vector<RowEdit>& edits,
                    std::function<void()> then) {
    carry_out({.what = what,
               .tables = tables_of_edits(),
               .work = [edits](const OpenRanch& open) -> Result<std::vector<std::string>> {
                   if (auto done = edit_rows(open.book, edits); !done) return fail(done.error());
                   return std::vector<std::string>{};
               },
               .then = std::move(then)});
}

void BookDesk::add_step(const QString& what, BookChange change, std::function<void(bool back)> show,
                        bool follows) {
    stack_.push(new Step(this, what, std::move(change), std::move(show), follows));
}

Result<void> BookDesk::turn(const BookChange& change, bool back) {
    return back ? take_back(ranch_->open.book, change) : do_again(ranch_->open.book, change);
}

void BookDesk::read_again() {
    read_wanted_ = true;
    if (!running_) run_next();
}

Result<BookDesk::Done> BookDesk::do_work(const std::shared_ptr<const ShownRanch>& ranch,
                                         const BookWork& work) {
    const std::filesystem::path& book = ranch->open.book;
    Done done;
    if (work.work) {
        const auto open = open_ranch(book, true);
        if (!open) return fail(open.error());
        auto change = record_change(book, work.tables, [&]() -> Result<void> {
            auto sentences = work.work(*open);
            if (!sentences) return fail(sentences.error());
            done.sentences = std::move(*sentences);
            return {};
        });
        if (!change) return fail(change.error());
        done.change = std::move(*change);
    }
    auto shown = show_ranch(book, ranch.get());
    if (!shown) return fail(shown.error());
    done.ranch = std::move(*shown);
    return done;
}

void BookDesk::run_next() {
    const bool was = changing_;
    changing_ = !waiting_.empty();
    running_ = changing_ || read_wanted_;
    if (changing_) {
        const BookWork work = std::move(waiting_.front());
        waiting_.pop_front();
        run(work);
    } else if (running_) {
        read_wanted_ = false;
        run({});
    }
    if (was != changing_) emit busy_changed(changing_);
}

void BookDesk::run(const BookWork& work) {
    thread_ = in_background<Done>(
        this, "Changing the book", ranch_->open.book,
        [ranch = ranch_, work](const std::stop_token&) { return do_work(ranch, work); },
        [this, work](const Result<Done>& done) { finish(work, done); });
}

void BookDesk::finish(const BookWork& work, const Result<Done>& done) {
    // Another book may have been opened meanwhile; the change stands in its own book.
    const bool ours = done && ranch_ && done->ranch->open.book == ranch_->open.book;
    if (!done) {
        emit failed(done.error());
    } else if (ours) {
        ranch_ = done->ranch;
        if (!done->change.empty()) add_step(work.what, done->change, work.show, false);
        emit changed(ranch_);
        QStringList sentences;
        for (const std::string& one : done->sentences) sentences << QString::fromStdString(one);
        if (!sentences.empty()) emit said(sentences);
        if (work.then) work.then();
    }
    run_next();
}

}  // namespace haylane
