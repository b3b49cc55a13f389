#pragma once
// Makes a row's shape the kind its role wants: tracks driven round a fence are closed, parts of
// another kind are left out; each with a problem.

#include "core/base/problem.h"
#include "gis/book/roles.h"
#include "gis/vector/layer.h"

namespace haylane {

struct FitContext {
    RoleShape wanted = RoleShape::none;
    std::string name;   // the row's name, for messages
    std::string where;  // file and feature
};

// Problem codes: pasture_open_track (warning: closed; error: ends over 150 ft apart, not used),
// wrong_geometry, several_points.
[[nodiscard]] LonLatShape fit_shape(LonLatShape shape, const FitContext& context,
                                    Problems& problems);

}  // namespace haylane
