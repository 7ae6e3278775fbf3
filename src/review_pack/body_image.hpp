#pragma once
#include "review_pack/body_raster.hpp"
#include "review_pack/png_image.hpp"
#include "review_pack/value_scale.hpp"

#include <cstddef>
#include <vector>

namespace crushwright {

/// Colours along the station, one for each range; before the first and after the last range theirs go on.
struct StationColours {
  std::vector<double> ends;    ///< where each range ends, rising [m]; shape = (number of ranges)
  std::vector<Colour> colours; ///< shape = (number of ranges)

  std::size_t range_at(double station) const;
};

constexpr Colour skin_cut_colour = {78, 84, 92};
constexpr Colour skin_inside_colour = {236, 238, 241};
constexpr Colour no_value_colour = {168, 172, 178}; ///< of a layer that has no value on the scale

/// The picture in colours: light times the colour of the station; cut skin and the skin's inside in greys of their
/// own; as many levels of light as 256 colours leave room for.
///
/// @param most_levels  of light, > 7; fewer make a smaller file
/// @throws OutOfDomain when the ranges have so many colours that no levels of light are left for them.
PaletteImage body_image(const BodyRaster& raster, const StationColours& colours, int most_levels = 64);

} // namespace crushwright
