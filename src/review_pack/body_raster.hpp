#pragma once
#include "review_pack/sight_grid.hpp"

#include <cstdint>
#include <vector>

namespace crushwright {

/// A filled body in its structure's frame, x the station, y to the left, z up [m]; absent parts are null.
struct BodyShape {
  const TriangleMesh* surface = nullptr; ///< closed outer surface
  double skin_thickness = 0;             ///< inwards from the surface [m]; 0 without a skin
  const StrutBody* struts = nullptr;
  const TriangleMesh* walls = nullptr; ///< a lattice that is no struts: its own closed surface
  double cell_edge = 0;                ///< of the lattice [m], > 0 where there is one: how far one sees into it
};

/// Visits every point of a body with the radius of metal about it: corners of its surfaces with 0, ends of bars.
template <class Visit>
void visit_extent(const BodyShape& body, const Visit& visit) {
  for (const TriangleMesh* mesh : {body.surface, body.walls}) {
    for (std::size_t i = 0; mesh != nullptr && i < mesh->points.size(); ++i) {
      visit(mesh->points[i], 0.0);
    }
  }
  for (std::size_t i = 0; body.struts != nullptr && i < body.struts->struts.size(); ++i) {
    const BodyStrut& strut = body.struts->struts[i];
    visit(body.struts->nodes[static_cast<std::size_t>(strut.from)], strut.from_radius);
    visit(body.struts->nodes[static_cast<std::size_t>(strut.to)], strut.to_radius);
  }
}

enum class BodySight {
  outside, ///< the outer surface
  lattice, ///< the lattice, the body as a pale outline behind it
  cut      ///< all that lies beyond a plane across the line of sight, with its cut faces
};

/// One picture before it has colours; every list has the shape (height, width).
struct BodyRaster {
  RasterFrame frame;           ///< [m]
  std::vector<Met> met;        ///< what covers most of each pixel; of halves the nearer
  std::vector<float> station;  ///< of the nearest of that kind [m]
  std::vector<float> tone;     ///< light on it, 0 black to 1 full
  std::vector<float> coverage; ///< part of the pixel that metal covers, 0 to 1
  std::vector<float> ghost;    ///< outline of the body behind: 0 beside it, to 0.15 inside it, to 1 on its lines
};

/// The least frame that holds a body. @param pixels  of its longer side, > 15.
RasterFrame frame_about(const BodyShape& body, const CellView& view, int pixels);

/// Soft light from the upper left; crevices and what lies deep under the surface darker; dark lines where a surface
/// ends or bends sharply and about struts that are thick enough to bear them; cut faces bright and flat.
///
/// What lies within the skin's thickness of the outer surface, measured in space, is cut skin; a skin thinner than
/// a pixel is drawn one pixel thick. Four rays a pixel.
/// @param cut  place of the plane along `toward` [m]; for BodySight::cut
BodyRaster body_raster(const BodyShape& body, BodySight sight, const CellView& view, const RasterFrame& frame,
                       double cut = 0);

} // namespace crushwright
