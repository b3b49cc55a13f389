#include "app/session/open_ranch.h"

#include "app/session/rig_speeds.h"
#include "core/ranch/measured_figures.h"
#include "core/trials/adopt_trials.h"
#include "gis/book/read_book.h"

namespace haylane {

Result<OpenRanch> open_ranch(const std::filesystem::path& book, bool begun) {
    auto contents = read_book(book);
    if (!contents) return fail(contents.error());
    auto checked = check_ranch(contents->raw, begun);
    if (!checked) return fail(checked.error());
    checked->problems.insert(checked->problems.begin(), contents->problems.begin(),
                             contents->problems.end());
    if (const auto own = add_own_speeds(book, checked->ranch); !own) return fail(own.error());
    const Problems odd = adopt_trials(contents->raw.roles["trials"], checked->ranch);
    checked->problems.insert(checked->problems.end(), odd.begin(), odd.end());
    use_measured(checked->ranch);
    contents->raw.terrain.reset();
    return OpenRanch{book, contents->frame, std::move(*checked), contents->crs_operations,
                     std::move(contents->raw)};
}

}  // namespace haylane
