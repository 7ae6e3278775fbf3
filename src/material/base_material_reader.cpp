#include "material/base_material_reader.hpp"

#include <fmt/format.h>

namespace crushwright {

namespace {

// The catalogue is what a reviewer checks: a number that nobody can trace has no place in it.
std::optional<Quantity> sourced_property(const Mapping& file, std::string_view key, Dimension dimension,
                                         const Bounds& bounds) {
  std::optional<Quantity> property = file.optional_quantity(key, dimension, bounds);
  if (property && property->source.text.empty() && !property->source.standing) {
    file.fail(key, fmt::format("'{}' of a catalogue entry has neither source nor standing", key),
              "Write it in the long form {value, source, standing}, or leave the property out.");
  }
  return property;
}

void read_properties(const Mapping& file, BaseMaterial& material) {
  const Bounds ratio = Bounds::open(0, 1);
  material.density = sourced_property(file, "density", Dimension::density, Bounds::positive());
  material.youngs_modulus = sourced_property(file, "youngs_modulus", Dimension::stress, Bounds::positive());
  material.poissons_ratio = sourced_property(file, "poissons_ratio", Dimension::number, Bounds::open(-1, 0.5));
  material.proof_stress = sourced_property(file, "proof_stress", Dimension::stress, Bounds::positive());
  material.ultimate_stress = sourced_property(file, "ultimate_stress", Dimension::stress, Bounds::positive());
  material.uniform_elongation = sourced_property(file, "uniform_elongation", Dimension::fraction, ratio);
  material.fracture_elongation =
      sourced_property(file, "fracture_elongation", Dimension::fraction, Bounds::closed(0, 2));
  material.hardening_exponent = sourced_property(file, "hardening_exponent", Dimension::number, Bounds::closed(0, 1));
  material.rate_factor = sourced_property(file, "rate_factor", Dimension::number, Bounds::closed(0.2, 5));
}

void check_stresses(const Mapping& file, const BaseMaterial& material) {
  if (material.proof_stress && material.ultimate_stress &&
      material.ultimate_stress->value < material.proof_stress->value) {
    file.fail("ultimate_stress",
              fmt::format("the ultimate stress, {:g} MPa, is below the proof stress, {:g} MPa",
                          material.ultimate_stress->value / 1e6, material.proof_stress->value / 1e6),
              "Check both values: no metal or polymer coupon fails below its proof stress.");
  }
}

void read_temperature_factors(const Mapping& file, BaseMaterial& material) {
  std::optional<Mapping> block = file.optional_mapping("temperature_factors");
  if (!block) {
    return;
  }
  block->allow({"points", "source", "standing"});
  material.temperature_factor_source = block->required_source();
  for (Mapping& point : block->list("points")) {
    point.allow({"temperature", "factor"});
    const double temperature = point.quantity("temperature", Dimension::temperature, Bounds::positive()).value;
    if (!material.temperature_factors.empty() && temperature <= material.temperature_factors.back().temperature) {
      point.fail("temperature", "the temperatures of the strength factors do not rise",
                 "List the points from the lowest temperature to the highest, each once.");
    }
    material.temperature_factors.push_back({temperature, point.number("factor", Bounds::positive())});
  }
  if (material.temperature_factors.size() < 2) {
    block->fail("points", "strength factors need at least two temperatures",
                "Add the factor at room temperature, 1, and one at a higher temperature, or leave the block out.");
  }
}

RateLaw read_rate_law(const Mapping& block) {
  RateLaw law;
  Mapping entry = block;
  // The form decides the other keys, so it is read under all of them.
  entry.allow({"form", "D", "q", "C", "reference_rate", "source", "standing"});
  if (entry.choice("form", {"cowper_symonds", "johnson_cook"}) == "cowper_symonds") {
    entry.allow({"form", "D", "q", "source", "standing"});
    law.form = RateForm::cowper_symonds;
    law.first = entry.quantity("D", Dimension::strain_rate, Bounds::positive()).value;
    law.second = entry.number("q", Bounds::closed(0.5, 50));
  } else {
    entry.allow({"form", "C", "reference_rate", "source", "standing"});
    law.form = RateForm::johnson_cook;
    law.first = entry.number("C", Bounds::open(0, 1));
    law.second = entry.quantity("reference_rate", Dimension::strain_rate, Bounds::positive()).value;
  }
  law.source = entry.required_source();
  return law;
}

void read_rate_laws(const Mapping& file, BaseMaterial& material) {
  std::optional<Mapping> block = file.optional_mapping("rate_laws");
  if (!block) {
    return;
  }
  if (material.rate_factor) {
    file.fail("rate_laws", "the material states a rate factor and rate laws, and only one of the two can count",
              "Keep the laws where they come from crushed lattices of this metal; otherwise keep `rate_factor`.");
  }
  block->allow({"energy", "peak"});
  if (const auto law = block->optional_mapping("energy")) {
    material.energy_rate_law = read_rate_law(*law);
  }
  if (const auto law = block->optional_mapping("peak")) {
    material.peak_rate_law = read_rate_law(*law);
  }
  if (!material.energy_rate_law && !material.peak_rate_law) {
    file.fail("rate_laws", "the block states no law", "Add `energy`, `peak` or both, or leave the block out.");
  }
}

} // namespace

BaseMaterial read_base_material(const Mapping& file) {
  Mapping entry = file;
  entry.allow({"id", "name", "alloy", "condition", "process", "description", "density", "youngs_modulus",
               "poissons_ratio", "proof_stress", "ultimate_stress", "uniform_elongation", "fracture_elongation",
               "hardening_exponent", "rate_factor", "rate_laws", "temperature_factors"});
  BaseMaterial material;
  material.id = entry.text("id");
  material.name = entry.text("name");
  material.alloy = entry.text("alloy");
  material.condition = entry.text("condition");
  material.process = entry.text("process");
  material.description = entry.text("description");
  read_properties(entry, material);
  check_stresses(entry, material);
  read_rate_laws(entry, material);
  read_temperature_factors(entry, material);
  return material;
}

} // namespace crushwright
