#pragma once
// Plans a book's days in a thread of its own and keeps the plan in the book. One order at a time.
// Signals arrive in the thread that this object lives in; its end stops the planning and waits.

#include "app/session/plan_ranch.h"

#include <filesystem>
#include <memory>
#include <thread>

#include <QObject>

namespace haylane {

// A plan with the ranch it was made for, which past planned days that count as fed belong to.
struct ShownPlan {
    OpenRanch open;
    KeptPlan kept;
};

class PlanJob : public QObject {
    Q_OBJECT

  public:
    using QObject::QObject;

    // False, and nothing happens, while an earlier order is under way. The request's own progress
    // is not used.
    bool start(const std::filesystem::path& book, const PlanRequest& request);
    // The plan is given up; `failed` tells so with the code "cancelled".
    void stop() { thread_.request_stop(); }
    [[nodiscard]] bool busy() const { return busy_; }

  signals:
    void progressed(const QString& stage, double done_ratio);
    void planned(std::shared_ptr<haylane::ShownPlan> plan);
    void failed(const haylane::Error& error);

  private:
    void finish(const Result<std::shared_ptr<ShownPlan>>& result);

    bool busy_ = false;
    std::jthread thread_;  // last: joined before anything it uses goes
};

}  // namespace haylane
