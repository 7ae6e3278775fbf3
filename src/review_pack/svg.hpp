#pragma once
#include <array>
#include <string>
#include <string_view>
#include <vector>

namespace crushwright {

using SvgPoint = std::array<double, 2>; ///< right and down [px]

/// Collects the elements of one drawing; classes are styled by the page (page_style.hpp).
class Svg {
public:
  void line(SvgPoint from, SvgPoint to, std::string_view css_class);
  /// An open line through points.
  void path(const std::vector<SvgPoint>& points, std::string_view css_class);
  void polygon(const std::vector<SvgPoint>& corners, std::string_view css_class, double opacity = 1);
  /// @param anchor  "start", "middle" or "end".  @param angle  turns the text about its place, clockwise [degree].
  void text(SvgPoint at, std::string_view words, std::string_view anchor = "middle", double angle = 0);
  /// A dimension line with short strokes at its ends and the words beside its middle.
  void dimension(SvgPoint from, SvgPoint to, std::string_view words);
  /// Parallel short strokes that mark fixed ground along a horizontal line.
  void ground(double left, double right, double y);
  /// The bytes of a PNG file, stretched over a rectangle.
  void image(SvgPoint at, double width, double height, std::string_view png);
  /// A framed rectangle. @param colour  as in a style sheet, "#1d4f7c".
  void swatch(SvgPoint at, double width, double height, std::string_view colour);
  /// The drawing, with its title for readers that do not see it.
  std::string take(double width, double height, std::string_view title) const;

private:
  std::string body_;
};

} // namespace crushwright
