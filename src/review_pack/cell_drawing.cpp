#include "review_pack/cell_drawing.hpp"

#include "crushwright/errors.hpp"
#include "crushwright/homogenisation.hpp"
#include "review_pack/cell_raster.hpp"
#include "review_pack/html.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>

#include <fmt/format.h>

namespace crushwright {

namespace {

using Place = std::array<double, 2>; ///< right and down in the drawing [px]

// Classes carry the drawing's own names, because a style inside a page holds for the whole page.
constexpr const char* style =
    "<style>.cell-drawing{--cell-ink:#1b1d21;--cell-paper:#fff}"
    "@media screen and (prefers-color-scheme:dark){.cell-drawing{--cell-ink:#e4e6ea;--cell-paper:#16181c}}"
    ".cell-drawing .box{fill:none;stroke:var(--cell-ink);stroke-width:1;stroke-opacity:.75}"
    ".cell-drawing .behind{stroke-opacity:.4;stroke-dasharray:4 4}"
    ".cell-drawing .arrow{fill:none;stroke:var(--cell-ink);stroke-width:1.2}"
    ".cell-drawing .crush{fill:none;stroke:var(--cell-ink);stroke-width:5}"
    ".cell-drawing .head{fill:var(--cell-ink)}"
    ".cell-drawing text{font:italic 17px system-ui,Arial,'Liberation Sans',sans-serif;fill:var(--cell-ink);"
    "text-anchor:middle;dominant-baseline:central}"
    ".cell-drawing .words{font-style:normal;font-size:14px}</style>\n";

/// Draws lines in pixels and remembers how far they reach.
class Lines {
public:
  Lines(const CellView& view, const RasterFrame& frame) : view_(view), frame_(frame) {
    reach({0, 0}, 0);
    reach({static_cast<double>(frame.width), static_cast<double>(frame.height)}, 0);
  }

  Place place(const ViewVector& point) const {
    return {(dot(point, view_.right) - frame_.left) / frame_.pixel,
            (frame_.top - dot(point, view_.up)) / frame_.pixel};
  }

  void line(std::string& into, const Place& from, const Place& to, const char* css_class) {
    fmt::format_to(std::back_inserter(into), "<path class=\"{}\" d=\"M{:.1f} {:.1f}L{:.1f} {:.1f}\"/>\n", css_class,
                   from[0], from[1], to[0], to[1]);
    reach(from, 4);
    reach(to, 4);
  }

  /// @param head  length of the arrow's head [px]
  void arrow(std::string& into, const Place& from, const Place& to, double head, const char* css_class) {
    const double length = std::hypot(to[0] - from[0], to[1] - from[1]);
    const Place along = {(to[0] - from[0]) / length, (to[1] - from[1]) / length};
    const Place neck = {to[0] - head * along[0], to[1] - head * along[1]};
    const double half = 0.45 * head;
    line(into, from, {neck[0] + along[0], neck[1] + along[1]}, css_class);
    fmt::format_to(std::back_inserter(into),
                   "<path class=\"head\" d=\"M{:.1f} {:.1f}L{:.1f} {:.1f}L{:.1f} {:.1f}Z\"/>\n", to[0], to[1],
                   neck[0] - half * along[1], neck[1] + half * along[0], neck[0] + half * along[1],
                   neck[1] - half * along[0]);
    reach(to, half);
  }

  void text(std::string& into, const Place& at, std::string_view words, const char* css_class, double half_width) {
    fmt::format_to(std::back_inserter(into), "<text x=\"{:.1f}\" y=\"{:.1f}\" class=\"{}\">{}</text>\n", at[0], at[1],
                   css_class, words);
    reach({at[0] - half_width, at[1] - 10}, 0);
    reach({at[0] + half_width, at[1] + 10}, 0);
  }

  double left = 0, top = 0, right = 0, bottom = 0; ///< of all that was drawn [px]

private:
  const CellView& view_;
  const RasterFrame& frame_;

