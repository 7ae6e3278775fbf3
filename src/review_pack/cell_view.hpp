#pragma once
#include <array>

namespace crushwright {

using ViewVector = std::array<double, 3>;

/// How a cell is looked at: without perspective, x to the right, y into the page, z up, from above and to the right
/// of the face y = 0. No cell axis and no face or space diagonal points along the line of sight, so that struts of a
/// cubic cell do not hide behind each other.
struct CellView {
  ViewVector right, up, toward; ///< orthonormal; `toward` points to the eye
};

/// @param azimuth    of the eye about z from -y towards +x [degree].
/// @param elevation  of the eye above the plane of x and y [degree].
CellView cell_view(double azimuth = 27, double elevation = 21);

inline double dot(const ViewVector& a, const ViewVector& b) {
  return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}

} // namespace crushwright
