#include "review_pack/body_figure.hpp"

#include "review_pack/svg.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include <fmt/format.h>

namespace crushwright {

namespace {

std::string millimetres(double metres) {
  return fmt::format("{:g}", std::round(metres * 1e4) / 10 + 0.0); // no "-0"
}

SvgPoint moved(const SvgPoint& at, const SvgPoint& way, double by) {
  return {at[0] + by * way[0], at[1] + by * way[1]};
}

/// A line with a closed tip.
void arrow(Svg& svg, const SvgPoint& from, const SvgPoint& to) {
  svg.line(from, to, "dimension");
  const double length = std::hypot(to[0] - from[0], to[1] - from[1]);
  const SvgPoint along = {(to[0] - from[0]) / length, (to[1] - from[1]) / length}, aside = {-along[1], along[0]};
  const SvgPoint neck = moved(to, along, -7);
  svg.polygon({to, moved(neck, aside, 3), moved(neck, aside, -3)}, "arrow-head");
}

/// Arrows along the axes as they are seen.
void axes(Svg& svg, const CellView& view, const SvgPoint& origin) {
  constexpr const char* letters[] = {"x", "y", "z"};
  for (std::size_t a = 0; a < 3; ++a) {
    const SvgPoint way = {view.right[a], -view.up[a]};
    arrow(svg, origin, moved(origin, way, 38));
    svg.text(moved(moved(origin, way, 49), {0, 1}, 4), letters[a]);
  }
}

} // namespace

BodyBox box_of(const BodyShape& body) {
  constexpr double far = std::numeric_limits<double>::infinity();
  BodyBox box{{far, far, far}, {-far, -far, -far}};
  visit_extent(body, [&](const ViewVector& point, double radius) {
    for (std::size_t a = 0; a < 3; ++a) {
      box.low[a] = std::min(box.low[a], point[a] - radius);
      box.high[a] = std::max(box.high[a], point[a] + radius);
    }
  });
  return box;
}

double ruler_step(double length, int most) {
  for (double decade = std::pow(10.0, std::floor(std::log10(length / most)));; decade *= 10) {
    for (const double digit : {1.0, 2.0, 5.0}) {
      if (length / (digit * decade) <= most * (1 + 1e-9)) {
        return digit * decade;
      }
    }
  }
}

std::vector<double> ruler_marks(const BodyBox& box, int most) {
  const double step = ruler_step(box.high[0] - box.low[0], most);
  std::vector<double> marks;
  for (double i = std::ceil(box.low[0] / step - 1e-6); i * step <= box.high[0] + 1e-6 * step; ++i) {
    marks.push_back(i * step);
  }
  return marks;
}

std::string oblique_figure(const std::string& png, const RasterFrame& frame, const CellView& view, const BodyBox& box,
                           const std::string& title) {
  constexpr double left = 46, top = 10, width = 380, right = 86; // on the left "struck end" may stick out
  const double scale = std::min(width / frame.width, 330.0 / frame.height);
  Svg svg;
  svg.image({left, top}, scale * frame.width, scale * frame.height, png);
  const auto place = [&](const ViewVector& point) {
    return SvgPoint{left + scale * (dot(point, view.right) - frame.left) / frame.pixel,
                    top + scale * (frame.top - dot(point, view.up)) / frame.pixel};
  };
  const auto on_edge = [&](double station) { return place({station, box.low[1], box.low[2]}); };
  const SvgPoint from = on_edge(box.low[0]), to = on_edge(box.high[0]);
  const double length = std::hypot(to[0] - from[0], to[1] - from[1]);
  const SvgPoint off = {-(to[1] - from[1]) / length, (to[0] - from[0]) / length}; // away from the body
  svg.line(moved(from, off, 10), moved(to, off, 10), "dimension");
  double lowest = top + scale * frame.height;
  const std::vector<double> marks = ruler_marks(box, 5);
  for (const double mark : marks) {
    const SvgPoint at = on_edge(mark);
    svg.line(moved(at, off, 7), moved(at, off, 13), "dimension");
    const SvgPoint words = moved(at, off, 25);
    svg.text({words[0], words[1] + 4}, millimetres(mark) + (mark == marks.back() && marks.size() > 1 ? " mm" : ""));
    lowest = std::max(lowest, words[1] + 4);
  }
  const SvgPoint struck = moved(from, off, 10), attached = moved(to, off, 10);
  svg.text({struck[0] - 9, struck[1] + 4}, "struck end", "end");
  svg.text({attached[0] + 8, attached[1] + 6}, "attachment", "start");
  const double whole_width = left + width + right;
  const double axes_at = std::max(attached[1] + 66, lowest - 6);
  axes(svg, view, {whole_width - 62, axes_at});
  return svg.take(whole_width, std::max(lowest, axes_at) + 12, title);
}

std::string cut_figure(const std::string& png, const RasterFrame& frame, const BodyBox& box,
                       const std::vector<RulerRow>& rows, const std::string& title) {
  constexpr double left = 152, top = 26, width = 700, height = 400, right = 66;
  const double scale = std::min(width / frame.width, height / frame.height);
  Svg svg;
  svg.image({left, top}, scale * frame.width, scale * frame.height, png);
  const auto across = [&](double station) { return left + scale * (station - frame.left) / frame.pixel; };
  const auto down = [&](double z) { return top + scale * (frame.top - z) / frame.pixel; };
  const double edge = down(box.low[2]);
  svg.text({across(box.low[0]), top - 12}, "struck end", "start");
  svg.text({across(box.high[0]), top - 12}, "attachment", "end");
  svg.line({across(box.low[0]), edge + 12}, {across(box.high[0]), edge + 12}, "dimension");
  const std::vector<double> marks = ruler_marks(box, 8);
  svg.text({left - 20, edge + 33}, "station [mm]", "end");
  for (const double mark : marks) {
    svg.line({across(mark), edge + 9}, {across(mark), edge + 15}, "dimension");
    svg.text({across(mark), edge + 33}, millimetres(mark));
  }
  double line = edge + 33;
  for (const RulerRow& row : rows) {
    line += 18;
    svg.text({left - 20, line}, row.name, "end");
    for (std::size_t i = 0; i < marks.size() && i < row.texts.size(); ++i) {
      svg.text({across(marks[i]), line}, row.texts[i]);
    }
  }
  const double beside = across(box.high[0]) + 16;
  svg.dimension({beside, down(box.high[2])}, {beside, edge}, millimetres(box.high[2] - box.low[2]) + " mm");
  return svg.take(left + scale * frame.width + right, line + 12, title);
}

} // namespace crushwright
