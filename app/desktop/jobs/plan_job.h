#pragma once
// Plans a book's days in a thread of its own and keeps the plan in the book. One order at a time.
// Signals arrive in the thread that this object lives in; its end stops the planning and waits.

#include "app/session/plan_ranch.h"
#include "core/plan/move_line.h"
#include "gis/book/book_change.h"

#include <filesystem>
#include <memory>
#include <optional>
#include <thread>

#include <QObject>

namespace haylane {

struct PlanOrder {
    std::filesystem::path book;
    PlanRequest request;  // its own progress is not used
    // Lines clearly unlike those last planned for this herd and day, besides what the request asks.
    struct Another {
        HerdId herd;
        sys_days date;
    };
    std::optional<Another> another = std::nullopt;
};

// A plan with the ranch it was made for, which past planned days that count as fed belong to.
struct ShownPlan {
    OpenRanch open;
    PlanRequest request;  // without what the book holds
    KeptPlan kept;
    std::unique_ptr<LineMover> mover;
    BookChange in_book;  // of keeping it
};

class PlanJob : public QObject {
    Q_OBJECT

  public:
    using QObject::QObject;

    // False, and nothing happens, while an earlier order is under way.
    bool start(const PlanOrder& order);
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
