#pragma once
// The safety block, printed once on the front page of every paper that sends someone out to feed.

#include <string_view>

#include <QString>

namespace haylane {

inline constexpr std::string_view kSafetyText =
    "PTO off, engine off, key out before you leave the seat, cut wrap or clear the rotor; shields "
    "on. "
    "Nobody and no stock on the discharge side. Travel with bales low; nobody under a raised bale; "
    "watch power lines. Never set or cut a bale where it can roll; stay uphill of it. Seat belt "
    "and "
    "roll bar; on ice half the dry slope limit; none on glare ice. Never cross pond or creek ice. "
    "Calves bed in old hay: do not drive over old windrows. All wrap off and counted home. Clean "
    "chaff "
    "off the exhaust; carry an extinguisher. Lights and slow-moving sign on roads. Check open "
    "water. "
    "Tell someone your way and return time. The map cannot see banks, rocks, holes or drifts: you "
    "decide.";

[[nodiscard]] inline QString safety_text() {
    return QString::fromUtf8(kSafetyText.data(), static_cast<qsizetype>(kSafetyText.size()));
}

}  // namespace haylane
