#include "printability/printing_reader.hpp"

#include "printability/vector.hpp"

#include <cmath>
#include <fmt/format.h>
#include <numbers>

namespace crushwright {
namespace {

Quantity practice(double value, Dimension dimension, const std::string& text) {
  Quantity quantity;
  quantity.value = value;
  quantity.dimension = dimension;
  quantity.source = {text, Standing::common_practice};
  return quantity;
}

BuildDirection axis_named(const std::string& word) {
  BuildDirection direction{0, 0, 0};
  direction[static_cast<std::size_t>(word.back() - 'x')] = word.front() == '-' ? -1 : 1;
  return direction;
}

BuildDirection read_direction(const Mapping& printing) {
  if (!printing.is_list("build_direction"))
    return axis_named(printing.choice("build_direction", {"-x", "+x", "-y", "+y", "-z", "+z"}));
  BuildDirection direction{0, 0, 0};
  const std::vector<Quantity> given = printing.quantity_list("build_direction", Dimension::number);
  if (given.size() != 3)
    printing.fail("build_direction", fmt::format("three numbers were expected; there are {}", given.size()),
                  "Give the direction along x (station), y (left) and z (up), for instance `[-1, 0, 1]`.");
  for (std::size_t i = 0; i < 3; ++i)
    direction[i] = given[i].value;
  if (!(norm(direction) > 0))
    printing.fail("build_direction", "a direction of three zeros points nowhere",
                  "Give the direction in which the part grows, for instance `\"-x\"`.");
  return scaled(direction, 1 / norm(direction));
}

PrintMachine read_machine(Mapping machine) {
  machine.allow({"build_volume", "self_supporting_angle", "smallest_feature", "longest_span", "smallest_opening"});
  PrintMachine input;
  if (machine.has("build_volume")) {
    const std::vector<Quantity> sides = machine.quantity_list("build_volume", Dimension::length, Bounds::positive());
    if (sides.size() != 3)
      machine.fail("build_volume", fmt::format("three lengths were expected; there are {}", sides.size()),
                   "Give the two sides of the platform and the height, for instance `[250 mm, 250 mm, 300 mm]`.");
    input.build_volume = {sides[0].value, sides[1].value, sides[2].value};
  }
  constexpr double right_angle = 0.5 * std::numbers::pi;
  input.self_supporting_angle =
      machine.has("self_supporting_angle")
          ? machine.quantity("self_supporting_angle", Dimension::angle, Bounds::open(0, right_angle))
          : practice(0.5 * right_angle, Dimension::angle,
                     "usual in metal powder beds; it depends on machine and alloy");
  input.smallest_feature = machine.optional_quantity("smallest_feature", Dimension::length, Bounds::positive());
  input.longest_span = machine.optional_quantity("longest_span", Dimension::length, Bounds::not_negative());
  input.smallest_opening = machine.optional_quantity("smallest_opening", Dimension::length, Bounds::positive());
  return input;
}

PrintRates read_rates(Mapping rates) {
  rates.allow({"layer_thickness", "recoat_time", "volume_rate", "contour_rate", "currency", "cost_per_hour",
               "cost_per_kg", "powder_loss", "cost_per_build", "parts_per_build"});
  PrintRates input;
  input.layer_thickness = rates.quantity("layer_thickness", Dimension::length, Bounds::positive());
  input.recoat_time = rates.quantity("recoat_time", Dimension::duration, Bounds::not_negative());
  input.volume_rate = rates.quantity("volume_rate", Dimension::volume_rate, Bounds::positive());
  input.contour_rate = rates.optional_quantity("contour_rate", Dimension::area_rate, Bounds::positive());
  input.cost_per_hour = rates.optional_quantity("cost_per_hour", Dimension::number, Bounds::not_negative());
  input.cost_per_kg = rates.optional_quantity("cost_per_kg", Dimension::number, Bounds::not_negative());
  input.cost_per_build = rates.optional_quantity("cost_per_build", Dimension::number, Bounds::not_negative());
  input.powder_loss = rates.optional_quantity("powder_loss", Dimension::fraction, Bounds::not_negative());
  input.parts_per_build = rates.optional_integer("parts_per_build", 1, 1000).value_or(1);
  input.currency = rates.text_or("currency", "");
  const bool priced = input.cost_per_hour || input.cost_per_kg || input.cost_per_build;
  if (priced && input.currency.empty())
    rates.fail("", "prices are stated without their currency", "Add `currency:` with a word of your own.");
  if (!priced && !input.currency.empty())
    rates.fail("currency", "a currency is stated, but no price in it",
               "Add `cost_per_hour`, `cost_per_kg` or `cost_per_build`, or delete the line.");
  return input;
}

PrintJoint read_joint(Mapping joint) {
  joint.allow({"flange_thickness", "bolts", "bolt_mass", "bolt_capacity"});
  PrintJoint input;
  input.flange_thickness = joint.quantity("flange_thickness", Dimension::length, Bounds::positive());
  input.bolts = joint.integer("bolts", 1, 1000);
  input.bolt_mass = joint.quantity("bolt_mass", Dimension::mass, Bounds::not_negative());
  input.bolt_capacity = joint.quantity("bolt_capacity", Dimension::force, Bounds::positive());
  return input;
}

} // namespace

std::optional<PrintingInput> read_printing(const Mapping& root) {
  auto printing = root.optional_mapping("printing");
  if (!printing)
    return std::nullopt;
  printing->allow({"build_direction", "machine", "rates", "joint", "end_plates", "escape_hole"});
  PrintingInput input;
  input.build_direction = read_direction(*printing);
  input.machine = read_machine(printing->mapping("machine"));
  if (auto rates = printing->optional_mapping("rates"))
    input.rates = read_rates(*rates);
  if (auto joint = printing->optional_mapping("joint"))
    input.joint = read_joint(*joint);
  input.plates_printed = printing->choice_or("end_plates", {"printed", "separate"}, "printed") == "printed";
  input.escape_hole = printing->optional_quantity("escape_hole", Dimension::length, Bounds::positive());
  return input;
}

} // namespace crushwright
