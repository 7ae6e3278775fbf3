#include "crash_case/impact_reader.hpp"

#include "load_path/attachment_reader.hpp"
#include "load_path/face_reader.hpp"
#include "yaml_input/spread.hpp"

#include <cmath>
#include <fmt/format.h>
#include <numbers>

namespace crushwright {
namespace {

/// Beyond it a structure is bent rather than crushed [rad].
constexpr double steepest_force = 30 * std::numbers::pi / 180;

Mapping with_body_keys(Mapping body) {
  body.allow({"id", "mass", "held", "lateral", "yaw_radius", "rest_of_body"});
  return body;
}

void read_mass(const Mapping& body, BodyInput& input) {
  input.held = body.flag_or("held", false);
  input.mass.dimension = Dimension::mass;
  if (!input.held) {
    input.mass = body.quantity("mass", Dimension::mass, Bounds::positive());
    return;
  }
  if (body.has("mass"))
    body.fail("mass", "a held body does not move, so its mass has no effect",
              "Delete the mass, or delete `held: true`.");
  for (const char* key : {"lateral", "yaw_radius"})
    if (body.has(key))
      body.fail(key, "a held body does not turn", "Delete the line, or delete `held: true`.");
}

BodyInput read_body(const Mapping& given) {
  const Mapping body = with_body_keys(given);
  BodyInput input;
  input.id = body.text("id");
  read_mass(body, input);
  if (body.has("lateral"))
    input.lateral = without_spread(body, "lateral", Dimension::length, Bounds::any()).value;
  if (body.has("yaw_radius"))
    input.yaw_radius = without_spread(body, "yaw_radius", Dimension::length, Bounds::positive());
  if (auto rest = body.optional_mapping("rest_of_body"))
    input.rest = read_rest_of_body(*rest);
  return input;
}

std::vector<ShareInput> read_shares(const Mapping& impact, const std::vector<StructureInput>& structures) {
  if (!impact.has("share")) {
    if (structures.size() > 1)
      impact.fail(
          "", "the impact does not say how the structures share it",
          fmt::format("Add `share: {{{}: 50 %, ...}}`, whose shares sum to 100 %, or describe what meets them "
                      "with `face: {{...}}`.",
                      structures.front().id));
    return {{structures.front().id, 1.0}};
  }
  std::vector<std::string> known;
  known.reserve(structures.size());
  for (const StructureInput& structure : structures)
    known.push_back(structure.id);
  Mapping share = impact.mapping("share");
  share.allow_keys(known);
  std::vector<ShareInput> shares;
  double sum = 0;
  for (const std::string& id : impact.keys_of("share")) {
    const Quantity given = share.quantity(id, Dimension::fraction, Bounds::closed(0, 1));
    const double value = given.value;
    if (given.low || given.high || given.coefficient_of_variation)
      share.fail(id, "a share is one value; it carries a spread, which nothing would use",
                 "Write a second impact with the other shares.");
    sum += value;
    if (value > 0)
      shares.push_back({id, value});
  }
  if (std::abs(sum - 1) > 1e-9)
    impact.fail("share", fmt::format("the shares sum to {:.4g} %", 100 * sum), "Make them sum to 100 %.");
  return shares;
}

void read_face_or_shares(const Mapping& impact, const std::vector<StructureInput>& structures, ImpactInput& input) {
  auto face = impact.optional_mapping("face");
  if (!face) {
    input.shares = read_shares(impact, structures);
    return;
  }
  if (impact.has("share"))
    impact.fail("share", "with a `face` the places of the structures decide what each of them takes",
                "Keep one of the two.");
  input.face = read_face(*face);
}

void check_carrier(const Mapping& impact, const ImpactInput& input) {
  const char* carrier = input.structures_on_striker ? "striker" : "struck";
  const char* other = input.structures_on_striker ? "struck" : "striker";
  for (const char* key : {"rest_of_body", "yaw_radius"})
    if (with_body_keys(impact.mapping(other)).has(key))
      with_body_keys(impact.mapping(other))
          .fail(key, fmt::format("it belongs to the body that carries the structures, `{}`", carrier),
                fmt::format("Move it there, or state `structures_on: {}`.", other));
  const Mapping body = with_body_keys(impact.mapping(carrier));
  if (body.has("rest_of_body") && !input.face && input.shares.size() > 1)
    body.fail("rest_of_body",
              "stated shares cut the bodies apart between the structures, so nothing can stand behind them together",
              "Describe what meets the structures with `face: {...}` in place of `share`, or delete the block.");
  if (body.has("yaw_radius") && !input.face)
    body.fail("yaw_radius", "only a `face` tells where the force acts, so nothing would use it",
              "Describe what meets the structures with `face: {...}`, or delete the line.");
}

ImpactInput read_impact(const std::string& id, Mapping impact, const std::vector<StructureInput>& structures) {
  impact.allow({"description", "striker", "struck", "structures_on", "closing_speed", "share", "face", "force_angle",
                "resolved"});
  ImpactInput input;
  input.id = id;
  input.description = impact.text_or("description", "");
  input.striker = read_body(impact.mapping("striker"));
  input.struck = read_body(impact.mapping("struck"));
  if (input.striker.held && input.struck.held)
    impact.fail("struck", "both bodies are held, so nothing moves",
                "Give one of them a mass instead of `held: true`.");
  if (input.striker.id == input.struck.id)
    impact.fail("struck", fmt::format("striker and struck are both called `{}`", input.struck.id),
                "Give them ids of their own.");
  input.structures_on_striker = impact.choice_or("structures_on", {"struck", "striker"}, "struck") == "striker";
  input.closing_speed = impact.quantity("closing_speed", Dimension::speed, Bounds::positive());
  read_face_or_shares(impact, structures, input);
  check_carrier(impact, input);
  input.force_angle.dimension = Dimension::angle;
  if (impact.has("force_angle"))
    input.force_angle =
        with_ends(impact, "force_angle", Dimension::angle, Bounds::closed(0, steepest_force * (1 + 1e-12)));
  input.resolved = impact.flag_or("resolved", false);
  return input;
}

} // namespace

std::vector<ImpactInput> read_impacts(const Mapping& root, const std::vector<StructureInput>& structures) {
  std::vector<ImpactInput> impacts;
  for (const auto& [id, entry] : root.entries("impacts"))
    impacts.push_back(read_impact(id, entry, structures));
  if (impacts.empty())
    root.fail("impacts", "the case has no impact", "Add at least one under `impacts:`.");
  return impacts;
}

} // namespace crushwright
