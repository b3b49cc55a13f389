#pragma once
// The corners of a row's shape, counted through all its parts, for a hand that edits it.

#include "core/ranch/raw_ranch.h"

#include <cstddef>
#include <optional>
#include <vector>

namespace haylane {

using RowShape = decltype(RawRow::shape);

[[nodiscard]] std::vector<Point> corners_of(const RowShape& shape);
// Its lines and fences, rings closed; none for points.
[[nodiscard]] MultiPolyline outline_of(const RowShape& shape);
[[nodiscard]] bool is_area(const RowShape& shape);
// Moves every corner at a place (within half a metre) to another; tells whether there was any.
bool move_corners(RowShape& shape, Point from, Point to);
// Sets a corner into every line or fence that passes the place (within half a metre); tells
// whether any does.
bool add_corner(RowShape& shape, Point at);
// Takes corners at the place away where enough others are left: two of a line, three of a fence.
bool remove_corner(RowShape& shape, Point at);
// The place on the outline nearest to p; nullopt for points.
[[nodiscard]] std::optional<Point> on_outline(const RowShape& shape, Point p);

}  // namespace haylane
