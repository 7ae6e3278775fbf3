#include "review_pack/chart.hpp"

#include "result_file/json_text.hpp"
#include "review_pack/label_layout.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <utility>

namespace crushwright {

namespace {

// The narrowest plot of the page, on a phone; names that fit here fit everywhere.
constexpr double narrowest_plot = 230;

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

Json x_axis(const LineChart& chart) { return axis_encoding(chart.x_title, chart.x_low, chart.x_high); }

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
  return Json{{"data", Json{{"values", std::move(data_rows)}}}, {"mark", std::move(mark)}, {"encoding", std::move(encoding)}};
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
  double x(double value) const { return (value - chart_.x_low) / (chart_.x_high - chart_.x_low) * narrowest_plot; }
  double y(double value) const { return (chart_.y_high - value) / (chart_.y_high - chart_.y_low) * chart_.height; }
  double x_back(double pixel) const { return chart_.x_low + pixel / narrowest_plot * (chart_.x_high - chart_.x_low); }
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

Anchor anchor_at(double part) { return part < 0.3 ? Anchor::start : part > 0.7 ? Anchor::end : Anchor::middle; }

std::vector<PlacedLabel> line_candidates(const LineChart& chart, const Scale& scale, const ChartLine& line) {
  std::vector<PlacedLabel> candidates;
  for (const double shift : {0.0, 0.08, -0.08, 0.16, -0.16, 0.3, -0.3, 0.45, -0.45}) {
    const double part = line.label_at + shift;
    if (part < 0.02 || part > 0.98) {
      continue;
    }
    const double x = chart.x_low + part * (chart.x_high - chart.x_low);
    const double y = scale.y(value_at(line.points, std::min(x, line.points.back().x)));
    for (const double side : {line.label_below ? 1.0 : -1.0, line.label_below ? -1.0 : 1.0}) {
      candidates.push_back({line.label, part * narrowest_plot, y + 11 * side, anchor_at(part), false});
    }
  }
  return candidates;
}

std::vector<PlacedLabel> level_candidates(const Scale& scale, const ChartLevel& level) {
  std::vector<PlacedLabel> candidates;
  const double y = scale.y(level.value);
  for (const double side : {-1.0, 1.0}) {
    candidates.push_back({level.label, 4, y + 8 * side, Anchor::start, false});
    candidates.push_back({level.label, narrowest_plot - 4, y + 8 * side, Anchor::end, false});
    candidates.push_back({level.label, narrowest_plot / 2, y + 8 * side, Anchor::middle, false});
  }
  return candidates;
}

std::vector<PlacedLabel> vertical_candidates(const LineChart& chart, const Scale& scale, const ChartLevel& level) {
  std::vector<PlacedLabel> candidates;
  const double x = scale.x(level.value);
  for (const double side : {-1.0, 1.0}) {
    candidates.push_back({level.label, x + 9 * side, 4, Anchor::end, true});
    candidates.push_back({level.label, x + 9 * side, chart.height - 6.0, Anchor::start, true});
  }
  return candidates;
}

std::vector<PlacedLabel> marker_candidates(const Scale& scale, const ChartMarker& marker) {
  const double x = scale.x(marker.at.x), y = scale.y(marker.at.y);
  std::vector<PlacedLabel> candidates;
  for (const double drop : {14.0, 28.0, -14.0, 42.0, -28.0, 56.0, -42.0}) {
    candidates.push_back({marker.label, x + 4, y + drop, Anchor::start, false});
    candidates.push_back({marker.label, x - 4, y + drop, Anchor::end, false});
  }
  return candidates;
}

bool inside(double value, double low, double high) { return value >= low && value <= high; }

std::vector<PlacedLabel> labels_of(const LineChart& chart) {
  const Scale scale(chart);
  LabelLayout layout(narrowest_plot, chart.height);
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
    if (inside(marker.at.x, chart.x_low, chart.x_high) && inside(marker.at.y, chart.y_low, chart.y_high)) {
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
  std::map<std::pair<Anchor, bool>, Json> groups;
  for (const PlacedLabel& label : labels_of(chart)) {
    Json entry = row({scale.x_back(label.x), scale.y_back(label.y)});
    entry.push_back(label.text);
    groups[{label.anchor, label.upright}].push_back(std::move(entry));
  }
  for (const auto& [place, rows] : groups) {
    const Json encoding{{"x", x_axis(chart)}, {"y", y_axis(chart, "1")}, {"text", Json{{"field", "2"}}}};
    Json mark{{"type", "text"}, {"align", align_of(place.first)}, {"baseline", "middle"}};
    mark["angle"] = place.second ? 270 : 0;
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

Json scatter_encoding(const ScatterChart& chart, double x_high, double y_high) {
  Json x = axis_encoding(chart.x_title, 0, x_high);
  Json y = axis_encoding(chart.y_title, 0, y_high);
  y["field"] = "1";
  return Json{{"x", std::move(x)}, {"y", std::move(y)}};
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
  double x_high = 0, y_high = 0;
  Json rows = Json::array();
  for (const ScatterPoint& point : chart.points) {
    x_high = std::max(x_high, point.x);
    y_high = std::max(y_high, point.y);
    Json entry = row({point.x, point.y});
    entry.push_back(point.group);
    entry.push_back(point.label);
    rows.push_back(std::move(entry));
  }
  for (const ChartLevel& level : chart.levels) {
    y_high = std::max(y_high, level.value);
  }
  Json encoding = scatter_encoding(chart, rounded_up(1.05 * x_high), rounded_up(1.08 * y_high));
  Json layers = Json::array();
  for (const ChartLevel& level : chart.levels) {
    layers.push_back(level_layer(level, Json{{"y", encoding["y"]}}));
    layers.back()["encoding"]["y"]["field"] = "0";
    Json named = layer(Json::array({Json::array({level.value, level.label})}),
                       Json{{"type", "text"}, {"align", "left"}, {"dy", -7}, {"x", 4}, {"color", "var(--ink)"}},
                       Json{{"y", layers.back()["encoding"]["y"]}, {"text", Json{{"field", "1"}}}});
    layers.push_back(std::move(named));
  }
  Json text_encoding = encoding;
  text_encoding["text"] = Json{{"field", "3"}};
  encoding["shape"] = shape_encoding();
  layers.push_back(layer(rows, Json{{"type", "point"}, {"size", 70}, {"color", "var(--ink)"}, {"opacity", 1}}, encoding));
  layers.push_back(layer(rows, Json{{"type", "text"}, {"align", "left"}, {"dx", 8}, {"color", "var(--ink)"}}, text_encoding));
  return compact_json_text(Json{{"height", 320}, {"layer", std::move(layers)}});
}

} // namespace crushwright
