#include "column_check/bolt_reader.hpp"

#include "column_check/bolt_sums.hpp"
#include "yaml_input/spread.hpp"

#include <cmath>
#include <numbers>

#include <fmt/format.h>

namespace crushwright {
namespace {

Quantity carried(const Mapping& holder, std::string_view key, Dimension dimension, const Bounds& bounds) {
  return without_spread(
      holder, key, dimension, bounds,
      "Give the value that the joint surely carries, without low, high or coefficient_of_variation.");
}

std::vector<std::array<double, 2>> places_of(const Mapping& bolts) {
  std::vector<std::array<double, 2>> places;
  for (Mapping place : bolts.list("places")) {
    place.allow({"y", "z"});
    places.push_back({without_spread(place, "y", Dimension::length, Bounds::any()).value,
                      without_spread(place, "z", Dimension::length, Bounds::any()).value});
  }
  return places;
}

std::vector<std::array<double, 2>> circle_of(Mapping circle) {
  circle.allow({"count", "diameter"});
  const int count = circle.integer("count", 3, 200);
  const double radius = without_spread(circle, "diameter", Dimension::length, Bounds::positive()).value / 2;
  std::vector<std::array<double, 2>> places;
  for (int i = 0; i < count; ++i) {
    const double angle = 2 * std::numbers::pi * i / count;
    places.push_back({radius * std::cos(angle), radius * std::sin(angle)});
  }
  return places;
}

} // namespace

std::optional<BoltPattern> read_bolts(const Mapping& attachment) {
  if (!attachment.has("bolts"))
    return std::nullopt;
  Mapping bolts = attachment.mapping("bolts");
  bolts.allow({"places", "circle", "proof_load", "shear_load", "preload"});
  if (bolts.has("places") == bolts.has("circle"))
    attachment.fail("bolts",
                    bolts.has("places") ? "`places` and `circle` both say where the bolts are"
                                        : "where the bolts are is missing",
                    "Give either `places: [{y: 40 mm, z: 50 mm}, ...]` or `circle: {count: 6, diameter: 140 mm}`.");
  BoltPattern pattern;
  pattern.places = bolts.has("places") ? places_of(bolts) : circle_of(bolts.mapping("circle"));
  if (in_a_row(bolt_sums(pattern.places)))
    bolts.fail(bolts.has("places") ? "places" : "circle",
               fmt::format("{} bolts in one row carry no moment about that row", pattern.places.size()),
               "Give three bolts or more that do not lie on one line.");
  pattern.proof_load = carried(bolts, "proof_load", Dimension::force, Bounds::positive());
  if (bolts.has("shear_load"))
    pattern.shear_load = carried(bolts, "shear_load", Dimension::force, Bounds::positive());
  pattern.preload.dimension = Dimension::force;
  if (bolts.has("preload"))
    pattern.preload = carried(bolts, "preload", Dimension::force, Bounds::not_negative());
  if (pattern.preload.value > pattern.proof_load.value)
    bolts.fail("preload", "it is above the proof load, so that the bolts yield when they are tightened",
               "Give a preload below `proof_load`; about 70 % of it is common.");
  return pattern;
}

} // namespace crushwright
