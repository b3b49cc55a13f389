// The thread computes a value and posts it; nothing else is shared. Whatever is thrown there
// (memory running out) is caught here, as run_haylane does for the command line.

#include "app/desktop/jobs/open_job.h"

#include "app/papers/map_painter.h"
#include "gis/book/make_book.h"

#include <exception>

namespace haylane {
namespace {

using Opened = Result<std::shared_ptr<const ShownRanch>>;

Opened carry_out(const OpenOrder& order) {
    if (order.folder) {
        const auto made = make_book(*order.folder, order.book, order.replace);
        if (!made) return fail(made.error());
    }
    auto open = open_ranch(order.book);
    if (!open) return fail(open.error());
    auto shown = std::make_shared<ShownRanch>(ShownRanch{std::move(*open), {}});
    const auto& terrain = shown->open.checked.ranch.terrain;
    if (terrain) shown->shade = hillshade(*terrain);
    return std::shared_ptr<const ShownRanch>(std::move(shown));
}

Opened carry_out_safely(const OpenOrder& order) {
    try {
        return carry_out(order);
    } catch (const std::exception& thrown) {
        return fail({"unexpected", std::string("Reading stopped: ") + thrown.what(),
                     order.book.string(), "Close other programs and try again."});
    }
}

}  // namespace

bool OpenJob::start(const OpenOrder& order) {
    if (busy_) return false;
    busy_ = true;
    thread_ = std::jthread([this, order] {
        auto result = carry_out_safely(order);
        QMetaObject::invokeMethod(
            this, [this, result = std::move(result)] { finish(result); }, Qt::QueuedConnection);
    });
    return true;
}

void OpenJob::finish(const Opened& result) {
    busy_ = false;
    if (result) {
        emit opened(*result);
    } else {
        emit failed(result.error());
    }
}

}  // namespace haylane
