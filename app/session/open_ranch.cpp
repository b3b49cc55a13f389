#include "app/session/open_ranch.h"

#include "app/session/log_tracks.h"
#include "gis/book/read_book.h"

namespace haylane {

Result<OpenRanch> open_ranch(const std::filesystem::path& book) {
    auto contents = read_book(book);
    if (!contents) return fail(contents.error());
    auto checked = check_ranch(contents->raw);
    if (!checked) return fail(checked.error());
    checked->problems.insert(checked->problems.begin(), contents->problems.begin(),
                             contents->problems.end());
    if (const auto own = add_own_speeds(book, checked->ranch); !own) return fail(own.error());
    return OpenRanch{book, contents->frame, std::move(*checked), contents->crs_operations};
}

}  // namespace haylane