  void reach(const Place& at, double beyond) {
    left = std::min(left, at[0] - beyond);
    top = std::min(top, at[1] - beyond);
    right = std::max(right, at[0] + beyond);
    bottom = std::max(bottom, at[1] + beyond);
  }
};

/// What lies behind the picture of the metal and what lies before it.
struct Layers {
  std::string behind, before;
};

ViewVector between(const ViewVector& from, const ViewVector& to, double part) {
  return {from[0] + part * (to[0] - from[0]), from[1] + part * (to[1] - from[1]), from[2] + part * (to[2] - from[2])};
}

/// An edge of the box: before the metal where nothing hides it, behind it elsewhere. The three edges that meet in the
/// far corner are dashed where they are seen.
void box_edge(Layers& layers, Lines& lines, const CellView& view, const CellRaster& raster, const ViewVector& from,
              const ViewVector& to, bool far_side) {
  if (far_side) {
    lines.line(layers.behind, lines.place(from), lines.place(to), "box behind");
    return;
  }
  constexpr int parts = 240;
  int begun = -1;
  for (int i = 0; i <= parts; ++i) {
    const bool seen = i < parts && !raster.hides(view, between(from, to, (i + 0.5) / parts));
    if (seen && begun < 0) {
      begun = i;
    } else if (!seen && begun >= 0) {
      lines.line(layers.before, lines.place(between(from, to, static_cast<double>(begun) / parts)),
                 lines.place(between(from, to, static_cast<double>(i) / parts)), "box");
      begun = -1;
    }
  }
}

void box(Layers& layers, Lines& lines, const CellView& view, const CellRaster& raster, const ViewVector& size) {
  for (std::size_t axis = 0; axis < 3; ++axis) {
    const std::size_t second = (axis + 1) % 3, third = (axis + 2) % 3;
    for (int corner = 0; corner < 4; ++corner) {
      ViewVector from{};
      from[second] = (corner & 1) != 0 ? size[second] : 0;
      from[third] = (corner & 2) != 0 ? size[third] : 0;
      ViewVector to = from;
      to[axis] = size[axis];
      // An edge is hidden by the box itself where both faces that meet in it look away.
      const bool away_second = (from[second] > 0) != (view.toward[second] > 0);
      const bool away_third = (from[third] > 0) != (view.toward[third] > 0);
      box_edge(layers, lines, view, raster, from, to, away_second && away_third);
    }
  }
}

/// Small arrows beside the three box edges that meet the outline at the lower left and right, each with its letter.
void axes(Layers& layers, Lines& lines, const ViewVector& size, double margin) {
  struct Axis {
    ViewVector from, to;
    Place off; ///< away from the box [px]
    const char* letter;
  };
  const double m = margin;
  const Axis all[] = {{{0, -m, -m}, {size[0], -m, -m}, {-6, 20}, "x"},
                      {{size[0] + m, 0, -m}, {size[0] + m, size[1], -m}, {16, 12}, "y"},
                      {{-m, -m, 0}, {-m, -m, size[2]}, {-20, 0}, "z"}};
  for (const Axis& axis : all) {
    const auto shifted = [&](double part) {
      const Place at = lines.place(between(axis.from, axis.to, part));
      return Place{at[0] + axis.off[0], at[1] + axis.off[1]};
    };
    const Place from = shifted(0.05);
    const Place end = shifted(1);
    const double length = std::hypot(end[0] - from[0], end[1] - from[1]);
    const Place along = {(end[0] - from[0]) / length, (end[1] - from[1]) / length};
    const double drawn = std::min(54.0, 0.6 * length);
    lines.arrow(layers.before, from, {from[0] + drawn * along[0], from[1] + drawn * along[1]}, 9, "arrow");
    lines.text(layers.before, {from[0] + (drawn + 13) * along[0], from[1] + (drawn + 13) * along[1]}, axis.letter, "",
               8);
  }
}

/// Where a line from the middle of the box leaves it.
double way_out(const ViewVector& size, const Eigen::Vector3d& direction, double margin) {
  double way = 1e9;
  for (std::size_t a = 0; a < 3; ++a) {
    const double part = std::abs(direction[static_cast<Eigen::Index>(a)]);
    if (part > 1e-9) {
      way = std::min(way, (0.5 * size[a] + margin) / part);
    }
  }
  return way;
}

/// Two arrows that press on the cell from both ends, the farther one behind the metal.
void crush_arrows(Layers& layers, Lines& lines, const CellView& view, const RasterFrame& frame,
                  const ViewVector& size, double margin, const std::string& digits) {
  const Eigen::Vector3d direction = direction_vector(digits);
  const ViewVector middle = {0.5 * size[0], 0.5 * size[1], 0.5 * size[2]};
  const double tip = way_out(size, direction, margin) + 12 * frame.pixel;
  const double tail = tip + 78 * frame.pixel;
  const ViewVector d = {direction[0], direction[1], direction[2]};
  for (const double side : {1.0, -1.0}) {
    const auto at = [&](double way) {
      return lines.place(between(middle, {middle[0] + d[0], middle[1] + d[1], middle[2] + d[2]}, side * way));
    };
    const bool nearer = side * dot(d, view.toward) > 0;
    lines.arrow(nearer ? layers.before : layers.behind, at(tail), at(tip), 20, "crush");
    if (nearer) {
      Place words = at(tail + 16 * frame.pixel);
      const Place from = at(tail);
      // Arrows that stand upright carry their words on top, others beyond their end.
      const double lean = words[0] - from[0];
      words[0] += lean > 4 ? 34 : lean < -4 ? -34 : 0;
      lines.text(layers.before, words, fmt::format("crush {}", digits), "words", 34);
    }
  }
}

std::string picture(const CellRaster& raster) {
  return fmt::format("<image width=\"{}\" height=\"{}\" href=\"data:image/png;base64,{}\"/>\n", raster.frame.width,
                     raster.frame.height, base64(png_bytes(raster.image)));
}

} // namespace

bool has_drawing(const UnitCell& cell) {
  return cell.cell_class != CellClass::foam;
}

std::string cell_drawing_svg(const UnitCell& cell, double size_ratio, const CellDrawingOptions& options) {
  if (options.copies < 1 || options.copies > 4 || options.pixels < 16) {
    throw OutOfDomain(fmt::format("a drawing shows 1 to 4 copies on at least 16 pixels, not {} on {}", options.copies,
                                  options.pixels));
  }
  const CellView view = cell_view();
  const DrawnSolid solid = drawn_solid(cell, size_ratio, options.samples, options.copies);
  const CellRaster raster = cell_raster(solid, view, options.pixels);
  const ViewVector& size = solid.box;
  const double margin = -solid.low[0];
  Layers layers;
  Lines lines(view, raster.frame);
  box(layers, lines, view, raster, size);
  axes(layers, lines, size, margin);
  std::string title = fmt::format("{}, relative density {:.3g}", cell.name, relative_density(cell, size_ratio));
  if (!options.crush_direction.empty()) {
    crush_arrows(layers, lines, view, raster.frame, size, margin, options.crush_direction);
    title += fmt::format(", crushed along {}", options.crush_direction);
  }
  const double left = std::floor(lines.left) - 2, top = std::floor(lines.top) - 2;
  const double width = std::ceil(lines.right) + 2 - left, height = std::ceil(lines.bottom) + 2 - top;
  return fmt::format(
             "<svg xmlns=\"http://www.w3.org/2000/svg\" class=\"cell-drawing\" role=\"img\" "
             "viewBox=\"{:.0f} {:.0f} {:.0f} {:.0f}\" width=\"{:.0f}\" height=\"{:.0f}\">\n<title>{}</title>\n{}",
             left, top, width, height, width, height, escape_html(title), style) +
         layers.behind + picture(raster) + layers.before + "</svg>\n";
}

} // namespace crushwright
