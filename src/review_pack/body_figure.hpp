#pragma once
#include "review_pack/body_raster.hpp"
#include "review_pack/cell_view.hpp"

#include <string>
#include <utility>
#include <vector>

namespace crushwright {

/// Least and greatest coordinates of a body [m].
struct BodyBox {
  ViewVector low{}, high{};
};

/// Of all points and of the bars with their radii. The body has at least one point.
BodyBox box_of(const BodyShape& body);

/// Between the marks of a ruler: 1, 2 or 5 times a power of ten [m], so that a length takes at most `most` steps.
double ruler_step(double length, int most);

/// What is written along a cut beside its ruler: a name and a text for a station.
struct RulerRow {
  std::string name;
  std::vector<std::string> texts; ///< one for each mark
};

/// Stations of a ruler's marks [m]: multiples of the step from 0 to the length; the box's ends need not be marks.
std::vector<double> ruler_marks(const BodyBox& box, int most);

/// A body seen from above, before and beside, with a ruler along its lower edge, the names of its ends and arrows for
/// the axes; an SVG drawing about 440 pixels wide.
/// @param png  of a raster with the frame
std::string oblique_figure(const std::string& png, const RasterFrame& frame, const CellView& view, const BodyBox& box,
                           const std::string& title);

/// A cut seen square-on, stations to the right and z up, with a ruler, rows of values under its marks and the overall
/// height; an SVG drawing about 900 pixels wide.
std::string cut_figure(const std::string& png, const RasterFrame& frame, const BodyBox& box,
                       const std::vector<RulerRow>& rows, const std::string& title);

} // namespace crushwright
