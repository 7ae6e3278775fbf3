#include "review_pack/chart.hpp"

#include "result_file/json_text.hpp"
#include "review_pack/label_layout.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <tuple>
#include <utility>

namespace crushwright {

namespace {

/// Five digits draw a line to a hundredth of a pixel and keep the page light.
double shortened(double value) {
  if (value == 0 || !std::isfinite(value)) {
    return value;
  }
  const double scale = std::pow(10.0, 4 - std::floor(std::log10(std::abs(value))));
  return std::round(value * scale) / scale;
}

Json row(std::initializer_list<double> values) {
  Json json = Json::array();
  for (const double value : values) {
    json.push_back(shortened(value));
  }
  return json;
}

Json axis_encoding(const std::string& title, double low, double high) {
  Json json{{"type", "quantitative"}};
  json["field"] = "0";
  json["scale"] = Json{{"domain", Json::array({low, high})}, {"nice", false}, {"zero", false}};
  json["axis"] = Json{{"title", title}};
  return json;
}

Json x_axis(const LineChart& chart) {
  return axis_encoding(chart.x_title, chart.x_low, chart.x_high);
}

Json y_axis(const LineChart& chart, const char* index) {
  Json json = axis_encoding(chart.y_title, chart.y_low, chart.y_high);
  json["field"] = index;
  return json;
}

Json dash_array(Dash dash) {
  switch (dash) {
  case Dash::solid:
    return Json::array({1, 0});
  case Dash::dashed:
    return Json::array({7, 4});
  case Dash::dotted:
    return Json::array({2, 3});
  case Dash::dash_dot:
    return Json::array({9, 3, 2, 3});
  }
  return {};
}

Json layer(Json data_rows, Json mark, Json encoding) {
  return Json{
      {"data", Json{{"values", std::move(data_rows)}}}, {"mark", std::move(mark)}, {"encoding", std::move(encoding)}};
}

Json band_layer(const LineChart& chart, const ChartBand& band) {
  Json rows = Json::array();
  for (std::size_t i = 0; i < band.x.size(); ++i) {
    rows.push_back(row({band.x[i], band.low[i], band.high[i]}));
  }
  return layer(std::move(rows), Json{{"type", "area"}, {"clip", true}, {"color", "var(--band)"}},
               Json{{"x", x_axis(chart)}, {"y", y_axis(chart, "1")}, {"y2", Json{{"field", "2"}}}});
}

Json line_layer(const LineChart& chart, const ChartLine& line) {
  Json rows = Json::array();
  const double tolerance = 5e-4 * (chart.y_high - chart.y_low);
  for (const ChartPoint& point : thinned(line.points, tolerance)) {
    rows.push_back(row({point.x, point.y}));
  }
  Json mark{{"type", "line"}, {"clip", true}, {"color", line.dash == Dash::solid ? "var(--line)" : "var(--ink)"}};
  mark["strokeWidth"] = line.dash == Dash::solid ? 2.0 : 1.4;
  mark["strokeDash"] = dash_array(line.dash);
  return layer(std::move(rows), std::move(mark), Json{{"x", x_axis(chart)}, {"y", y_axis(chart, "1")}});
}

Json level_layer(const ChartLevel& level, const Json& encoding) {
  Json mark{{"type", "rule"}, {"clip", true}, {"color", level.limit ? "var(--limit)" : "var(--ink)"}};
  mark["strokeWidth"] = level.limit ? 1.8 : 1.0;
  mark["strokeDash"] = level.limit ? Json::array({12, 4}) : Json::array({1, 3});
  return layer(Json::array({row({level.value})}), std::move(mark), encoding);
}

Json marker_layer(const LineChart& chart) {
  Json rows = Json::array();
  for (const ChartMarker& marker : chart.markers) {
    rows.push_back(row({marker.at.x, marker.at.y}));
  }
  Json mark{{"type", "point"}, {"shape", "circle"}, {"size", 50}, {"filled", true}, {"clip", true}};
  mark["color"] = "var(--ink)";
  mark["opacity"] = 1;
  return layer(std::move(rows), std::move(mark), Json{{"x", x_axis(chart)}, {"y", y_axis(chart, "1")}});
}

/// Turns data places into pixels of the narrowest plot and back.
class Scale {
public:
  explicit Scale(const LineChart& chart) : chart_(chart) {}
  double x(double value) const { return (value - chart_.x_low) / (chart_.x_high - chart_.x_low) * chart_.narrowest; }
  double y(double value) const { return (chart_.y_high - value) / (chart_.y_high - chart_.y_low) * chart_.height; }
  double width() const { return chart_.narrowest; }
  double height() const { return chart_.height; }
  double x_back(double pixel) const {
    return chart_.x_low + pixel / chart_.narrowest * (chart_.x_high - chart_.x_low);
  }
  double y_back(double pixel) const { return chart_.y_high - pixel / chart_.height * (chart_.y_high - chart_.y_low); }

private:
  const LineChart& chart_;
};

double value_at(const std::vector<ChartPoint>& points, double x) {
  for (std::size_t i = 1; i < points.size(); ++i) {
    if (points[i].x >= x) {
      const double span = points[i].x - points[i - 1].x;
      const double part = span > 0 ? (x - points[i - 1].x) / span : 1;
      return points[i - 1].y + std::clamp(part, 0.0, 1.0) * (points[i].y - points[i - 1].y);
    }
  }
  return points.empty() ? 0 : points.back().y;
}

Anchor anchor_at(double part) {
  return part < 0.3 ? Anchor::start : part > 0.7 ? Anchor::end : Anchor::middle;
}

std::vector<PlacedLabel> line_candidates(const LineChart& chart, const Scale& scale, const ChartLine& line) {
  std::vector<PlacedLabel> candidates;
  for (const double shift : {0.0, 0.06, -0.06, 0.12, -0.12, 0.2, -0.2, 0.3, -0.3, 0.45, -0.45}) {
    const double part = line.label_at + shift;
    if (part < 0.02 || part > 0.98) {
      continue;
    }
    const double x = chart.x_low + part * (chart.x_high - chart.x_low);
    const double y = scale.y(value_at(line.points, std::min(x, line.points.back().x)));
    for (const double side : {line.label_below ? 1.0 : -1.0, line.label_below ? -1.0 : 1.0}) {
      candidates.push_back({line.label, part * scale.width(), y + 11 * side, anchor_at(part), false});
      candidates.push_back({line.label, part * scale.width(), y + 15 * side, anchor_at(part), false});
    }
  }
  return candidates;
}

std::vector<PlacedLabel> level_candidates(const Scale& scale, const ChartLevel& level) {
  std::vector<PlacedLabel> candidates;
  const double y = scale.y(level.value);
  const PlacedLabel left{level.label, 0, y, Anchor::start, false, 4};
  const PlacedLabel right{level.label, scale.width(), y, Anchor::end, false, -4};
  // Curves rise from the lower left: a low line is free on the right, a high one on the left.
  const bool low = y > 0.75 * scale.height();
  for (const double side : {-1.0, 1.0}) {
    for (PlacedLabel label : {low ? right : left, low ? left : right}) {
      label.y += 8 * side;
      candidates.push_back(label);
    }
    candidates.push_back({level.label, scale.width() / 2, y + 8 * side, Anchor::middle, false});
  }
  return candidates;
}

std::vector<PlacedLabel> vertical_candidates(const LineChart& chart, const Scale& scale, const ChartLevel& level) {
  std::vector<PlacedLabel> candidates;
  const double x = scale.x(level.value);
  for (const double side : {-1.0, 1.0}) {
    candidates.push_back({level.label, x, 4, Anchor::end, true, 9 * side});
    candidates.push_back({level.label, x, chart.height - 6.0, Anchor::start, true, 9 * side});
  }
  return candidates;
}

std::vector<PlacedLabel> marker_candidates(const Scale& scale, const ChartMarker& marker) {
  const double x = scale.x(marker.at.x), y = scale.y(marker.at.y);
  std::vector<PlacedLabel> candidates;
  if (marker.label.size() < 4) {
    candidates.push_back({marker.label, x, y, Anchor::start, false, 7});
    candidates.push_back({marker.label, x, y, Anchor::end, false, -7});
  }
  for (const double drop : {13.0, -13.0, 22.0, -22.0, 32.0, -32.0, 44.0, -44.0}) {
    // A curve that rises leaves room above on the left and below on the right.
    const PlacedLabel right{marker.label, x, y + drop, Anchor::start, false, 3};
    const PlacedLabel left{marker.label, x, y + drop, Anchor::end, false, -3};
    candidates.push_back(drop > 0 ? right : left);
    candidates.push_back(drop > 0 ? left : right);
  }
  return candidates;
}

bool inside(double value, double low, double high) {
  return value >= low && value <= high;
}

/// Lines, levels and dots of the chart as small boxes that names keep off where they can.
void avoid_what_is_drawn(const LineChart& chart, const Scale& scale, LabelLayout& layout) {
  constexpr int samples = 60;
  for (const ChartLine& line : chart.lines) {
    for (int i = 0; i <= samples && !line.points.empty(); ++i) {
      const double x = chart.x_low + (chart.x_high - chart.x_low) * i / samples;
      if (x <= line.points.back().x) {
        layout.avoid(scale.x(x), scale.y(value_at(line.points, x)), scale.width() / samples, 3);
      }
    }
  }
  for (const ChartLevel& level : chart.levels) {
    layout.avoid(scale.width() / 2, scale.y(level.value), scale.width(), 1);
  }
  for (const ChartLevel& level : chart.verticals) {
    layout.avoid(scale.x(level.value), chart.height / 2.0, 1, chart.height);
  }
  for (const ChartMarker& marker : chart.markers) {
    layout.avoid(scale.x(marker.at.x), scale.y(marker.at.y), 9, 9);
  }
}

std::vector<PlacedLabel> labels_of(const LineChart& chart) {
  const Scale scale(chart);
  LabelLayout layout(scale.width(), chart.height);
  avoid_what_is_drawn(chart, scale, layout);
  for (const ChartLevel& level : chart.levels) {
    if (inside(level.value, chart.y_low, chart.y_high)) {
      layout.place(level_candidates(scale, level));
    }
  }
  for (const ChartLevel& level : chart.verticals) {
    if (inside(level.value, chart.x_low, chart.x_high)) {
      layout.place(vertical_candidates(chart, scale, level));
    }
  }
  for (const ChartMarker& marker : chart.markers) {
    if (!marker.label.empty() && inside(marker.at.x, chart.x_low, chart.x_high) &&
        inside(marker.at.y, chart.y_low, chart.y_high)) {
      layout.place(marker_candidates(scale, marker));
    }
  }
  for (const ChartLine& line : chart.lines) {
    if (!line.label.empty() && !line.points.empty()) {
      layout.place(line_candidates(chart, scale, line));
    }
  }
  return layout.placed();
}

const char* align_of(Anchor anchor) {
  return anchor == Anchor::start ? "left" : anchor == Anchor::end ? "right" : "center";
}

/// Names twice: a wide stroke of the paper's colour under the letters keeps them readable across lines.
void add_label_layers(const LineChart& chart, Json& layers) {
  const Scale scale(chart);
  std::map<std::tuple<Anchor, bool, double>, Json> groups;
  for (const PlacedLabel& label : labels_of(chart)) {
    Json entry = row({scale.x_back(label.x), scale.y_back(label.y)});
    entry.push_back(label.text);
    groups[{label.anchor, label.upright, label.beside}].push_back(std::move(entry));
  }
  for (const auto& [place, rows] : groups) {
    const Json encoding{{"x", x_axis(chart)}, {"y", y_axis(chart, "1")}, {"text", Json{{"field", "2"}}}};
    const auto& [anchor, upright, beside] = place;
    Json mark{{"type", "text"}, {"align", align_of(anchor)}, {"baseline", "middle"}};
    mark["angle"] = upright ? 270 : 0;
    mark[upright ? "dy" : "dx"] = beside; // offsets turn with the text
    Json under = mark;
    under["stroke"] = "var(--paper)";
    under["strokeWidth"] = 4;
    under["strokeJoin"] = "round";
    under["color"] = "var(--paper)";
    mark["color"] = "var(--ink)";
    layers.push_back(layer(rows, std::move(under), encoding));
    layers.push_back(layer(rows, std::move(mark), encoding));
  }
}

constexpr int scatter_height = 320;

/// Axes around the points with some room; not from zero, so that near designs can be told apart.
LineChart scatter_frame(const ScatterChart& chart) {
  double x_low = chart.points.front().x, x_high = x_low, y_low = chart.points.front().y, y_high = y_low;
  for (const ScatterPoint& point : chart.points) {
    x_low = std::min(x_low, point.x);
    x_high = std::max(x_high, point.x);
    y_low = std::min(y_low, point.y);
    y_high = std::max(y_high, point.y);
  }
  for (const ChartLevel& level : chart.levels) {
    y_low = std::min(y_low, level.value);
    y_high = std::max(y_high, level.value);
  }
  const double x_room = std::max(0.12 * (x_high - x_low), 0.02 * x_high);
  const double y_room = std::max(0.12 * (y_high - y_low), 0.02 * y_high);
  LineChart frame;
  frame.x_title = chart.x_title;
  frame.y_title = chart.y_title;
  frame.x_low = std::max(0.0, x_low - x_room);
  frame.x_high = x_high + x_room;
  frame.y_low = std::max(0.0, y_low - y_room);
  frame.y_high = y_high + y_room;
  frame.height = scatter_height;
  frame.levels = chart.levels;
  return frame;
}

Json shape_encoding() {
  Json shape{{"field", "2"}, {"type", "nominal"}};
  shape["scale"] = Json{{"domain", Json::array({"pass", "open", "fail"})},
                        {"range", Json::array({"circle", "triangle-up", "cross"})}};
  shape["legend"] = Json{{"title", nullptr}, {"orient", "top"}};
  return shape;
}

} // namespace

std::string chart_spec(const LineChart& chart) {
  Json layers = Json::array();
  for (const ChartBand& band : chart.bands) {
    layers.push_back(band_layer(chart, band));
  }
  for (const ChartLevel& level : chart.levels) {
    layers.push_back(level_layer(level, Json{{"y", y_axis(chart, "0")}}));
  }
  for (const ChartLevel& level : chart.verticals) {
    layers.push_back(level_layer(level, Json{{"x", x_axis(chart)}}));
  }
  for (const ChartLine& line : chart.lines) {
    layers.push_back(line_layer(chart, line));
  }
  if (!chart.markers.empty()) {
    layers.push_back(marker_layer(chart));
  }
  add_label_layers(chart, layers);
  return compact_json_text(Json{{"height", chart.height}, {"layer", std::move(layers)}});
}

std::string chart_spec(const ScatterChart& chart) {
  if (chart.points.empty()) {
    return compact_json_text(Json{{"height", scatter_height}, {"layer", Json::array()}});
  }
  LineChart frame = scatter_frame(chart);
  Json rows = Json::array();
  for (const ScatterPoint& point : chart.points) {
    Json entry = row({point.x, point.y});
    entry.push_back(point.group);
    rows.push_back(std::move(entry));
    if (!point.label.empty()) {
      frame.markers.push_back({point.label, {point.x, point.y}});
    }
  }
  Json layers = Json::array();
  for (const ChartLevel& level : frame.levels) {
    layers.push_back(level_layer(level, Json{{"y", y_axis(frame, "0")}}));
  }
  layers.push_back(layer(std::move(rows),
                         Json{{"type", "point"}, {"size", 70}, {"color", "var(--ink)"}, {"opacity", 1}},
                         Json{{"x", x_axis(frame)}, {"y", y_axis(frame, "1")}, {"shape", shape_encoding()}}));
  add_label_layers(frame, layers);
  return compact_json_text(Json{{"height", scatter_height}, {"layer", std::move(layers)}});
}

} // namespace crushwright
