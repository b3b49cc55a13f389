#pragma once
// Holds a planned day or line, or one drawn by the user, closes ground for some days, and lets go
// of either; all of it kept in the book.

#include "app/session/open_ranch.h"
#include "gis/book/hold_store.h"

#include <filesystem>
#include <string>
#include <vector>

namespace haylane {

struct HoldRequest {
    sys_days date;
    std::string herd;             // empty = every herd planned that day (or the only herd)
    bool line_only = false;       // the line as planned; bales and rig are planned anew
    std::filesystem::path drawn;  // lines of this file, in its order; empty = as planned
    MultiPolyline lines;          // drawn on the screen instead: ranch frame, driving order
};

struct CloseRequest {
    std::filesystem::path drawn;  // an area
    MultiPolygon area;            // drawn on the screen instead: ranch frame
    sys_days from;
    sys_days to;
    std::string pasture;  // empty = in every pasture
    std::string name;     // empty = the file's name, or "closed ground"
};

// One sentence a thing done, for people. Errors: "no_plan", "already_fed", "unknown_herd",
// "no_line_drawn", "line_outside" (in no pasture), "usage", those of read_layers and save_holds.
[[nodiscard]] Result<std::vector<std::string>> hold_day(const OpenRanch& open,
                                                        const HoldRequest& request);
// Errors: "no_area_drawn", "dates_reversed", "unknown_pasture", those of read_layers and
// save_holds.
[[nodiscard]] Result<std::vector<std::string>> close_ground(const OpenRanch& open,
                                                            const CloseRequest& request);

// Lets go of what is held for a herd and day. Errors: "nothing_held", "unknown_herd", those of
// stored_holds and release_holds.
[[nodiscard]] Result<std::vector<std::string>> let_go(const OpenRanch& open,
                                                      const std::string& herd, sys_days date);

// "2027-01-11, Main cows: the day, 6 bales in Home Flat", without the number.
[[nodiscard]] std::string describe_hold(const StoredHold& hold);

// Lines of a vector file in the ranch frame, in the file's order.
[[nodiscard]] Result<MultiPolyline> drawn_lines(const OpenRanch& open,
                                                const std::filesystem::path& file);

}  // namespace haylane
