// Any bytes as a pasture's corners (two signed 16-bit numbers each, metres; a first byte says how
// lines are asked for): its shape is repaired as a ranch's is, and lines are looked for on it. Each
// line must lie on ground that may be fed.
#include "core/lines/candidate_lines.h"
#include "core/ranch/check_ranch.h"

#include <cstdint>
#include <cstdlib>

namespace {

using namespace haylane;

Ring corners(const std::uint8_t* data, std::size_t size) {
    Ring ring;
    for (std::size_t i = 0; i + 4 <= std::min<std::size_t>(size, 160); i += 4) {
        const auto at = [&](std::size_t k) {
            return static_cast<double>(
                static_cast<std::int16_t>(static_cast<std::uint16_t>(data[k] << 8U | data[k + 1])) /
                16.0);
        };
        ring.push_back({at(i), at(i + 2)});
    }
    return ring;
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    if (size < 13) return 0;
    RawRanch raw;
    RawRow pasture;
    pasture.fields["name"] = std::string("Fuzz");
    pasture.shape = MultiPolygon{{corners(data + 1, size - 1), {}}};
    raw.roles["pastures"].push_back(pasture);
    const auto checked = check_ranch(raw);
    if (!checked) return 0;
    const Terrain terrain;
    const auto ground = feedable_ground(checked->ranch, PastureId::at(0), terrain, {});
    if (!ground) return 0;
    LineRequest request;
    request.loads = {{2, 40.0 + data[0]}, {1, 60.0}};
    request.line_radius_m = (data[0] & 1U) != 0 ? 12.0 : 0.0;
    request.in_rings = (data[0] & 2U) != 0;
    request.heading_step_rad = 0.5;
    request.max_candidates = 100;
    for (const Candidate& candidate : candidate_lines(*ground, request)) {
        for (const CandidateLine& line : candidate.lines) {
            if (!ground->allows_line(line.path)) std::abort();
        }
    }
    return 0;
}
