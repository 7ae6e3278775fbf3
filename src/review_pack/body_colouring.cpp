#include "review_pack/body_colouring.hpp"

#include "review_pack/svg.hpp"

#include <algorithm>

#include <fmt/format.h>

namespace crushwright {

std::optional<Colouring> by_density(const std::vector<DrawnLayer>& layers) {
  double low = 1, high = 0;
  for (const DrawnLayer& layer : layers) {
    if (layer.relative_density > 0) {
      low = std::min(low, layer.relative_density);
      high = std::max(high, layer.relative_density);
    }
  }
  if (high <= 0) {
    return std::nullopt;
  }
  return Colouring{"by-density", "relative density [%]", density_scale(low, high),
                   [](const DrawnLayer& layer) { return layer.relative_density; },
                   [](double value) { return fmt::format("{:.1f}", 100 * value); }};
}

std::optional<Colouring> by_order(const std::vector<DrawnLayer>& layers) {
  int last = 0;
  for (const DrawnLayer& layer : layers) {
    last = std::max(last, layer.crush_order);
  }
  if (last < 1) {
    return std::nullopt;
  }
  return Colouring{"by-order", "crush order, 1 first", order_scale(last),
                   [](const DrawnLayer& layer) { return static_cast<double>(std::max(0, layer.crush_order)); },
                   [](double value) { return fmt::format("{:.0f}", value); }};
}

StationColours colours_along(const std::vector<DrawnLayer>& layers, const Colouring* colouring) {
  StationColours along;
  for (const DrawnLayer& layer : layers) {
    const double value = colouring != nullptr ? colouring->value(layer) : 0;
    along.ends.push_back(layer.to);
    along.colours.push_back(value > 0 ? colouring->scale.colours[colouring->scale.step_of(value)] : no_value_colour);
  }
  if (layers.empty()) {
    along = {{0}, {no_value_colour}};
  }
  return along;
}

RulerRow values_along(const std::vector<DrawnLayer>& layers, const Colouring& colouring,
                      const std::vector<double>& stations) {
  RulerRow row{colouring.row_name, {}};
  for (const double station : stations) {
    const auto layer =
        std::find_if(layers.begin(), layers.end(), [&](const DrawnLayer& each) { return station < each.to - 1e-9; });
    const double value = colouring.value(layer == layers.end() ? layers.back() : *layer);
    row.texts.push_back(value > 0 ? colouring.text(value) : "none");
  }
  return row;
}

std::string legend_html(const std::vector<DrawnLayer>& layers, const Colouring& colouring, const BodyShape& shape) {
  const bool no_value = std::any_of(layers.begin(), layers.end(),
                                    [&](const DrawnLayer& layer) { return !(colouring.value(layer) > 0); });
  const ValueScale& scale = colouring.scale;
  const double width = scale.labels_bounds() ? 52 : 66;
  double x = 24;
  Svg svg;
  svg.text({x, 14}, scale.quantity, "start");
  for (std::size_t i = 0; i < scale.colours.size(); ++i) {
    svg.swatch({x, 22}, width, 14, css_text(scale.colours[i]));
    svg.text({scale.labels_bounds() ? x : x + 0.5 * width, 50}, scale.labels[i]);
    x += width;
  }
  if (scale.labels_bounds()) {
    svg.text({x, 50}, scale.labels.back());
  }
  x += 44;
  const auto plain = [&](const Colour& colour, const char* words) {
    svg.swatch({x, 22}, 26, 14, css_text(colour));
    svg.text({x + 13, 50}, words);
    x += 84;
  };
  if (shape.surface != nullptr && shape.skin_thickness > 0) {
    plain(skin_cut_colour, "cut skin");
  }
  if (shape.surface != nullptr) {
    plain(skin_inside_colour, "far wall");
  }
  if (no_value) {
    plain(no_value_colour, "no value");
  }
  return "<div class=\"legend\">" + svg.take(std::max(x, 300.0), 58, "Scale: " + scale.quantity) + "</div>\n";
}

} // namespace crushwright
