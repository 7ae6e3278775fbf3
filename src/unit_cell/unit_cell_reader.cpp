#include "unit_cell/unit_cell_reader.hpp"
#include "scaling_law/law_reader.hpp"
#include "unit_cell/strut_identity.hpp"

#include <algorithm>
#include <fmt/format.h>

namespace crushwright {

namespace {

CellClass read_class(const Mapping& entry) {
  const std::string word = entry.choice("class", {"strut", "sheet", "honeycomb", "foam"});
  return word == "strut"       ? CellClass::strut
         : word == "sheet"     ? CellClass::sheet
         : word == "honeycomb" ? CellClass::honeycomb
                               : CellClass::foam;
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

void read_topology(const Mapping& entry, UnitCell& cell) {
  if (cell.cell_class == CellClass::strut) {
    cell.struts = read_struts(entry);
  } else if (entry.has("struts")) {
    entry.fail("struts", "only a cell of class strut has struts", "Remove struts or correct class.");
  }
  if (cell.cell_class == CellClass::sheet) {
    cell.surface = entry.choice("surface", {"gyroid", "diamond"});
  } else if (entry.has("surface")) {
    entry.fail("surface", "only a cell of class sheet has a surface", "Remove surface or correct class.");
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
    double density = 0;
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

void refuse_sizes(const Mapping& foam) {
  for (const char* key : {"size_name", "edge_name", "nominal_density", "true_density", "printable_minimum"}) {
    if (foam.has(key)) {
      foam.fail(key, fmt::format("a foam has no {}: nothing in it is sized", key),
                "Remove it; a case states the relative density of a foam directly.");
    }
  }
}

void read_density(const Mapping& entry, UnitCell& cell) {
  cell.size_name = entry.text("size_name");
  cell.edge_name = entry.text("edge_name");
  Mapping nominal = entry.mapping("nominal_density");
  nominal.allow({"coefficients", "source", "standing"});
  nominal.required_source();
  cell.nominal_density_coefficients = read_coefficients(nominal);
  if (!entry.has("true_density")) {
    entry.fail(
        "true_density", "the true relative density is missing, and it is computed, not typed",
        fmt::format("Run `scripts/update_catalogue {}`: it computes the block from the cell's own solid and writes "
                    "it into the file.",
                    entry.file_name()));
  }
  Mapping solid = entry.mapping("true_density");
  solid.allow({"coefficients", "size_ratio_range", "largest_fit_error", "source", "standing"});
  solid.required_source();
  cell.true_density_coefficients = read_coefficients(solid);
  cell.size_ratio_range = read_size_ratio_range(solid);
  cell.density_fit_error = solid.number("largest_fit_error", Bounds::closed(0, 0.05));
  require_rising_density(solid, cell);
}

} // namespace

UnitCell read_unit_cell(const Mapping& file) {
  Mapping entry = file;
  entry.allow({"id", "name", "description", "class", "behaviour", "symmetry", "struts", "surface", "size_name",
               "edge_name", "nominal_density", "true_density", "printable_minimum", "elastic_modulus",
               "plateau_stress", "first_peak_ratio", "densification"});
  UnitCell cell;
  cell.id = entry.text("id");
  cell.name = entry.text("name");
  cell.description = entry.text("description");
  cell.cell_class = read_class(entry);
  cell.behaviour = read_behaviour(entry);
  cell.symmetry = entry.choice("symmetry", {"cubic", "tetragonal", "hexagonal", "isotropic"});
  read_topology(entry, cell);
  if (cell.cell_class == CellClass::foam) {
    refuse_sizes(entry);
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
