#include "app/desktop/jobs/open_job.h"

#include "app/desktop/jobs/background.h"
#include "app/papers/map_painter.h"
#include "gis/book/make_book.h"

namespace haylane {
namespace {

using Opened = Result<std::shared_ptr<const ShownRanch>>;

Opened carry_out(const OpenOrder& order) {
    if (order.folder) {
        const auto made = make_book(*order.folder, order.book, order.replace);
        if (!made) return fail(made.error());
    }
    if (order.begun) {
        const auto made =
            make_empty_book(order.book, order.begun->ranch, order.begun->centre, order.replace);
        if (!made) return fail(made.error());
    }
    return show_ranch(order.book);
}

}  // namespace

const std::vector<RawRow>& rows_of(const ShownRanch* shown, const std::string& role) {
    static const std::vector<RawRow> none;
    if (shown == nullptr) return none;
    const auto found = shown->open.raw.roles.find(role);
    return found == shown->open.raw.roles.end() ? none : found->second;
}

Result<std::shared_ptr<const ShownRanch>> show_ranch(const std::filesystem::path& book,
                                                     const ShownRanch* before) {
    auto open = open_ranch(book, true);
    if (!open) return fail(open.error());
    auto holds = stored_holds(book);
    if (!holds) return fail(holds.error());
    auto shown = std::make_shared<ShownRanch>(ShownRanch{std::move(*open), std::move(*holds), {}});
    const auto& terrain = shown->open.checked.ranch.terrain;
    if (before != nullptr) {
        shown->shade = before->shade;
    } else if (terrain) {
        shown->shade = hillshade(*terrain);
    }
    return std::shared_ptr<const ShownRanch>(std::move(shown));
}

bool OpenJob::start(const OpenOrder& order) {
    if (busy_) return false;
    busy_ = true;
    thread_ = in_background<std::shared_ptr<const ShownRanch>>(
        this, "Reading", order.book, [order](const std::stop_token&) { return carry_out(order); },
        [this](const Opened& result) { finish(result); });
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
