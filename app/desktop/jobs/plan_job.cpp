#include "app/desktop/jobs/plan_job.h"

#include "app/desktop/jobs/background.h"
#include "app/session/book_hand.h"

namespace haylane {
namespace {

const std::vector<std::string> kPlanTables{"plans", "plan_lines"};

using Planned = Result<std::shared_ptr<ShownPlan>>;

Planned carry_out(const PlanOrder& order, const Progress& progress) {
    auto open = open_ranch(order.book);
    if (!open) return fail(open.error());
    PlanRequest request = order.request;
    request.progress = {};
    if (order.another) {
        const auto ways = another_way(*open, order.another->herd, order.another->date);
        if (!ways) return fail(ways.error());
        request.hand.another.insert(request.hand.another.end(), ways->begin(), ways->end());
    }
    // The plan points at the ranch: it is put where it stays first.
    auto shown = std::make_shared<ShownPlan>(ShownPlan{std::move(*open), request, {}, nullptr, {}});
    request.progress = progress;
    auto kept = keep_ranch_plan(shown->open, request);
    if (!kept) return fail(kept.error());
    shown->kept = std::move(*kept);
    shown->mover = std::make_unique<LineMover>(shown->kept);
    auto saved = record_change(order.book, kPlanTables,
                               [&] { return keep_in_book(shown->open, shown->kept.result); });
    if (!saved) return fail(saved.error());
    shown->in_book = std::move(*saved);
    return shown;
}

}  // namespace

bool PlanJob::start(const PlanOrder& order) {
    if (busy_) return false;
    busy_ = true;
    Progress progress;
    progress.report = [this](std::string_view stage, double done_ratio) {
        const QString text = QString::fromUtf8(stage.data(), qsizetype(stage.size()));
        QMetaObject::invokeMethod(
            this, [this, text, done_ratio] { emit progressed(text, done_ratio); },
            Qt::QueuedConnection);
    };
    thread_ = in_background<std::shared_ptr<ShownPlan>>(
        this, "Planning", order.book,
        [order, progress](const std::stop_token& stop) mutable {
            progress.stop = stop;
            return carry_out(order, progress);
        },
        [this](const Planned& result) { finish(result); });
    return true;
}

void PlanJob::finish(const Planned& result) {
    busy_ = false;
    if (result) {
        emit planned(*result);
    } else {
        emit failed(result.error());
    }
}

}  // namespace haylane
