#pragma once
#include "crushwright/estimate.hpp"
#include "crushwright/study.hpp"

#include <algorithm>
#include <string>
#include <utility>
#include <vector>

/// An estimate put together by hand for the tests of the result file and the review pack: two mirrored bodies, three
/// impacts, checks with all three words. Curves and motions come from the rooms above; every other number is
/// invented.
namespace crushwright::hand_made {

inline Source source(const std::string& text, Standing standing) {
  return {text, standing};
}

inline Quantity quantity(double value, Dimension dimension, const std::string& path, const Source& from = {}) {
  Quantity result;
  result.value = value;
  result.dimension = dimension;
  result.path = path;
  result.source = from;
  return result;
}

inline Section section(double station, double width, double height) {
  Section result;
  result.station = station;
  result.shape = SectionShape::rounded_rectangle;
  result.width = width;
  result.height = height;
  result.corner_radius = 0.02;
  return result;
}

inline Envelope envelope() {
  return {{section(0, 0.11, 0.10), section(0.42, 0.17, 0.15)}, {{"tip", 0, 0.09}, {"body", 0.09, 0.42}}};
}

inline Layer layer(int index, int count) {
  const double height = 0.42 / count;
  const double middle = (index + 0.5) / count;
  Layer result;
  result.station = height * index;
  result.height = height;
  result.section_area = (0.11 + 0.06 * middle) * (0.10 + 0.05 * middle) - 0.000343;
  result.lattice_area = result.section_area * 0.955;
  result.relative_density = 0.09 + 0.07 * middle;
  result.size = 0.0009 + 0.0004 * middle;
  result.lattice_force = 160e6 * result.relative_density * result.relative_density * result.lattice_area;
  result.skin_force = 9e3 + 3e3 * middle;
  result.elastic_force = 2e9 * result.relative_density * result.lattice_area;
  result.efficiency_strain = 0.66 - 0.4 * result.relative_density;
  result.shape = curve_shape({result.efficiency_strain, 1 - 1.4 * result.relative_density, 0.02, 0.3, 6});
  return result;
}

inline PropertyEvidence evidence(Evidence kind, const std::string& law, double value, bool inside,
                                 const std::string& remark, const Source& from) {
  PropertyEvidence result;
  result.evidence = kind;
  result.law = law;
  result.value = value;
  result.inside_fitted_range = inside;
  result.remark = remark;
  result.source = from;
  if (kind == Evidence::published) {
    result.coefficient_of_variation = 0.09;
  }
  return result;
}

inline CellProperty property(double value, const std::string& what) {
  const Source invented = source("Invented test series, table 3", Standing::common_practice);
  const Source textbook = source("Invented handbook of cellular solids, chapter 5", Standing::memory);
  return {
      value,
      {evidence(Evidence::published, "coupon-series-" + what, value, true, "fitted on the true density", invented),
       evidence(Evidence::computed, "frame-" + what, 0.93 * value, true, "rigid strut ends", {}),
       evidence(Evidence::generic, "class-" + what, 1.22 * value, false, "no direction, no alloy", textbook)},
      "published, same cell, alloy, condition and process; inside its fitted range"};
}

inline CellAtStation cell_at(const std::string& where, double station, double density, double size) {
  CellProperties cell;
  cell.cell = "octet";
  cell.material = "test-alloy-annealed";
  cell.direction = "100";
  cell.relative_density = density;
  cell.nominal_relative_density = 1.12 * density;
  cell.density = density * 2670;
  cell.elastic_modulus = property(70e9 * density / 9, "stiffness");
  cell.plateau_stress = property(160e6 * density * density, "plateau");
  cell.first_peak_ratio = property(1.15, "first-peak");
  cell.locking_strain = property(1 - 1.4 * density, "locking");
  cell.efficiency_strain = property(0.66 - 0.4 * density, "efficiency");
  cell.plateau_end_strain = property(0.60 - 0.4 * density, "plateau-end");
  cell.specific_energy_absorption = 11e3;
  cell.warnings = {"first peak from a law without a fitted range"};
  return {where, station, size, cell};
}

inline StructureModel structure(const std::string& id, double lateral) {
  StructureModel model;
  model.id = id;
  model.lateral = lateral;
  model.vertical = 0.45;
  model.envelope = envelope();
  for (int i = 0; i < 24; ++i) {
    model.layers.push_back(layer(i, 24));
  }
  model.first_peak = {1.15, 0.01};
  model.cells = {cell_at("tip", 0, 0.09, 0.0009), cell_at("middle", 0.21, 0.125, 0.0011),
                 cell_at("root", 0.42, 0.16, 0.0013)};
  model.cell_id = "octet";
  model.material_id = "test-alloy-annealed";
  model.cell_edge = 0.010;
  model.skin_thickness = 0.0012;
  model.lattice_share = 0.74;
  model.rate_high = 1.08;
  model.rate_nominal = 1.02;
  model.mass = {1.93, 0.61, 0.24, 0.15, 0, 2.93, true};
  model.smallest_wall = 0.0009;
  model.cells_across = 9.8;
  model.inversions = {{0.0875, 31.2e3, 31.9e3}};
  model.as_built_notes = {"the weighed mass, less skin and plates, means 1.12 \u00b1 0.03 mm struts at mid length"};
  model.warnings = {"9.8 cells across the smallest width: a coupon would need 10"};
  return model;
}

inline CrushCurve curve(const StructureModel& model, double factor) {
  return scaled(crush_curve(model.layers, model.first_peak), 1.15 * factor, 1);
}

inline StructureCurves curves(const StructureModel& model, double spread) {
  StructureCurves result;
  result.structure = model.id;
  result.weak = curve(model, 1 - spread);
  result.nominal = curve(model, 1);
  result.strong = curve(model, 1 + spread);
  result.stacked_weak = curve(model, 1 - 1.5 * spread);
  result.stacked_strong = curve(model, 1 + 1.5 * spread);
  result.weak_factor = 1 - spread;
  result.strong_factor = 1 + spread;
  result.usable_stroke = std::min(result.nominal.bottoming_crush, result.nominal.crush_at_force(95e3));
  result.stroke_efficiency = result.usable_stroke / 0.42;
  result.crush_force_efficiency = result.nominal.energy_at(result.usable_stroke) / (result.usable_stroke * 95e3);
  result.specific_energy_absorption = result.nominal.energy_at(result.usable_stroke) / model.mass.total;
  return result;
}

inline ImpactMotion motion(const Body& striker, const Body& struck, double speed,
                           const std::vector<std::pair<double, const CrushCurve*>>& shares) {
  std::vector<Group> groups;
  const char* const names[] = {"left", "right"};
  for (std::size_t i = 0; i < shares.size(); ++i) {
    if (shares[i].first > 0) {
      groups.push_back({shares[i].first, {Line{names[i], shares[i].second}}});
    }
  }
  return integrate_impact(striker, struck, speed, groups);
}

inline RunOutcome run(Side side, bool stacked, const ImpactMotion& from, const CrushCurve& curve) {
  RunOutcome result;
  result.side = side;
  result.stacked = stacked;
  const double stroke = std::min(curve.bottoming_crush, curve.crush_at_force(95e3));
  for (const ColumnMotion& column : from.columns) {
    StructureOutcome outcome;
    outcome.structure = column.structure;
    outcome.peak_crush = column.peak_crush;
    outcome.peak_force = column.peak_force;
    outcome.usable_stroke = stroke;
    outcome.stroke_used = column.peak_crush / stroke;
    outcome.stroke_left = stroke - column.peak_crush;
    outcome.reserve = curve.energy_at(stroke) / column.input_energy - 1;
    outcome.energy = column.input_energy;
    outcome.bottoming_crush = curve.bottoming_crush;
    outcome.bottomed = column.bottomed;
    outcome.what_ends_stroke = "attachment force limit of 95 kN";
    outcome.first_lock_station = column.peak_crush > 0.05 ? 0.0 : -1.0;
    result.structures.push_back(outcome);
    result.stop_time = std::max(result.stop_time, column.stop_time);
  }
  result.peak_total_force = from.peak_total_force;
  result.striker_peak_acceleration = result.peak_total_force / from.striker.mass;
  result.struck_peak_acceleration = from.struck.held ? 0 : result.peak_total_force / from.struck.mass;
  result.struck_speed_change = from.struck.held ? 0 : 0.55 * from.closing_speed;
  return result;
}

inline ImpactOutcome impact(const std::string& id, const std::string& description, const Body& striker, double speed,
                            double left_share, const JudgedSet& set) {
  const Body car{"car", 1180, false};
  const auto moved = [&](const CrushCurve StructureCurves::*side, double factor) {
    return motion(striker, car, speed * factor,
                  {{left_share, &(set.curves.at(0).*side)}, {1 - left_share, &(set.curves.at(1).*side)}});
  };
  ImpactOutcome result;
  result.id = id;
  result.description = description;
  result.striker = striker;
  result.struck = car;
  result.closing_speed = speed;
  result.effective_mass = effective_mass(striker, car);
  result.available_energy = available_energy(striker, car, speed);
  result.shares = {{"left", left_share}, {"right", 1 - left_share}};
  result.motion = moved(&StructureCurves::nominal, 1);
  const StructureCurves& curves = set.curves.at(0);
  result.sides = {run(Side::weak, false, moved(&StructureCurves::weak, 1), curves.weak),
                  run(Side::nominal, false, result.motion, curves.nominal),
                  run(Side::strong, false, moved(&StructureCurves::strong, 1), curves.strong),
                  run(Side::weak, true, moved(&StructureCurves::stacked_weak, 1), curves.stacked_weak),
                  run(Side::strong, true, moved(&StructureCurves::stacked_strong, 1), curves.stacked_strong)};
  result.more_energy.word = left_share > 0.5 ? Word::fail : Word::pass;
  result.more_energy.first_limit_missed = left_share > 0.5 ? "stroke_offset" : "";
  result.more_energy.nominal = run(Side::nominal, false, moved(&StructureCurves::nominal, 1.0488), curves.nominal);
  return result;
}

inline Check check(const std::string& id, const std::string& impact, const std::string& of, LimitedQuantity quantity,
                   double limit, double weak, double nominal, double strong, Word word) {
  Check result;
  result.limit.id = id;
  result.limit.impact = impact;
  result.limit.of = of;
  result.limit.quantity = quantity;
  result.limit.value.value = limit;
  result.limit.value.dimension = dimension_of(quantity);
  result.limit.value.path = "limits." + id + ".value";
  result.limit.at_most = quantity != LimitedQuantity::wall && quantity != LimitedQuantity::cells_across &&
                         quantity != LimitedQuantity::reserve;
  result.combined = {weak, nominal, strong, false, false, false, ""};
  result.stacked = {0.93 * weak, nominal, 1.07 * strong, false, false, false, ""};
  result.word = word;
  const double sign = result.limit.at_most ? 1 : -1;
  result.worst_side = sign * weak > sign * strong ? Side::weak : Side::strong;
  result.worst_value = result.worst_side == Side::weak ? weak : strong;
  result.margin = sign * (limit - result.worst_value) / limit;
  result.nominal_margin = sign * (limit - nominal) / limit;
  result.stacked_holds = word == Word::pass;
  return result;
}

inline std::vector<Check> checks() {
  using Q = LimitedQuantity;
  std::vector<Check> list = {
      check("attachment_left", "full_width", "left", Q::force, 95e3, 71e3, 82e3, 98e3, Word::open),
      check("car_pulse", "full_width", "car", Q::acceleration, 196.2, 112, 131, 154, Word::pass),
      check("stroke_offset", "offset", "left", Q::stroke_used, 0.9, 1.04, 0.95, 0.86, Word::fail),
      check("tip_only", "low_speed", "left.body", Q::crush, 0.001, 0.0006, 0.0002, 0.0001, Word::pass),
      check("mass", "", "structures", Q::mass, 6.5, 5.86, 5.86, 5.86, Word::pass),
      check("printable", "", "left", Q::wall, 0.0005, 0.0009, 0.0009, 0.0009, Word::pass),
      check("cells", "", "left", Q::cells_across, 6, 9.8, 9.8, 9.8, Word::pass),
      check("energy_reserve", "full_width", "left", Q::reserve, 0.1, 0.04, 0.21, 0.35, Word::open)};
  list[0].note = "holds at nominal, fails strong: a coupon series on this build would narrow the lattice law.";
  list[0].limit.requirement = {"VEH-RS-014", "issue 3", "4.2"};
  list[1].limit.status = LimitStatus::regulation;
  list[1].limit.channel_class = 60;
  list[1].limit.requirement = {"VEH-RS-002", "invented rule book, 2020", "B.7"};
  list[2].note = "fails at nominal: the offset impact asks 60 % of its energy of one body.";
  list[2].combined.weak_bottomed = true;
  list[7].note = "holds at nominal, fails weak.";
  return list;
}

inline JudgedSet judged(const std::string& id, double spread, const std::vector<StructureModel>& models) {
  JudgedSet set;
  set.scatter_set = id;
  for (const StructureModel& model : models) {
    set.curves.push_back(curves(model, spread));
  }
  const Body barrier{"barrier", 1100, false};
  set.impacts = {
      impact("full_width", "Rigid full-width striker at 35 km/h", barrier, 35 / 3.6, 0.5, set),
      impact("offset", "Rigid striker, 60 % on the left body, 25 km/h", barrier, 25 / 3.6, 0.6, set),
      impact("low_speed", "Parking bump; only the tip may crush", {"bollard", 1100, false}, 2.2, 0.5, set)};
  set.verdict.checks = checks();
  set.verdict.word = Word::fail;
  set.verdict.governing = 2;
  return set;
}

inline Estimate estimate() {
  Estimate result;
  StructureModel right = structure("right", -0.38);
  right.mirror_of = "left";
  result.structures = {structure("left", 0.38), right};
  result.deciding = judged("handbook", 0.22, result.structures);
  JudgedSet coupons = judged("after_coupons", 0.09, result.structures);
  coupons.verdict.checks[0].word = Word::pass;
  coupons.verdict.checks[0].margin = 0.04;
  coupons.verdict.checks[7].word = Word::pass;
  coupons.verdict.checks[7].margin = 0.05;
  result.others = {coupons};
  result.warnings = {"the lattice law comes from a handbook prior: replace it with coupons of your own build",
                     "left: 9.8 cells across the smallest width; a coupon would need 10",
                     "service temperature 105 \u00b0C and no strength factor in the material entry"};
  return result;
}

inline CrashCase crash_case() {
  CrashCase result;
  result.id = "sample_bodies";
  result.title = "Two tapered bodies either side of an outlet";
  result.description = "A made-up rear structure used to test the report.";
  result.vehicle = "invented three-seater, 1,180 kg";
  result.invented = true;
  result.bytes = "schema: 1\ntitle: sample\n";
  for (const StructureModel& model : {structure("left", 0.38), structure("right", -0.38)}) {
    StructureInput input;
    input.id = model.id;
    input.lateral = model.lateral;
    input.vertical = model.vertical;
    input.envelope = model.envelope;
    result.structures.push_back(input);
  }
  result.structures[1].mirror_of = "left";
  ScatterSet handbook, coupons;
  handbook.id = "handbook";
  handbook.description = "starting values, before any test";
  coupons.id = "after_coupons";
  coupons.description = "after compression tests on the same build";
  result.scatter_sets = {handbook, coupons};
  const Source drawing = source("Drawing 0417, sheet 2", Standing::read);
  Quantity speed = quantity(35 / 3.6, Dimension::speed, "impacts.full_width.closing_speed", drawing);
  speed.low = 34.5 / 3.6;
  speed.high = 35.5 / 3.6;
  Quantity law = quantity(0.12, Dimension::fraction, "scatter.handbook.law",
                          source("starting value of the trade", Standing::common_practice));
  law.coefficient_of_variation = 0.12;
  result.all_quantities = {speed, quantity(1180, Dimension::mass, "bodies.car.mass", drawing),
                           quantity(0.010, Dimension::length, "structures.left.lattice.cell_edge"), law};
  return result;
}

inline BaseMaterial material() {
  BaseMaterial result;
  result.id = "test-alloy-annealed";
  result.name = "Test alloy, annealed";
  result.alloy = "invented aluminium alloy";
  result.condition = "annealed";
  result.process = "laser powder-bed fusion";
  result.description = "Invented for the tests.";
  const Source invented = source("Invented data sheet, page 4", Standing::memory);
  result.density = quantity(2670, Dimension::density, "density", invented);
  result.youngs_modulus = quantity(70e9, Dimension::stress, "youngs_modulus", invented);
  result.proof_stress = quantity(160e6, Dimension::stress, "proof_stress", invented);
  result.proof_stress->coefficient_of_variation = 0.04;
  return result;
}

inline Candidate candidate(const std::string& label, double mass, double peak_force, Word word, double margin) {
  Candidate result;
  result.label = label;
  result.cell = label.substr(0, label.find(','));
  result.material = "test-alloy-annealed";
  result.cell_edge = 0.010;
  result.size_tip = 0.0009;
  result.size_root = 0.0013;
  result.skin_thickness = 0.0012;
  result.relative_density = 0.125;
  result.mass = mass;
  result.word = word;
  result.governing_limit = "stroke_offset";
  result.governing_margin = margin;
  result.peak_force = peak_force;
  result.peak_crush = 0.19;
  result.specific_energy_absorption = 11e3;
  result.feasible = word == Word::pass;
  return result;
}

inline ComparisonResult comparison() {
  ComparisonResult result;
  result.fixed = {candidate("octet, test alloy, density 0.15", 5.9, 82e3, Word::open, -0.03),
                  candidate("gyroid, test alloy, density 0.15", 6.4, 88e3, Word::pass, 0.04),
                  candidate("kelvin, test alloy, density 0.20", 7.1, 70e3, Word::fail, -0.21)};
  result.sized = {candidate("octet, test alloy, sized", 6.1, 84e3, Word::pass, 0.0)};
  result.baselines = {candidate("skin alone, thickened", 5.2, 121e3, Word::fail, -0.27),
                      candidate("foam, same skin", 6.9, 79e3, Word::open, -0.02)};
  result.notes = {"the skin alone is lighter and breaks the attachment"};
  return result;
}

inline SizingResult sizing() {
  SizingResult result;
  result.found = true;
  result.best = candidate("octet, 10 mm, 1.02 mm", 6.1, 84e3, Word::pass, 0.0);
  result.per_choice = {result.best, candidate("octet, 8 mm, 0.84 mm", 6.2, 85e3, Word::pass, 0.01)};
  result.per_choice[1].cell_edge = 0.008;
  result.scanned = {candidate("octet, 10 mm, 0.80 mm", 5.2, 68e3, Word::fail, -0.2),
                    candidate("octet, 10 mm, 0.95 mm", 5.8, 79e3, Word::open, -0.05)};
  result.binding = "stroke_offset binds: a thinner strut bottoms out in the offset impact";
  return result;
}

} // namespace crushwright::hand_made
