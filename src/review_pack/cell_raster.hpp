#pragma once
#include "crushwright/unit_cell.hpp"
#include "review_pack/cell_view.hpp"
#include "review_pack/png_image.hpp"

#include <array>
#include <vector>

namespace crushwright {

/// A solid sampled for drawing, and the box drawn about it. The sampled part repeats.
struct DrawnSolid {
  std::array<int, 3> cells{};  ///< samples along x, y, z
  ViewVector edges{1, 1, 1};   ///< of the sampled part [cell edges]
  ViewVector origin{};         ///< its corner of least coordinates [cell edges]
  std::vector<float> distance; ///< to the boundary, negative in the metal [cell edges]; x fastest
  ViewVector box{1, 1, 1};     ///< far corner of the box of the cells shown; the near one is 0 [cell edges]
  ViewVector low{}, high{};    ///< what is shown: the box, or a little more [cell edges]
};

/// A strut cell is drawn as its struts are: whole and with round ends, those in faces and edges of the box on every
/// face and edge they lie in. Any other cell is cut by its box; that of a plate cell begins where its faces are open,
/// not where its entry does.
///
/// @param samples  along the cell edge, > 7.  @param copies  of the cell along each edge, > 0.
/// @throws OutOfDomain for a foam, which has no shape, or a size outside the cell's range.
DrawnSolid drawn_solid(const UnitCell& cell, double size_ratio, int samples, int copies);

/// Where the picture lies in the plane of sight.
struct RasterFrame {
  double left = 0, top = 0; ///< of the picture's upper left corner along `right` and `up` [cell edges]
  double pixel = 0;         ///< side of one pixel [cell edges]
  int width = 0, height = 0;
};

/// The frame about what is seen from left to right and from low to high, with a pixel to spare on each side.
/// @param pixels  of the longer side, > 2.
RasterFrame frame_around(double left, double right, double low, double high, int pixels);

/// The solid as seen, and how deep each point of it lies.
struct CellRaster {
  RasterFrame frame;
  GreyImage image;
  std::vector<float> depth; ///< along `toward`, of the nearest metal [cell edges]; -infinity where there is none;
                            ///< shape = (height, width)

  /// Whether metal lies between the eye and a point of the cell.
  bool hides(const CellView& view, const ViewVector& point) const;
};

/// Rays from the eye to the solid's surface; soft light from the upper left, crevices and far parts darker, dark
/// lines where the surface ends or bends sharply, cut faces bright and flat.
///
/// @param pixels  of the longer side of the picture, > 15.
CellRaster cell_raster(const DrawnSolid& solid, const CellView& view, int pixels);

} // namespace crushwright
