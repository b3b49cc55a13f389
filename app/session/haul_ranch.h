#pragma once
// What hauling costs on a book's ranch: the request in the ranch's own names, what-ifs beside it,
// where to stack, and the files that are written.

#include "app/session/open_ranch.h"
#include "core/base/progress.h"
#include "core/haul/haul_account.h"
#include "core/haul/ownership.h"
#include "core/haul/stack_places.h"

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

namespace haylane {

struct HaulAsked {
    std::optional<sys_days> from;  // left out: usual_haul_day
    std::vector<std::string> blocked;
    // Each is one row: "days_at_once=2", "bales_per_load=1", "round_to=load", "check_trip=no",
    // "trail:NAME=gravel", "gate:NAME=LON,LAT" or a setting, "fuel_price_per_gal=5"; several in one
    // row are parted by ";".
    std::vector<std::string> what_ifs;
    bool usual_what_ifs = true;     // also those that every ranch asks
    std::vector<std::string> buys;  // machines, as machine_offer reads them
    int stacks = 0;                 // places to stack at most; 0 = as many as yards
    Progress progress;
};

struct HaulReport {
    HaulAccount account;
    std::vector<HaulWhatIf> what_ifs;
    std::vector<MachineOffer> offers;
    std::optional<StackPlaces> stacks;
    std::string why_no_stacks;
    std::vector<std::filesystem::path> files;
};

// The day of the hay count, else the first day of weather; nullopt without either.
[[nodiscard]] std::optional<sys_days> usual_haul_day(const Ranch& ranch);

// Writes haul.json, haul.csv and haul-report.pdf to the folder where one is named (made if absent).
// Errors: unknown_what_if, unknown_offer, unknown_rig, number_out_of_range, unknown_way, no_haul,
// no_date, cancelled, folder_unwritable, those of the writers.
[[nodiscard]] Result<HaulReport> haul_of_ranch(const OpenRanch& open, const HaulAsked& asked,
                                               const std::filesystem::path& folder, bool metric);

}  // namespace haylane
