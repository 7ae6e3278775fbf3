#include "command_line/fill_files.hpp"

#include "command_line/option_value.hpp"
#include "crush_curve/crush_order.hpp"
#include "crushwright/errors.hpp"
#include "crushwright/exchange.hpp"
#include "envelope/even_outline.hpp"
#include "filling/drawn_lattice.hpp"
#include "quantities/units.hpp"
#include "surface/mesh_writer.hpp"

#include <algorithm>

#include <fmt/format.h>

namespace crushwright {
namespace {

constexpr double to_millimetres = 1000;
/// More triangles than this in one file help nobody: about 300 MB.
constexpr std::size_t most_triangles = 6'000'000;
/// And all files together are held in memory before the first is written: about 1.5 GB.
constexpr double most_in_all = 30e6;
constexpr std::size_t outline_points = 96;

std::string file_of(const FilledStructure& filled, const std::string& ending) {
  return fmt::format("geometry/{}{}", file_name_part(filled.id), ending);
}

ShapeFile outer_surface(const FilledStructure& filled) {
  return {{file_of(filled, "_outer.stl"),
           write_stl(filled.outer, to_millimetres, fmt::format("{}, outer surface, mm", filled.id))},
          fmt::format("outer surface, {} triangles, in mm", filled.outer.triangles.size())};
}

ShapeFile struts(const FilledStructure& filled) {
  PrintFileText text;
  text.title = filled.id;
  text.lattice_name = filled.id + " lattice";
  const StrutBody& body = filled.struts->lattice.body;
  return {{file_of(filled, "_lattice.3mf"), write_3mf(body, {}, text)},
          fmt::format("{} struts as beams, 3MF with the beam lattice extension", body.struts.size())};
}

ShapeFile layers(const FilledStructure& filled, const StructureModel& model) {
  const std::vector<int> orders = crush_order(model.layers);
  std::vector<LayerCell> cells;
  for (std::size_t i = 0; i < model.layers.size(); ++i) {
    const Layer& layer = model.layers[i];
    LayerCell cell;
    cell.station = layer.station;
    cell.height = layer.height;
    cell.outer_face = even_outline(section_at(model.envelope, layer.station), outline_points);
    cell.inner_face = even_outline(section_at(model.envelope, layer.station + layer.height), outline_points);
    cell.relative_density = layer.relative_density;
    cell.size = layer.size;
    cell.collapse_force = layer.collapse_force();
    cell.crush_order = orders[i];
    cells.push_back(std::move(cell));
  }
  return {
      {file_of(filled, "_layers.vtu"), write_vtu(cells)},
      fmt::format("{} layers with density, size, force and crush order, VTK unstructured grid in m", cells.size())};
}

std::string block_name(const std::array<int, 3>& block) {
  return fmt::format("_block_{}_{}_{}.stl", block[0], block[1], block[2]);
}

LatticeSolid wanted_part(const FilledStructure& filled, const SolidOptions& options) {
  LatticeSolid solid = drawn_lattice(filled, filled.skin_thickness > 0);
  if (!options.between)
    return solid;
  solid.box.low[0] = std::max(solid.box.low[0], options.between->low);
  solid.box.high[0] = std::min(solid.box.high[0], options.between->high);
  if (!(solid.box.low[0] < solid.box.high[0]))
    refuse_option("fill", fmt::format("--between: {} has no lattice between these stations", filled.id),
                  fmt::format("Name two stations from {} to {}, the smaller first.",
                              show(filled.tip_plate, Dimension::length),
                              show(filled.length - filled.root_plate, Dimension::length)));
  return solid;
}

void require_moderate(const LatticeSolid& solid, double spacing) {
  const double triangles = expected_triangles(solid, spacing);
  if (triangles > most_in_all)
    refuse_option(
        "fill",
        fmt::format("--solid: at a spacing of {} the lattice has about {:.2g} triangles; {:.2g} can be held",
                    show(spacing, Dimension::length), triangles, most_in_all),
        fmt::format("Write a part of it with --between, or set --spacing coarser; the walls allow up to {}. "
                    "`crushwright cell --mesh` writes one cell.",
                    show(coarsest_spacing(solid), Dimension::length)));
}

/// One file for the whole lattice, or one for each block; what they hold is told by the first.
std::vector<ShapeFile> solid_surface(const FilledStructure& filled, const SolidOptions& options) {
  const LatticeSolid solid = wanted_part(filled, options);
  BodyMeshOptions mesh;
  mesh.spacing = options.spacing > 0 ? options.spacing : advised_spacing(solid);
  mesh.block_edge = options.block;
  mesh.most_triangles = most_triangles;
  require_moderate(solid, mesh.spacing);
  std::vector<ShapeFile> files;
  const auto keep = [&](const std::array<int, 3>& block, const BodyPart& part) {
    const std::string name = file_of(filled, options.block > 0 ? block_name(block) : "_solid.stl");
    const char* what = filled.skin_thickness > 0 ? "lattice and skin" : "lattice";
    const std::string title = fmt::format("{}, {}, mm", filled.id, what);
    files.push_back(
        {{name, write_stl(part.mesh, to_millimetres, title)},
         fmt::format("{} as a closed surface, {} triangles, in mm; pieces that the surface cuts loose are in it",
                     what, part.mesh.triangles.size())});
  };
  try {
    (void)mesh_body(solid, mesh, keep);
  } catch (const OutOfDomain& fault) {
    refuse_option("fill", fmt::format("--solid: {}", fault.what()),
                  "Set --spacing, or cut the surface into blocks with --block, for instance --block \"30 mm\".");
  }
  return files;
}

} // namespace

std::vector<ShapeFile> geometry_files(const FilledStructure& filled, const StructureModel& model,
                                      const SolidOptions& solid) {
  std::vector<ShapeFile> files{outer_surface(filled)};
  if (filled.struts)
    files.push_back(struts(filled));
  files.push_back(layers(filled, model));
  if (solid.wanted)
    for (ShapeFile& file : solid_surface(filled, solid))
      files.push_back(std::move(file));
  return files;
}

} // namespace crushwright
