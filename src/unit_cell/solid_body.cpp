#include "unit_cell/solid_body.hpp"

#include "crushwright/errors.hpp"
#include "surface/mesh_solid.hpp"
#include "unit_cell/cell_solid.hpp"
#include "unit_cell/honeycomb_walls.hpp"
#include "unit_cell/near_pieces.hpp"
#include "unit_cell/plate_pieces.hpp"
#include "unit_cell/skeletal_level.hpp"
#include "unit_cell/strut_axis.hpp"
#include "unit_cell/surface_samples.hpp"

#include <fmt/format.h>

#include <utility>

namespace crushwright {
namespace {

/// Union of pieces with a signed distance each; the pieces reach beyond the box that repeats.
template <class Piece>
class PieceBody : public SolidBody {
public:
  explicit PieceBody(std::vector<Piece> pieces) : pieces_(std::move(pieces)) {}
  int layers(const SampleGrid& grid) const override { return piece_layers(grid); }
  void visit_layer(const SampleGrid& grid, double reach, int layer, const SampleVisitor& visitor) const override {
    visit_near_pieces(pieces_, grid, reach, layer, visitor);
  }

private:
  std::vector<Piece> pieces_;
};

class SheetBody : public SolidBody {
public:
  SheetBody(SheetSurface surface, double size_ratio) : surface_(surface), half_wall_(0.5 * size_ratio) {}
  int layers(const SampleGrid& grid) const override { return grid.cells[2]; }
  void visit_layer(const SampleGrid& grid, double reach, int layer, const SampleVisitor& visitor) const override {
    visit_near_surface(surface_, 0, false, grid.cells[2], reach + half_wall_, layer,
                       [&](std::size_t index, double distance) { visitor(index, distance - half_wall_); });
  }

private:
  SheetSurface surface_;
  double half_wall_;
};

class SkeletalBody : public SolidBody {
public:
  SkeletalBody(SheetSurface surface, double level) : surface_(surface), level_(level) {}
  int layers(const SampleGrid& grid) const override { return grid.cells[2]; }
  void visit_layer(const SampleGrid& grid, double reach, int layer, const SampleVisitor& visitor) const override {
    visit_near_surface(surface_, level_, true, grid.cells[2], reach, layer, visitor);
  }

private:
  SheetSurface surface_;
  double level_;
};

class MeshBody : public SolidBody {
public:
  explicit MeshBody(const TriangleMesh& mesh) : solid_(mesh) {}
  int layers(const SampleGrid& grid) const override { return grid.cells[2]; }
  void visit_layer(const SampleGrid& grid, double reach, int layer, const SampleVisitor& visitor) const override {
    solid_.visit_layer(grid.cells, reach, layer, visitor);
  }

private:
  MeshSolid solid_;
};

void require_size(const UnitCell& cell, double size_ratio) {
  if (cell.cell_class == CellClass::foam)
    throw OutOfDomain(fmt::format("cell '{}' is a foam: it has no solid of its own, only a density", cell.id));
  if (!cell.size_ratio_range.contains(size_ratio))
    throw OutOfDomain(fmt::format("{}: {} over {} is {:g}; the catalogue entry holds from {:g} to {:g}.", cell.name,
                                  cell.size_name, cell.edge_name, size_ratio, cell.size_ratio_range.low,
                                  cell.size_ratio_range.high));
}

const HoneycombForm& form_of(const UnitCell& cell) {
  if (cell.nominal_density_coefficients.empty())
    throw OutOfDomain(fmt::format("cell '{}' has no nominal density, which tells its walls", cell.id));
  return honeycomb_form(cell.nominal_density_coefficients.front());
}

constexpr double farthest_reach = 0.11; // beyond what boundary_distance asks for

} // namespace

std::unique_ptr<SolidBody> solid_body(const UnitCell& cell, double size_ratio) {
  require_size(cell, size_ratio);
  switch (cell.cell_class) {
  case CellClass::strut:
    return std::make_unique<PieceBody<StrutAxis>>(strut_axes(
        CellSkeleton::of_struts(cell.struts).copies_within(0.5 * size_ratio + farthest_reach), 0.5 * size_ratio));
  case CellClass::sheet:
    return std::make_unique<SheetBody>(sheet_surface(cell.surface), size_ratio);
  case CellClass::skeletal: {
    const SheetSurface surface = sheet_surface(cell.surface);
    return level_body(surface, level_of_neck(surface, size_ratio));
  }
  case CellClass::plate:
    return std::make_unique<PieceBody<PlatePiece>>(plate_pieces(cell.plates, size_ratio, farthest_reach));
  case CellClass::solid:
    return std::make_unique<MeshBody>(*cell.mesh);
  case CellClass::honeycomb:
    return std::make_unique<PieceBody<StandingWall>>(honeycomb_walls(form_of(cell), size_ratio, farthest_reach));
  case CellClass::foam:
    break;
  }
  throw OutOfDomain(fmt::format("cell '{}' is a foam: it has no solid of its own, only a density", cell.id));
}

std::unique_ptr<SolidBody> level_body(SheetSurface surface, double level) {
  return std::make_unique<SkeletalBody>(surface, level);
}

std::array<double, 3> repeating_box(const UnitCell& cell) {
  if (cell.cell_class != CellClass::honeycomb)
    return {1, 1, 1};
  const std::array<double, 2> rectangle = honeycomb_rectangle(form_of(cell));
  return {rectangle[0], rectangle[1], 1};
}

} // namespace crushwright
