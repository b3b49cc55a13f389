#pragma once
// Cuts a cleaned track into stopped, loading, hauling, laying and returning, each piece with how
// sure that is. Works at intervals of 1 to 10 s and through silences of two minutes. Linear in the
// fixes; memory about 150 bytes a fix, for at most `most_fixes` fixes at a time.

#include "core/ranch/ranch.h"
#include "core/tracks/clean_track.h"
#include "core/tracks/motion_model.h"
#include "core/tracks/smooth_track.h"

#include <span>
#include <vector>

namespace haylane {

struct CutOptions {
    SmoothOptions smooth;
    double yard_m = 60.0;         // loading happens so near a yard; assumption
    double least_laid_m = 12.0;   // a shorter piece of laying counts as driving; assumption
    double chain_gap_s = 1800.0;  // after a longer silence a drive starts anew
    std::size_t most_fixes = 200'000;
};

struct CutTrack {
    std::vector<Piece> pieces;
    double feed_m_per_s = 0.0;  // that the last drive was cut by: the rig's, or its own
    bool feed_from_track = false;
    std::size_t held_fixes = 0;  // drift while standing: fixes of stops, held in one place
    [[nodiscard]] double length_m(Motion motion) const;
    [[nodiscard]] double time_s(Motion motion) const;
};

// What is told holds for the fixes of its time, whatever they look like, and the rest is cut to go
// with it; the later of two that speak of one time wins.
[[nodiscard]] CutTrack cut_track(const Ranch& ranch, const CleanTrack& track,
                                 const DriveSpeeds& speeds, std::span<const ToldMotion> told = {},
                                 const CutOptions& options = {});

// The speeds of a rig on its ranch: its own measured ones where there are any.
[[nodiscard]] DriveSpeeds drive_speeds(const Ranch& ranch, const Rig& rig);

}  // namespace haylane
