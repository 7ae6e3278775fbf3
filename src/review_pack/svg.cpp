#include "review_pack/svg.hpp"

#include "review_pack/html.hpp"
#include "review_pack/png_image.hpp"

#include <cmath>
#include <iterator>

#include <fmt/format.h>

namespace crushwright {

void Svg::line(SvgPoint from, SvgPoint to, std::string_view css_class) {
  fmt::format_to(std::back_inserter(body_),
                 "<line x1=\"{:.1f}\" y1=\"{:.1f}\" x2=\"{:.1f}\" y2=\"{:.1f}\" class=\"{}\"/>\n", from[0], from[1],
                 to[0], to[1], css_class);
}

void Svg::path(const std::vector<SvgPoint>& points, std::string_view css_class) {
  body_ += "<polyline points=\"";
  for (const SvgPoint& point : points) {
    fmt::format_to(std::back_inserter(body_), "{:.1f},{:.1f} ", point[0], point[1]);
  }
  fmt::format_to(std::back_inserter(body_), "\" class=\"{}\"/>\n", css_class);
}

void Svg::polygon(const std::vector<SvgPoint>& corners, std::string_view css_class, double opacity) {
  body_ += "<polygon points=\"";
  for (const SvgPoint& corner : corners) {
    fmt::format_to(std::back_inserter(body_), "{:.1f},{:.1f} ", corner[0], corner[1]);
  }
  fmt::format_to(std::back_inserter(body_), "\" class=\"{}\" fill-opacity=\"{:.2f}\"/>\n", css_class, opacity);
}

void Svg::text(SvgPoint at, std::string_view words, std::string_view anchor, double angle) {
  const std::string turn =
      angle == 0 ? "" : fmt::format(" transform=\"rotate({:.0f} {:.1f} {:.1f})\"", angle, at[0], at[1]);
  fmt::format_to(std::back_inserter(body_), "<text x=\"{:.1f}\" y=\"{:.1f}\" text-anchor=\"{}\"{}>{}</text>\n", at[0],
                 at[1], anchor, turn, escape_html(words));
}

void Svg::dimension(SvgPoint from, SvgPoint to, std::string_view words) {
  line(from, to, "dimension");
  const bool upright = std::abs(to[1] - from[1]) > std::abs(to[0] - from[0]);
  const double dx = upright ? 5 : 0, dy = upright ? 0 : 5;
  for (const SvgPoint& end : {from, to}) {
    line({end[0] - dx, end[1] - dy}, {end[0] + dx, end[1] + dy}, "dimension");
  }
  const SvgPoint middle = {0.5 * (from[0] + to[0]), 0.5 * (from[1] + to[1])};
  if (upright) {
    text({middle[0] + 14, middle[1]}, words, "middle", -90);
  } else {
    text({middle[0], middle[1] - 6}, words);
  }
}

void Svg::ground(double left, double right, double y) {
  line({left, y}, {right, y}, "ground");
  for (double x = left + 8; x <= right; x += 8) {
    line({x - 8, y}, {x, y - 8}, "hatch");
  }
}

void Svg::image(SvgPoint at, double width, double height, std::string_view png) {
  fmt::format_to(std::back_inserter(body_),
                 "<image x=\"{:.1f}\" y=\"{:.1f}\" width=\"{:.1f}\" height=\"{:.1f}\" "
                 "href=\"data:image/png;base64,{}\"/>\n",
                 at[0], at[1], width, height, base64(png));
}

void Svg::swatch(SvgPoint at, double width, double height, std::string_view colour) {
  fmt::format_to(std::back_inserter(body_),
                 "<rect x=\"{:.1f}\" y=\"{:.1f}\" width=\"{:.1f}\" height=\"{:.1f}\" fill=\"{}\" "
                 "class=\"framed\"/>\n",
                 at[0], at[1], width, height, colour);
}

std::string Svg::take(double width, double height, std::string_view title) const {
  return fmt::format("<div class=\"wide\"><svg class=\"drawing\" role=\"img\" viewBox=\"0 0 {0:.0f} {1:.0f}\" "
                     "style=\"width:min({0:.0f}px, max(100%, 480px))\"><title>{2}</title>\n{3}</svg></div>\n",
                     width, height, escape_html(title), body_);
}

} // namespace crushwright
