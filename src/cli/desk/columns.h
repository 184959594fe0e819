#pragma once

#include <cstddef>

// How wide what is printed of the morning and of the days to come may be.
namespace cli {

inline constexpr std::size_t kMostColumns = 76;  // a line that is longer is not read in one look
// On a narrower terminal, columns of their own have no room.
inline constexpr std::size_t kNarrow = 60;

}  // namespace cli
