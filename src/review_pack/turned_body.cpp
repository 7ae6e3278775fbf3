#include "review_pack/turned_body.hpp"

#include "review_pack/body_figure.hpp"
#include "review_pack/html.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

#include <fmt/format.h>
#include <tbb/parallel_for.h>

namespace crushwright {

namespace {

constexpr int turned_pixels = 440;
constexpr int turned_views = 10; // once round

/// A frame in which the body stays whole and in its place when it turns about its upright middle.
RasterFrame turning_frame(const BodyBox& box, const CellView& view) {
  ViewVector middle{}, half{};
  for (std::size_t a = 0; a < 3; ++a) {
    middle[a] = 0.5 * (box.low[a] + box.high[a]);
    half[a] = 0.5 * (box.high[a] - box.low[a]);
  }
  const double across = std::hypot(half[0], half[1]);
  const double tall = across * std::sqrt(1 - view.up[2] * view.up[2]) + half[2] * view.up[2];
  RasterFrame frame;
  frame.pixel = 2 * std::max(across, tall) / (turned_pixels - 2);
  frame.width = static_cast<int>(std::ceil(2 * across / frame.pixel)) + 2;
  frame.height = static_cast<int>(std::ceil(2 * tall / frame.pixel)) + 2;
  frame.left = dot(middle, view.right) - 0.5 * frame.width * frame.pixel;
  frame.top = dot(middle, view.up) + 0.5 * frame.height * frame.pixel;
  return frame;
}

} // namespace

std::string turned_lattice_html(const BodyShape& shape, const std::string& name, const StationColours& colours,
                                double azimuth, double elevation) {
  const BodyBox box = box_of(shape);
  std::vector<std::string> pictures(turned_views);
  tbb::parallel_for(0, turned_views, [&](int i) {
    const CellView view = cell_view(azimuth + 360.0 * i / turned_views, elevation);
    pictures[static_cast<std::size_t>(i)] = base64(
        png_bytes(body_image(body_raster(shape, BodySight::lattice, view, turning_frame(box, view)), colours, 14)));
  });
  std::string html = fmt::format(
      "<details class=\"turn\"><summary>Turn the lattice</summary>\n<input type=\"range\" min=\"0\" max=\"{}\" "
      "value=\"0\" aria-label=\"Turn the lattice of {}\" oninput=\"this.parentNode.querySelectorAll('img').forEach("
      "(picture, i) => {{ picture.hidden = i != this.value; }})\">\n",
      turned_views - 1, escape_html(name));
  for (std::size_t i = 0; i < pictures.size(); ++i) {
    html += fmt::format("<img alt=\"the lattice turned by {} degrees\"{} src=\"data:image/png;base64,{}\">\n",
                        i * 360 / turned_views, i > 0 ? " hidden" : "", pictures[i]);
  }
  return html + "</details>\n";
}

} // namespace crushwright
