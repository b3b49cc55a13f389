#pragma once
// One piece of work at a time in a thread of its own, with progress and a stop. Signals and results
// arrive in the thread that this object lives in; its end stops the work and waits.

#include "app/desktop/jobs/background.h"
#include "core/base/progress.h"

#include <filesystem>
#include <functional>
#include <memory>
#include <string>
#include <thread>
#include <utility>

#include <QObject>

namespace haylane {

class Work : public QObject {
    Q_OBJECT

  public:
    using QObject::QObject;

    // Does the work there and hands what it gives to `done` here; an error goes to `failed`, that
    // of stopped work with the code "cancelled". `doing` ("Reading") and `book` are for messages.
    // False, and nothing happens, while an earlier piece is under way.
    template <class T>
    bool start(const std::string& doing, const std::filesystem::path& book,
               const std::function<Result<T>(const Progress&)>& work,
               const std::function<void(std::shared_ptr<const T>)>& done) {
        if (busy_) return false;
        begin();
        using Shared = std::shared_ptr<const T>;
        thread_ = in_background<Shared>(
            this, doing, book,
            [work, progress = progress()](const std::stop_token& stop) mutable -> Result<Shared> {
                progress.stop = stop;
                auto result = work(progress);
                if (!result) return fail(result.error());
                return std::make_shared<const T>(std::move(*result));
            },
            [this, done](const Result<Shared>& result) {
                end();
                if (result) {
                    done(*result);
                } else {
                    emit failed(result.error());
                }
            });
        return true;
    }
    void stop() { thread_.request_stop(); }
    [[nodiscard]] bool busy() const { return busy_; }

  signals:
    void busy_changed(bool busy);
    void progressed(double done_ratio);
    void failed(const haylane::Error& error);

  private:
    void begin();
    void end();
    [[nodiscard]] Progress progress();

    bool busy_ = false;
    std::jthread thread_;  // last: joined before anything it uses goes
};

}  // namespace haylane
