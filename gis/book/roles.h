#pragma once
// The roles of a ranch folder and a ranch book: their names and what shape a row of each has.

#include "core/ranch/raw_ranch.h"

#include <string>
#include <string_view>
#include <vector>

namespace haylane {

enum class RoleShape { none, points, lines, polygons, any, point_or_polygon };

struct RoleInfo {
    std::string_view name;
    RoleShape shape = RoleShape::none;
    bool shape_optional = false;  // a row without a shape is nothing odd
};

// Every role with rows, in the order of the manual; `terrain` and `columns` are not among them.
[[nodiscard]] const std::vector<RoleInfo>& role_infos();
// nullptr for an unknown name; compared without regard to case.
[[nodiscard]] const RoleInfo* find_role(const std::string& name);
// The columns of a role, in the manual's order.
[[nodiscard]] std::vector<const ColumnSpec*> columns_of(std::string_view role);
// True for dimensions whose book column holds a number.
[[nodiscard]] bool is_numeric(Dimension dimension);

}  // namespace haylane
