#pragma once
// The window's own look: warm paper colours on Qt's plain style.

#include <QColor>

namespace haylane::look {

inline constexpr QColor kGround{0xef, 0xe5, 0xd1};  // around the paper
inline constexpr QColor kPaper{0xfb, 0xf6, 0xea};   // the map's own paper
inline constexpr QColor kInk{0x1c, 0x19, 0x15};
inline constexpr QColor kFadedInk{0x6b, 0x5d, 0x4a};
inline constexpr QColor kRule{0xcf, 0xc1, 0xa4};
inline constexpr QColor kHay{0xd9, 0xa4, 0x2b};
inline constexpr QColor kRust{0x9c, 0x3b, 0x1e};

}  // namespace haylane::look

namespace haylane {

// Call once, after the application object is made.
void use_warm_look();

}  // namespace haylane
