#include "gis/book/roles.h"

#include "gis/vector/file_text.h"

namespace haylane {

const std::vector<RoleInfo>& role_infos() {
    using enum RoleShape;
    static const std::vector<RoleInfo> roles = {
        {"pastures", polygons},  {"off_limits", any}, {"gates", points},
        {"trails", lines},       {"yards", points},   {"water", points},
        {"shelter", any},        {"soft", polygons},  {"herds", none},
        {"moves", none},         {"hay", none},       {"rigs", none},
        {"feedings", any, true}, {"weather", none},   {"soil", point_or_polygon},
        {"hay_fields", points},  {"trials", none},    {"settings", none}};
    return roles;
}

const RoleInfo* find_role(const std::string& name) {
    const std::string low = lower_ascii(name);
    for (const RoleInfo& role : role_infos()) {
        if (role.name == low) return &role;
    }
    return nullptr;
}

std::vector<const ColumnSpec*> columns_of(std::string_view role) {
    std::vector<const ColumnSpec*> columns;
    for (const ColumnSpec& spec : column_specs()) {
        if (spec.role == role) columns.push_back(&spec);
    }
    return columns;
}

bool is_numeric(Dimension dimension) {
    switch (dimension) {
        case Dimension::text:
        case Dimension::yes_no:
        case Dimension::date:
        case Dimension::date_mark:
            return false;
        default:
            return true;
    }
}

}  // namespace haylane
