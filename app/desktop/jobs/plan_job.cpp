#include "app/desktop/jobs/plan_job.h"

#include "app/desktop/jobs/background.h"

namespace haylane {
namespace {

using Planned = Result<std::shared_ptr<ShownPlan>>;

Planned carry_out(const std::filesystem::path& book, const PlanRequest& request) {
    auto open = open_ranch(book);
    if (!open) return fail(open.error());
    // The plan points at the ranch: it is put where it stays first.
    auto shown = std::make_shared<ShownPlan>(ShownPlan{std::move(*open), {}});
    auto kept = keep_ranch_plan(shown->open, request);
    if (!kept) return fail(kept.error());
    shown->kept = std::move(*kept);
    if (auto saved = keep_in_book(shown->open, shown->kept.result); !saved)
        return fail(saved.error());
    return shown;
}

}  // namespace

bool PlanJob::start(const std::filesystem::path& book, const PlanRequest& request) {
    if (busy_) return false;
    busy_ = true;
    PlanRequest watched = request;
    watched.progress.report = [this](std::string_view stage, double done_ratio) {
        const QString text = QString::fromUtf8(stage.data(), qsizetype(stage.size()));
        QMetaObject::invokeMethod(
            this, [this, text, done_ratio] { emit progressed(text, done_ratio); },
            Qt::QueuedConnection);
    };
    thread_ = in_background<std::shared_ptr<ShownPlan>>(
        this, "Planning", book,
        [book, watched](const std::stop_token& stop) mutable {
            watched.progress.stop = stop;
            return carry_out(book, watched);
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
