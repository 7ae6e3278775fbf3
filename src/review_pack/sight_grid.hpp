#pragma once
#include "crushwright/lattice_body.hpp"
#include "crushwright/surface.hpp"
#include "review_pack/cell_raster.hpp"
#include "review_pack/cell_view.hpp"

#include <array>
#include <cstddef>
#include <cstdint>
#include <limits>
#include <optional>
#include <vector>

namespace crushwright {

/// What the eye meets.
enum class Met : std::uint8_t { nothing, skin, skin_inside, skin_cut, lattice, lattice_cut };

/// One ray's end.
struct Sight {
  float depth = -std::numeric_limits<float>::infinity(); ///< along `toward` [ray steps]
  std::array<float, 3> normal{};                         ///< to the right, up, toward; about a unit vector
  Met met = Met::nothing;
};

/// Parallel rays through the middles of a grid's squares, rows from the top.
struct SightGrid {
  std::size_t width = 0, height = 0;
  double step = 1;                      ///< between rays, and the unit of depth [m]
  std::vector<Sight> sights;            ///< shape = (height, width)
  std::vector<std::uint8_t> in_section; ///< 1 where the cut lies inside the outer surface; shape = (height, width),
                                        ///< empty without a cut

  const Sight& at(std::size_t x, std::size_t y) const { return sights[y * width + x]; }
};

/// What is looked at, in one frame [m]; absent parts are null.
struct SeenBody {
  const TriangleMesh* surface = nullptr; ///< closed; without thickness here
  const StrutBody* bars = nullptr;       ///< round, with a half ball at each end
  const TriangleMesh* lattice = nullptr; ///< closed
  std::optional<double> cut;             ///< what lies nearer along `toward` is taken away [m]
};

/// The nearest metal along every ray. Where the cut passes through lattice it shows a flat face; behind the cut the
/// outer surface shows its inside. Bars thinner than a ray step are drawn one step thick, so that they do not break
/// into dots.
///
/// All cores; the same bytes with any number of them. Memory: about 24 bytes a ray, 150 a triangle, 60 a bar.
/// @param finer  rays a pixel along each side, > 0
SightGrid sight_grid(const SeenBody& body, const CellView& view, const RasterFrame& frame, int finer);

} // namespace crushwright
