#include "unit_cell/unit_cell_reader.hpp"
#include "scaling_law/law_reader.hpp"
#include "surface/mesh_reader.hpp"
#include "surface/mesh_solid.hpp"
#include "unit_cell/level_surface.hpp"
#include "unit_cell/plate_pieces.hpp"
#include "unit_cell/strut_identity.hpp"

#include <algorithm>
#include <filesystem>
#include <fmt/format.h>
#include <utility>

namespace crushwright {

namespace {

CellClass read_class(const Mapping& entry) {
  static const std::vector<std::pair<std::string, CellClass>> classes{
      {"strut", CellClass::strut}, {"sheet", CellClass::sheet},         {"skeletal", CellClass::skeletal},
      {"plate", CellClass::plate}, {"honeycomb", CellClass::honeycomb}, {"foam", CellClass::foam},
      {"solid", CellClass::solid}};
  std::vector<std::string> words;
  for (const auto& [word, meaning] : classes) {
    words.push_back(word);
  }
  const std::string chosen = entry.choice("class", words);
  return std::find_if(classes.begin(), classes.end(), [&](const auto& pair) { return pair.first == chosen; })->second;
}

CellBehaviour read_behaviour(const Mapping& entry) {
  const std::string word = entry.choice("behaviour", {"bending", "stretching", "folding"});
  return word == "bending"      ? CellBehaviour::bending
         : word == "stretching" ? CellBehaviour::stretching
                                : CellBehaviour::folding;
}

bool in_unit_cube(const std::array<double, 3>& point) {
  return std::all_of(point.begin(), point.end(),
                     [](double coordinate) { return coordinate >= 0 && coordinate <= 1; });
}

std::vector<Strut> read_struts(const Mapping& entry) {
  std::vector<Strut> struts;
  for (const std::vector<double>& row : entry.number_rows("struts", 6)) {
    struts.push_back({{row[0], row[1], row[2]}, {row[3], row[4], row[5]}});
    const Strut& strut = struts.back();
    if (!in_unit_cube(strut.from) || !in_unit_cube(strut.to)) {
      entry.fail("struts", fmt::format("strut {} leaves the unit cube", struts.size()),
                 "Give both ends in cell edges, each coordinate from 0 to 1.");
    }
    if (strut_length(strut) < 1e-6) {
      entry.fail("struts", fmt::format("strut {} has no length", struts.size()), "Give it two different ends.");
    }
  }
  if (const auto repeated = repeated_strut(struts)) {
    entry.fail(
        "struts",
        fmt::format("strut {} is strut {} again, moved by whole cells", repeated->second + 1, repeated->first + 1),
        "List each strut of the repeating lattice once: a strut on a shared face or edge belongs to one cell only.");
  }
  return struts;
}

std::vector<Plate> read_plates(const Mapping& entry) {
  std::vector<Plate> plates;
  for (Mapping item : entry.list("plates")) {
    item.allow({"corners", "thickness"});
    Plate plate;
    for (const std::vector<double>& row : item.number_rows("corners", 3)) {
      plate.corners.push_back({row[0], row[1], row[2]});
      if (!in_unit_cube(plate.corners.back())) {
        item.fail("corners", fmt::format("corner {} leaves the unit cube", plate.corners.size()),
                  "Give corners in cell edges, each coordinate from 0 to 1.");
      }
    }
    if (const auto fault = plate_fault(plate)) {
      item.fail("corners", fmt::format("plate {} {}", plates.size() + 1, *fault),
                "Give at least three corners of a flat plate without a dent, in order around it; cut a dented plate "
                "into several.");
    }
    plate.thickness_factor = item.number("thickness", Bounds{0, 10, true, false});
    plates.push_back(plate);
  }
  if (plates.empty()) {
    entry.fail("plates", "a cell of class plate has at least one plate",
               "List plates, each with corners in cell edges and its thickness over the cell's size.");
  }
  if (const auto repeated = repeated_plate(plates)) {
    entry.fail(
        "plates",
        fmt::format("plate {} is plate {} again, moved by whole cells", repeated->second + 1, repeated->first + 1),
        "List each plate of the repeating lattice once: a plate on a shared face belongs to one cell only.");
  }
  return plates;
}

/// The mesh stands beside the entry's file; its points become cell edges.
void read_solid(const Mapping& entry, UnitCell& cell) {
  const double edge = entry.number("mesh_cell_edge", Bounds::positive());
  cell.mesh_file = entry.text("mesh");
  const std::filesystem::path file = std::filesystem::path(entry.file_name()).parent_path() / cell.mesh_file;
  TriangleMesh mesh = read_closed_mesh(file);
  for (std::array<double, 3>& point : mesh.points) {
    for (double& coordinate : point) {
      coordinate /= edge;
    }
  }
  try {
    require_one_cell(mesh, edge);
  } catch (const OutOfDomain& fault) {
    entry.fail(
        "mesh", fmt::format("{}: {}", cell.mesh_file, fault.what()),
        "Export one cell of the repeating solid between 0 and its edge along x, y and z, and state that edge, in "
        "the mesh's own units, as mesh_cell_edge.");
  }
  cell.true_density_coefficients = {volume_in_cell(mesh)};
  cell.size_ratio_range = {1, 1};
  cell.mesh = std::make_shared<const TriangleMesh>(std::move(mesh));
}

void refuse_other_parts(const Mapping& entry, const UnitCell& cell) {
  struct Part {
    const char* key;
    bool fits;
    const char* of;
  };
  const CellClass own = cell.cell_class;
  for (const Part& part :
       {Part{"struts", own == CellClass::strut, "only a cell of class strut has struts"},
        Part{"surface", own == CellClass::sheet || own == CellClass::skeletal,
             "only a cell of class sheet or skeletal has a surface"},
        Part{"plates", own == CellClass::plate, "only a cell of class plate has plates"},
        Part{"mesh", own == CellClass::solid, "only a cell of class solid has a mesh"},
        Part{"mesh_cell_edge", own == CellClass::solid, "only a cell of class solid has a mesh"}}) {
    if (!part.fits && entry.has(part.key)) {
      entry.fail(part.key, part.of, fmt::format("Remove {} or correct class.", part.key));
    }
  }
}

void read_topology(const Mapping& entry, UnitCell& cell) {
  refuse_other_parts(entry, cell);
  switch (cell.cell_class) {
  case CellClass::strut:
    cell.struts = read_struts(entry);
    break;
  case CellClass::sheet:
    cell.surface = entry.choice("surface", sheet_surface_names());
    break;
  case CellClass::skeletal:
    cell.surface = entry.choice("surface", {"gyroid", "diamond"});
    break;
  case CellClass::plate:
    cell.plates = read_plates(entry);
    break;
  case CellClass::solid:
    read_solid(entry, cell);
    break;
  case CellClass::honeycomb:
  case CellClass::foam:
    break;
  }
}

std::vector<double> read_coefficients(const Mapping& block) {
  std::vector<double> coefficients;
  for (const Quantity& coefficient : block.quantity_list("coefficients", Dimension::number)) {
    coefficients.push_back(coefficient.value);
  }
  if (coefficients.empty()) {
    block.fail("coefficients", "the density has no coefficients",
               "List the factors of the size ratio, its square, its cube and so on.");
  }
  return coefficients;
}

Range read_size_ratio_range(const Mapping& block) {
  const std::vector<Quantity> ends = block.quantity_list("size_ratio_range", Dimension::number, Bounds::open(0, 1));
  if (ends.size() != 2 || ends[0].value >= ends[1].value) {
    block.fail("size_ratio_range", "a range is two size ratios, the lower one first",
               "Write for instance [0.02, 0.30].");
  }
  return {ends[0].value, ends[1].value};
}

void require_rising_density(const Mapping& block, const UnitCell& cell) {
  const int steps = 200;
  double before = 0;
  for (int step = 0; step <= steps; ++step) {
    const double part = static_cast<double>(step) / steps;
    const double ratio = (1 - part) * cell.size_ratio_range.low + part * cell.size_ratio_range.high;
    double density = cell.true_density_constant;
    double power = 1;
    for (double coefficient : cell.true_density_coefficients) {
      power *= ratio;
      density += coefficient * power;
    }
    if (!(density > before && density < 1)) {
      block.fail(
          "coefficients",
          fmt::format("the relative density is {:.4g} at size ratio {:.4g}: it must rise and stay between 0 and 1",
                      density, ratio),
          "Correct the coefficients or shorten size_ratio_range.");
    }
    before = density;
  }
}

void refuse_sizes(const Mapping& entry, const UnitCell& cell) {
  const bool foam = cell.cell_class == CellClass::foam;
  for (const char* key : {"size_name", "edge_name", "nominal_density", "true_density", "printable_minimum"}) {
    if (entry.has(key) && foam) {
      entry.fail(key, fmt::format("a foam has no {}: nothing in it is sized", key),
                 "Remove it; a case states the relative density of a foam directly.");
    }
    if (entry.has(key)) {
      entry.fail(key, fmt::format("a solid has no {}: its mesh has one size", key),
                 "Remove it; the density is that of the mesh, and a case states it as relative_density.");
    }
  }
}

/// What is not a sum of struts, walls or plates has no nominal density.
void read_nominal_density(const Mapping& entry, UnitCell& cell) {
  if (cell.cell_class == CellClass::skeletal) {
    if (entry.has("nominal_density")) {
      entry.fail("nominal_density", "a skeletal cell has no parts whose volumes could be summed",
                 "Remove it; its laws are stated on the true or the weighed density.");
    }
    return;
  }
  Mapping nominal = entry.mapping("nominal_density");
  nominal.allow({"coefficients", "source", "standing"});
  nominal.required_source();
  cell.nominal_density_coefficients = read_coefficients(nominal);
}

/// A nominal density of struts is arithmetic that the same command does.
void require_densities(const Mapping& entry, const UnitCell& cell) {
  const bool struts_alone = cell.cell_class == CellClass::strut && !entry.has("nominal_density");
  if (!entry.has("true_density") || struts_alone) {
    entry.fail(
        struts_alone ? "nominal_density" : "true_density",
        fmt::format("the {} relative density is missing, and it is computed, not typed",
                    struts_alone ? "nominal" : "true"),
        fmt::format("Run `crushwright cell {} --write`: it computes the densities from the cell's own solid and "
                    "writes them into the file.",
                    entry.file_name()));
  }
}

void read_density(const Mapping& entry, UnitCell& cell) {
  cell.size_name = entry.text("size_name");
  cell.edge_name = entry.text("edge_name");
  require_densities(entry, cell);
  read_nominal_density(entry, cell);
  Mapping solid = entry.mapping("true_density");
  solid.allow({"constant", "coefficients", "size_ratio_range", "largest_fit_error", "source", "standing"});
  solid.required_source();
  if (solid.has("constant") && cell.cell_class != CellClass::skeletal) {
    solid.fail("constant", "only a skeletal cell keeps metal while its size goes to nothing", "Remove constant.");
  }
  cell.true_density_constant = solid.optional_number("constant", Bounds::closed(0, 0.5)).value_or(0);
  cell.true_density_coefficients = read_coefficients(solid);
  cell.size_ratio_range = read_size_ratio_range(solid);
  cell.density_fit_error = solid.number("largest_fit_error", Bounds::closed(0, 0.05));
  require_rising_density(solid, cell);
}

} // namespace

UnitCell read_unit_cell(const Mapping& file) {
  Mapping entry = file;
  entry.allow({"id",
               "name",
               "description",
               "class",
               "behaviour",
               "symmetry",
               "struts",
               "surface",
               "plates",
               "mesh",
               "mesh_cell_edge",
               "size_name",
               "edge_name",
               "nominal_density",
               "true_density",
               "printable_minimum",
               "elastic_modulus",
               "plateau_stress",
               "first_peak_ratio",
               "densification"});
  UnitCell cell;
  cell.id = entry.text("id");
  cell.name = entry.text("name");
  cell.description = entry.text("description");
  cell.cell_class = read_class(entry);
  cell.behaviour = read_behaviour(entry);
  cell.symmetry = entry.choice("symmetry", {"cubic", "tetragonal", "hexagonal", "isotropic"});
  read_topology(entry, cell);
  if (!is_sized(cell)) {
    refuse_sizes(entry, cell);
  } else {
    cell.printable_minimum = entry.optional_quantity("printable_minimum", Dimension::length, Bounds::positive());
    read_density(entry, cell);
  }
  cell.elastic_modulus = read_power_laws(entry, "elastic_modulus", LawKind::stiffness);
  cell.plateau_stress = read_power_laws(entry, "plateau_stress", LawKind::strength);
  cell.first_peak_ratio = read_power_laws(entry, "first_peak_ratio", LawKind::ratio);
  cell.densification = read_densification_laws(entry);
  return cell;
}

} // namespace crushwright
