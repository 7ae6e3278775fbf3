#pragma once
#include <string>
#include <string_view>

namespace crushwright {

/// Channel code of ISO/TS 13499: 16 characters, in order test object (1), position (1), main location (4), fine
/// locations (2 + 2 + 2), physical dimension (2), direction (1), filter class (1). A '?' stands for a part that this
/// program does not know; docs/file_formats.md says which source each part has.
inline constexpr std::size_t channel_code_length = 16;

/// What a channel holds.
enum class ChannelDimension { acceleration, speed, crush, force };

/// Code of a computed channel along the line of impact: the location unknown, direction X, not filtered.
std::string channel_code(ChannelDimension dimension);

/// As the standard's files write a unit: "m/(s*s)", "m/s", "m", "N".
std::string_view channel_unit(ChannelDimension dimension);

/// True when no part of the code is unknown.
bool is_sure(std::string_view code);

} // namespace crushwright
