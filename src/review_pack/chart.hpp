#pragma once
#include "crushwright/verdict.hpp"

#include <string>
#include <vector>

namespace crushwright {

struct ChartPoint {
  double x;
  double y;
};

enum class Dash { solid, dashed, dotted, dash_dot };

/// A line with its name written beside it. Numbers are in display units.
struct ChartLine {
  std::string label;
  std::vector<ChartPoint> points;
  Dash dash = Dash::solid;
  double label_at = 0.5; ///< where along the shown x range the name stands [-]
  bool label_below = false;
};

/// The area between two lines on common x.
struct ChartBand {
  std::vector<double> x, low, high; ///< shape = (number of points) each
};

/// A straight line across the chart with its name on it.
struct ChartLevel {
  std::string label;
  double value = 0;
  bool limit = false; ///< a limit is drawn heavier than a mere reference
};

/// A point on a line, with its name.
struct ChartMarker {
  std::string label;
  ChartPoint at;
};

/// What all charts of the report but the comparison are: lines over one x, with a band, levels and named points.
struct LineChart {
  std::string id; ///< unique on the page; letters, digits, '-'
  std::string title;
  std::string caption; ///< how to read it; may be empty
  std::string x_title; ///< with unit in brackets
  std::string y_title;
  double x_low = 0, x_high = 1;
  double y_low = 0, y_high = 1;
  int height = 280;       ///< of the plot [px]
  double narrowest = 280; ///< width of the plot on a phone [px]; names that fit there fit everywhere
  std::vector<ChartBand> bands;
  std::vector<ChartLine> lines;
  std::vector<ChartLevel> levels;    ///< horizontal
  std::vector<ChartLevel> verticals; ///< vertical
  std::vector<ChartMarker> markers;
};

/// Vega-Lite specification of the chart as JSON text; the page sets its width.
/// @throws NotFinite when a number is NaN or infinite.
std::string chart_spec(const LineChart& chart);

/// One design in the comparison chart.
struct ScatterPoint {
  double x, y;
  std::string group; ///< named in the key, one shape each
  std::string label;
};

/// Points by group; the shape tells the group.
struct ScatterChart {
  std::string id, title, caption, x_title, y_title;
  std::vector<ScatterPoint> points;
  std::vector<ChartLevel> levels;
};
std::string chart_spec(const ScatterChart& chart);

/// A polyline with the fewest of its own points that stays within a tolerance of it, measured in y; its ends and the
/// greatest and least y always stay.
std::vector<ChartPoint> thinned(const std::vector<ChartPoint>& points, double tolerance);

/// Up to a rounded number (1, 2, 2.5, 5 times a power of ten, in tenths) for the end of an axis.
double rounded_up(double value);

} // namespace crushwright
