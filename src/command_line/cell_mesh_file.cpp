#include "command_line/cell_mesh_file.hpp"

#include "command_line/option_value.hpp"
#include "lattice_body/body_mesh.hpp"
#include "surface/mesh_writer.hpp"

#include <fmt/format.h>

#include <filesystem>

namespace crushwright {
namespace {

constexpr double to_millimetres = 1e3;
constexpr std::size_t most_triangles = 20'000'000;

bool ends_in(const std::string& file, const char* ending) {
  return std::filesystem::path(file).extension() == ending;
}

std::string bytes_of(const UnitCell& cell, const std::string& file, const TriangleMesh& mesh) {
  const std::string head = fmt::format("{}, one cell, mm", cell.id);
  return ends_in(file, ".stl") ? write_stl(mesh, to_millimetres, head.substr(0, 80))
                               : write_ply(mesh, to_millimetres, head);
}

const char* why_that_spacing(const UnitCell& cell) {
  return cell.cell_class == CellClass::strut || cell.cell_class == CellClass::skeletal
             ? "an eighth of the thinnest part; --spacing sets another"
             : "a quarter of the thinnest wall; --spacing sets another";
}

} // namespace

void require_mesh_ending(const std::string& file) {
  if (!ends_in(file, ".stl") && !ends_in(file, ".ply"))
    refuse_option("cell", fmt::format("--mesh {}: expected a file that ends in .stl or .ply", file),
                  "Both are written binary, in mm; STL in single precision.");
}

CellMeshFile cell_mesh_file(const UnitCell& cell, double relative_density, const CellMeshQuestion& question) {
  const LatticeSolid solid = one_cell(cell, size_ratio(cell, relative_density), question.cell_edge);
  BodyMeshOptions options;
  options.spacing = question.spacing.value_or(advised_spacing(solid));
  options.most_triangles = most_triangles;
  const BodyPart part = mesh_body(solid, options);
  const std::array<double, 3> box = solid.box.high;
  const double cell_volume = box[0] * box[1] * box[2];
  const double meshed = part.volume / cell_volume;
  CellMeshFile file;
  file.bytes = bytes_of(cell, question.file, part.mesh);
  file.text =
      fmt::format("Mesh: {}, {} triangles, closed, in mm; one cell of {:.4g} x {:.4g} x {:.4g} mm with a corner "
                  "at the origin\n",
                  question.file, part.mesh.triangles.size(), 1e3 * box[0], 1e3 * box[1], 1e3 * box[2]);
  file.text += fmt::format("  grid spacing {:.4g} mm ({})\n", 1e3 * part.spacing,
                           question.spacing ? "as asked for" : why_that_spacing(cell));
  file.text +=
      fmt::format("  volume {:.5g} mm³, relative density {:.3f} %; the catalogue's {:.3f} %, {:+.2f} % from it\n",
                  1e9 * part.volume, 100 * meshed, 100 * relative_density, 100 * (meshed / relative_density - 1));
  file.text +=
      fmt::format("  metal surface {:.5g} mm², {:.4g} mm² per cm³ of lattice; {:.4g} mm² of flat cuts besides\n",
                  1e6 * part.surface, part.surface / cell_volume, 1e6 * part.cut_area);
  return file;
}

} // namespace crushwright
