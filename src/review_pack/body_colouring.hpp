#pragma once
#include "review_pack/body_drawing.hpp"
#include "review_pack/body_figure.hpp"
#include "review_pack/body_image.hpp"
#include "review_pack/value_scale.hpp"

#include <functional>
#include <optional>
#include <string>
#include <vector>

namespace crushwright {

/// One way of colouring the body.
struct Colouring {
  const char* css_class;
  const char* row_name;
  ValueScale scale;
  std::function<double(const DrawnLayer&)> value; ///< 0 where there is none
  std::function<std::string(double)> text;
};

/// Absent where no layer has a lattice.
std::optional<Colouring> by_density(const std::vector<DrawnLayer>& layers);

/// Absent where no layer has its place in the order.
std::optional<Colouring> by_order(const std::vector<DrawnLayer>& layers);

/// @param colouring  null for none: all of one plain colour
StationColours colours_along(const std::vector<DrawnLayer>& layers, const Colouring* colouring);

/// The value at each of some stations [m]; at the boundary of two layers that of the layer towards the attachment.
RulerRow values_along(const std::vector<DrawnLayer>& layers, const Colouring& colouring,
                      const std::vector<double>& stations);

/// The scale with its bounds, and what the greys mean.
std::string legend_html(const std::vector<DrawnLayer>& layers, const Colouring& colouring, const BodyShape& shape);

} // namespace crushwright
