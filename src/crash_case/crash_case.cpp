#include "crushwright/crash_case.hpp"

#include "column_check/service_reader.hpp"
#include "crash_case/impact_reader.hpp"
#include "crash_case/print_references.hpp"
#include "crash_case/scatter_reader.hpp"
#include "crash_case/structure_reader.hpp"
#include "printability/printing_reader.hpp"
#include "quantities/units.hpp"
#include "verdict/limit_reader.hpp"

#include <algorithm>
#include <fmt/format.h>

namespace crushwright {
namespace {

LimitScope limit_scope(const CrashCase& crash_case) {
  LimitScope scope;
  for (const ImpactInput& impact : crash_case.impacts) {
    LimitScope::Impact each{impact.id, {}, {}, {}, impact.face.has_value()};
    for (const BodyInput* body : {&impact.striker, &impact.struck})
      (body->held ? each.held_bodies : each.free_bodies).push_back(body->id);
    for (const ShareInput& share : impact.shares)
      each.structures.push_back(share.structure);
    if (impact.face)
      for (const StructureInput& structure : crash_case.structures)
        each.structures.push_back(structure.id);
    scope.impacts.push_back(std::move(each));
  }
  for (const StructureInput& structure : crash_case.structures) {
    scope.structures.push_back(structure.id);
    for (const Part& part : structure.envelope.parts)
      scope.parts.push_back(structure.id + "." + part.id);
    if (structure.attachment)
      scope.attached.push_back(structure.id);
    if (structure.bolts)
      scope.bolted.push_back(structure.id);
    if (std::any_of(crash_case.service_loads.begin(), crash_case.service_loads.end(),
                    [&](const ServiceLoad& load) { return load.structure == structure.id; }))
      scope.loaded.push_back(structure.id);
    if (!structure.packaging)
      continue;
    for (const KeepOut& keep_out : structure.packaging->input().keep_outs)
      scope.keep_outs.push_back(structure.id + "." + keep_out.id);
    if (!structure.packaging->ramps().empty())
      scope.ramped.push_back(structure.id);
  }
  return scope;
}

void require_items(const Mapping& block, const char* key, std::size_t count, const std::string& example) {
  if (count == 0)
    block.fail(key, "at least one is needed", fmt::format("Write for instance `{}: {}`.", key, example));
}

SizingInput read_sizing(Mapping sizing) {
  sizing.allow({"objective", "cell_edges", "smallest", "largest"});
  SizingInput input;
  const std::string objective = sizing.choice_or("objective", {"mass", "build_time", "build_cost"}, "mass");
  input.objective = objective == "build_time"   ? Objective::build_time
                    : objective == "build_cost" ? Objective::build_cost
                                                : Objective::mass;
  for (const Quantity& edge : sizing.quantity_list("cell_edges", Dimension::length, Bounds::positive()))
    input.cell_edges.push_back(edge.value);
  require_items(sizing, "cell_edges", input.cell_edges.size(), "[8 mm, 10 mm, 12 mm]");
  input.size_low = sizing.quantity("smallest", Dimension::length, Bounds::positive()).value;
  input.size_high = sizing.quantity("largest", Dimension::length, Bounds::positive()).value;
  if (input.size_high <= input.size_low)
    sizing.fail("largest",
                fmt::format("the largest size, {}, is not above the smallest, {}",
                            show(input.size_high, Dimension::length), show(input.size_low, Dimension::length)),
                "Give a range to search in.");
  return input;
}

CompareInput read_comparison(Mapping compare) {
  compare.allow({"cells", "materials", "relative_densities"});
  CompareInput input;
  input.cells = compare.text_list("cells");
  input.materials = compare.text_list("materials");
  for (const Quantity& density : compare.quantity_list("relative_densities", Dimension::fraction, Bounds::open(0, 1)))
    input.relative_densities.push_back(density.value);
  require_items(compare, "cells", input.cells.size(), "[bcc, octet]");
  require_items(compare, "materials", input.materials.size(), "[AlSi10Mg-stress-relieved]");
  require_items(compare, "relative_densities", input.relative_densities.size(), "[10 %, 15 %]");
  return input;
}

CrashCase read(Mapping root) {
  root.allow({"title", "description", "vehicle", "invented", "service_temperature", "structures", "impacts", "limits",
              "scatter", "size", "compare", "printing", "service_loads", "fatigue"});
  CrashCase crash_case;
  crash_case.file_name = root.file_name();
  crash_case.id = std::filesystem::path(crash_case.file_name).stem().string();
  crash_case.bytes = root.bytes();
  crash_case.title = root.text("title");
  crash_case.description = root.text_or("description", "");
  crash_case.vehicle = root.text_or("vehicle", "");
  crash_case.invented = root.flag_or("invented", false);
  crash_case.service_temperature =
      root.optional_quantity("service_temperature", Dimension::temperature, Bounds::positive());
  crash_case.structures = read_structures(root);
  crash_case.impacts = read_impacts(root, crash_case.structures);
  std::vector<std::string> ids;
  for (const StructureInput& structure : crash_case.structures)
    ids.push_back(structure.id);
  crash_case.service_loads = read_service_loads(root, ids);
  for (const StructureInput& structure : crash_case.structures)
    check_service_stations(root, crash_case.service_loads, structure.id, structure.envelope.length());
  crash_case.fatigue_strengths = read_fatigue(root);
  crash_case.limits = read_limits(root, limit_scope(crash_case));
  read_scatter(root, crash_case);
  if (auto sizing = root.optional_mapping("size"))
    crash_case.sizing = read_sizing(*sizing);
  if (auto comparison = root.optional_mapping("compare"))
    crash_case.comparison = read_comparison(*comparison);
  crash_case.printing = read_printing(root);
  check_print_references(root, crash_case);
  crash_case.all_quantities = root.quantities_read();
  return crash_case;
}

} // namespace

CrashCase read_case(const std::filesystem::path& file) {
  return read(Mapping::read_file(file));
}

CrashCase read_case_text(const std::string& text, const std::string& shown_name) {
  return read(Mapping::read_text(text, shown_name));
}

void fail_in_case(const CrashCase& crash_case, const std::string& path, const std::string& what,
                  const std::string& what_to_do) {
  Mapping::read_text(crash_case.bytes, crash_case.file_name).fail_at_path(path, what, what_to_do);
}

} // namespace crushwright
