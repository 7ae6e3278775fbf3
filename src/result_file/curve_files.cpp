#include "result_file/curve_files.hpp"

#include <algorithm>
#include <cmath>
#include <set>

#include <fmt/format.h>

namespace crushwright {

namespace {

constexpr double most_samples = 400;

/// Collects files and keeps their names apart when two ids differ only in characters that a file name cannot hold.
class CurveFolder {
public:
  void add(const std::string& stem, const std::vector<CsvColumn>& columns) {
    std::string name = fmt::format("curves/{}.csv", stem);
    for (int count = 2; !names_.insert(name).second; ++count) {
      name = fmt::format("curves/{}-{}.csv", stem, count);
    }
    files_.push_back({name, csv_text(name, columns)});
  }
  std::vector<PackFile> take() { return std::move(files_); }

private:
  std::vector<PackFile> files_;
  std::set<std::string> names_;
};

void add_force_crush(CurveFolder& folder, const StructureCurves& curves) {
  const auto add = [&](std::string_view side, const CrushCurve& curve) {
    folder.add(fmt::format("force_crush-{}-{}", file_name_part(curves.structure), side),
               {{"crush", "m", curve.crush}, {"force", "N", curve.force}, {"energy", "J", curve.energy}});
  };
  add("weak", curves.weak);
  add("nominal", curves.nominal);
  add("strong", curves.strong);
}

void add_history(CurveFolder& folder, const ImpactOutcome& impact) {
  const ImpactHistory history = sample(impact.motion, history_step(impact.motion));
  std::vector<CsvColumn> columns = {{"time", "s", history.time}, {"force", "N", history.force}};
  for (std::size_t i = 0; i < impact.motion.columns.size(); ++i) {
    columns.push_back({"crush " + impact.motion.columns[i].structure, "m", history.column_crush.at(i)});
    columns.push_back({"force " + impact.motion.columns[i].structure, "N", history.column_force.at(i)});
  }
  for (std::size_t i = 0; i < impact.motion.elements.size(); ++i) {
    columns.push_back({"crush " + impact.motion.elements[i].id, "m", history.element_crush.at(i)});
    columns.push_back({"force " + impact.motion.elements[i].id, "N", history.element_force.at(i)});
  }
  columns.push_back({"speed " + impact.striker.id, "m/s", history.striker_speed});
  columns.push_back({"speed " + impact.struck.id, "m/s", history.struck_speed});
  columns.push_back({"acceleration " + impact.striker.id, "m/s^2", history.striker_acceleration});
  columns.push_back({"acceleration " + impact.struck.id, "m/s^2", history.struck_acceleration});
  folder.add("history-" + file_name_part(impact.id), columns);
}

void add_cells(CurveFolder& folder, const StructureModel& structure) {
  for (const CellAtStation& cell : structure.cells) {
    const StressStrain curve = cell_curve_at(structure, cell);
    folder.add(fmt::format("cell-{}-{}", file_name_part(structure.id), file_name_part(cell.where)),
               {{"strain", "1", curve.strain}, {"stress", "Pa", curve.stress}});
  }
}

void add_layers(CurveFolder& folder, const StructureModel& structure) {
  std::vector<CsvColumn> columns = {
      {"station", "m", {}},        {"height", "m", {}},           {"section area", "m^2", {}},
      {"lattice area", "m^2", {}}, {"relative density", "1", {}}, {"size", "m", {}},
      {"lattice force", "N", {}},  {"skin force", "N", {}},       {"efficiency strain", "1", {}}};
  for (const Layer& layer : structure.layers) {
    const std::vector<double> row = {layer.station,       layer.height,           layer.section_area,
                                     layer.lattice_area,  layer.relative_density, layer.size,
                                     layer.lattice_force, layer.skin_force,       layer.efficiency_strain};
    for (std::size_t c = 0; c < columns.size(); ++c) {
      columns[c].values.push_back(row[c]);
    }
  }
  folder.add("layers-" + file_name_part(structure.id), columns);
}

const Layer* layer_at(const StructureModel& structure, double station) {
  const Layer* found = nullptr;
  for (const Layer& layer : structure.layers) {
    if (found == nullptr || layer.station <= station) {
      found = &layer;
    }
  }
  return found;
}

} // namespace

double history_step(const ImpactMotion& motion) {
  double duration = 0;
  for (const ColumnMotion& column : motion.columns) {
    duration = std::max({duration, column.separation_time, column.stop_time});
  }
  const double least = duration / (most_samples - 2);
  if (!(least > 0) || !std::isfinite(least)) {
    return 1e-3;
  }
  const double decade = std::pow(10.0, std::floor(std::log10(least)));
  for (const double factor : {1.0, 2.0, 5.0}) {
    if (factor * decade >= least) {
      return factor * decade;
    }
  }
  return 10 * decade;
}

StressStrain cell_curve_at(const StructureModel& structure, const CellAtStation& cell) {
  const Layer* layer = layer_at(structure, cell.station);
  if (layer == nullptr) {
    return {};
  }
  return stress_strain(layer->shape, cell.properties.plateau_stress.value, cell.properties.elastic_modulus.value,
                       cell.properties.first_peak_ratio.value);
}

std::vector<PackFile> curve_files(const Estimate& estimate) {
  CurveFolder folder;
  for (const StructureCurves& curves : estimate.deciding.curves) {
    add_force_crush(folder, curves);
  }
  for (const ImpactOutcome& impact : estimate.deciding.impacts) {
    add_history(folder, impact);
  }
  for (const StructureModel& structure : estimate.structures) {
    add_cells(folder, structure);
    add_layers(folder, structure);
  }
  return folder.take();
}

} // namespace crushwright
