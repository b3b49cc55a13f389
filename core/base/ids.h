#pragma once
// Distinct index types, so that a herd's number is never taken for a pasture's.

#include <compare>
#include <cstddef>
#include <cstdint>

namespace haylane {

// Place of an item in its vector of Ranch; -1 means none.
template <class Tag>
struct Id {
    std::int32_t value = -1;

    [[nodiscard]] constexpr bool valid() const { return value >= 0; }
    // Index into the vector; only for valid ids.
    [[nodiscard]] constexpr std::size_t index() const { return static_cast<std::size_t>(value); }
    [[nodiscard]] static constexpr Id at(std::size_t index) {
        return Id{static_cast<std::int32_t>(index)};
    }
    friend constexpr auto operator<=>(const Id&, const Id&) = default;  // NOLINT: no null here
};

using PastureId = Id<struct PastureTag>;
using OffLimitsId = Id<struct OffLimitsTag>;
using GateId = Id<struct GateTag>;
using TrailId = Id<struct TrailTag>;
using YardId = Id<struct YardTag>;
using LotId = Id<struct LotTag>;
using HerdId = Id<struct HerdTag>;
using RigId = Id<struct RigTag>;

}  // namespace haylane
