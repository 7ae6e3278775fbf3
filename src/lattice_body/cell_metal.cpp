#include "lattice_body/cell_metal.hpp"

#include "crushwright/errors.hpp"
#include "lattice_body/binned_pieces.hpp"
#include "unit_cell/cell_solid.hpp"
#include "unit_cell/honeycomb_walls.hpp"
#include "unit_cell/level_surface.hpp"
#include "unit_cell/plate_pieces.hpp"
#include "unit_cell/skeletal_level.hpp"
#include "unit_cell/solid_body.hpp"
#include "unit_cell/strut_axis.hpp"

#include <fmt/format.h>
#include <tbb/parallel_for.h>

#include <algorithm>
#include <cmath>

namespace crushwright {
namespace {

constexpr double exact_within = 0.012; // cell edges; beyond it a bound of the distance will do
constexpr double copies_reach = 0.95;  // cell edges: holds the nearest copy of any part, wherever one asks
constexpr int level_places = 17; // of the table of levels by neck; a search takes 0.1 s, the table misses by 3e-5

struct RoundBar {
  StrutAxis axis;
  double distance(const Eigen::Vector3d& point, double size_ratio) const {
    return axis.distance(point) - 0.5 * size_ratio;
  }
};

struct FlatPlate {
  PlatePiece piece; ///< without thickness
  double factor;
  double distance(const Eigen::Vector3d& point, double size_ratio) const {
    return piece.distance(point) - 0.5 * factor * size_ratio;
  }
};

struct UprightWall {
  StandingWall wall;
  double factor;
  double distance(const Eigen::Vector3d& point, double size_ratio) const {
    StandingWall sized = wall;
    sized.half_thickness = 0.5 * factor * size_ratio;
    return sized.distance(point);
  }
};

class SheetMetal : public CellMetal {
public:
  explicit SheetMetal(SheetSurface surface) : surface_(surface), steepest_(steepest_slope(surface)) {}
  double distance(const std::array<double, 3>& point, double size_ratio) const override {
    const double bound = std::abs(surface_value(surface_, point)) / steepest_ - 0.5 * size_ratio;
    return bound > exact_within ? bound : distance_to_level(surface_, 0, point) - 0.5 * size_ratio;
  }

private:
  SheetSurface surface_;
  double steepest_;
};

class NetworkMetal : public CellMetal {
public:
  NetworkMetal(SheetSurface surface, const Range& necks)
      : surface_(surface), steepest_(steepest_slope(surface)), necks_(necks), levels_(level_places) {
    tbb::parallel_for(0, level_places, [&](int i) {
      const double neck = necks.low + i * (necks.high - necks.low) / (level_places - 1);
      levels_[std::size_t(i)] = level_of_neck(surface, std::min(neck, necks.high));
    });
  }
  double distance(const std::array<double, 3>& point, double size_ratio) const override {
    const double level = level_at(size_ratio);
    const double above = surface_value(surface_, point) - level;
    const double bound = std::abs(above) / steepest_;
    return std::copysign(bound > exact_within ? bound : distance_to_level(surface_, level, point), -above);
  }

private:
  /// The cubic through the four nearest places of the table.
  double level_at(double neck) const {
    const double place = (level_places - 1) * (neck - necks_.low) / (necks_.high - necks_.low);
    const int first = std::clamp(static_cast<int>(place) - 1, 0, level_places - 4);
    double level = 0;
    for (int i = 0; i < 4; ++i) {
      double weight = 1;
      for (int other = 0; other < 4; ++other)
        weight *= other == i ? 1 : (place - first - other) / (i - other);
      level += weight * levels_[std::size_t(first + i)];
    }
    return level;
  }

  SheetSurface surface_;
  double steepest_;
  Range necks_;
  std::vector<double> levels_;
};

std::vector<RoundBar> bars_of(const UnitCell& cell) {
  std::vector<RoundBar> bars;
  for (const StrutAxis& axis : strut_axes(CellSkeleton::of_struts(cell.struts).copies_within(copies_reach), 0))
    bars.push_back({axis});
  return bars;
}

std::vector<FlatPlate> plates_of(const UnitCell& cell) {
  std::vector<FlatPlate> plates;
  for (PlatePiece& piece : plate_pieces(cell.plates, 1e-9, copies_reach)) {
    const double factor = 2e9 * piece.half_thickness;
    piece.half_thickness = 0;
    plates.push_back({piece, factor});
  }
  return plates;
}

const HoneycombForm& form_of(const UnitCell& cell) {
  if (cell.nominal_density_coefficients.empty())
    throw OutOfDomain(fmt::format("cell '{}' has no nominal density, which tells its walls", cell.id));
  return honeycomb_form(cell.nominal_density_coefficients.front());
}

std::vector<UprightWall> walls_of(const UnitCell& cell) {
  std::vector<UprightWall> walls;
  for (const StandingWall& wall : honeycomb_walls(form_of(cell), 1e-9, copies_reach))
    walls.push_back({wall, 2e9 * wall.half_thickness});
  return walls;
}

/// What binned pieces need: how far apart two of them may come closer to each other's surface as sizes change.
template <class Piece>
std::unique_ptr<CellMetal> binned(std::vector<Piece> pieces, const UnitCell& cell, double factor_spread) {
  return std::make_unique<BinnedPieces<Piece>>(std::move(pieces), repeating_box(cell), cell.size_ratio_range,
                                               factor_spread);
}

} // namespace

std::unique_ptr<CellMetal> cell_metal(const UnitCell& cell) {
  switch (cell.cell_class) {
  case CellClass::strut:
    return binned(bars_of(cell), cell, 0);
  case CellClass::sheet:
    return std::make_unique<SheetMetal>(sheet_surface(cell.surface));
  case CellClass::skeletal:
    return std::make_unique<NetworkMetal>(sheet_surface(cell.surface), cell.size_ratio_range);
  case CellClass::plate: {
    double low = 1e9, high = 0;
    for (const Plate& plate : cell.plates) {
      low = std::min(low, plate.thickness_factor);
      high = std::max(high, plate.thickness_factor);
    }
    return binned(plates_of(cell), cell, high - low);
  }
  case CellClass::honeycomb:
    return binned(walls_of(cell), cell, form_of(cell).doubling); // past its end a wall is not moved by its thickness
  case CellClass::solid:
    throw OutOfDomain(
        fmt::format("cell '{}' is a mesh already, {}: there is nothing to mesh", cell.id, cell.mesh_file));
  case CellClass::foam:
    break;
  }
  throw OutOfDomain(fmt::format("cell '{}' is a foam: it has no solid of its own, only a density", cell.id));
}

double thinnest_factor(const UnitCell& cell) {
  double factor = 1;
  for (const Plate& plate : cell.plates)
    factor = std::min(factor, plate.thickness_factor);
  return factor;
}

} // namespace crushwright
