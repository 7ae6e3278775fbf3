#pragma once
#include "crushwright/lattice_body.hpp"
#include "crushwright/surface.hpp"

#include <array>
#include <string>
#include <vector>

namespace crushwright {

/// Bytes of the files that go to a machine or to another program; docs/file_formats.md. Input in metres, in the
/// structure's own frame (x the station, y to the left, z up). The same input gives the same bytes, on any day.

/// What a 3MF file says of itself besides its shapes.
struct PrintFileText {
  std::string title;        ///< of the model; may be empty
  std::string lattice_name; ///< of the object of beams
  std::string skin_name;    ///< of the object beside it
};

/// A body of struts as 3MF core 2015/02 with the beam lattice extension 2017/02: each strut a beam with a radius at
/// each end and a ball on both, in millimetres rounded to 0.1 µm. Where a skin is given, it is a second object of
/// triangles in the same place.
/// @param skin  closed; empty for none
/// @throws OutOfDomain when there is no strut, a strut names a node that is not there or twice the same, a radius is
/// not over
///         0, a value is not finite, or a strut is so short that its nodes become one in the file; it names the
///         strut.
std::string write_3mf(const StrutBody& body, const TriangleMesh& skin, const PrintFileText& text);

/// A closed mesh as one 3MF object of triangles, in millimetres.
/// @throws OutOfDomain when there is no triangle, or a value is not finite.
std::string write_3mf(const TriangleMesh& mesh, const PrintFileText& text);

/// One layer of a structure, a slice between two outlines across the crush axis.
struct LayerCell {
  double station = 0; ///< of its outer face [m]
  double height = 0;  ///< along x [m], > 0
  /// Outlines (y, z) [m] of both faces, counter-clockwise, point k of one belongs to point k of the other;
  /// shape = (number of points, 2), the same for both, at least 3.
  std::vector<std::array<double, 2>> outer_face;
  std::vector<std::array<double, 2>> inner_face; ///< at station + height
  double relative_density = 0;                   ///< true [-]; 0 without a lattice
  double size = 0;                               ///< strut or wall [m]
  double collapse_force = 0;                     ///< [N]
  int crush_order = 0;                           ///< 1 for the layer that crushes first
};

/// The layers of one structure as a VTK unstructured grid (.vtu), one polyhedron a layer, in metres: two flat
/// outlines and, between them, each quadrilateral as two triangles. Values of cells, by name: relative_density_-,
/// strut_or_wall_mm, collapse_force_kN, crush_order_-.
/// @throws OutOfDomain when there is no layer, outlines do not match, or a value is not finite; it names the layer.
std::string write_vtu(const std::vector<LayerCell>& layers);

} // namespace crushwright
