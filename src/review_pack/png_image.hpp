#pragma once
#include <array>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace crushwright {

/// A picture in grey with coverage; row by row from the top.
struct GreyImage {
  int width = 0;
  int height = 0;
  std::vector<std::uint8_t> grey;     ///< 0 black to 255 white; shape = (height, width)
  std::vector<std::uint8_t> coverage; ///< 0 clear to 255 opaque; shape = (height, width)
};

/// A picture of at most 256 colours; row by row from the top.
struct PaletteImage {
  int width = 0;
  int height = 0;
  /// Red, green, blue and 0 clear to 255 opaque; shape = (1 to 256, 4)
  std::vector<std::array<std::uint8_t, 4>> palette;
  std::vector<std::uint8_t> places; ///< in the palette; shape = (height, width)
};

/// The picture as a PNG file's bytes: eight bits of grey and eight of alpha, no time stamp, so that the same picture
/// gives the same bytes.
std::string png_bytes(const GreyImage& image);

/// The same with eight bits a pixel into a palette.
/// @throws OutOfDomain when the palette is empty or holds more than 256 colours.
std::string png_bytes(const PaletteImage& image);

/// Bytes in base 64 [RFC 4648, section 4], for a data URI.
std::string base64(std::string_view bytes);

} // namespace crushwright
