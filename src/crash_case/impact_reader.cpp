#include "crash_case/impact_reader.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <fmt/ranges.h>

namespace crushwright {
namespace {

BodyInput read_body(Mapping body) {
  body.allow({"id", "mass", "held"});
  BodyInput input;
  input.id = body.text("id");
  input.held = body.flag_or("held", false);
  input.mass.dimension = Dimension::mass;
  if (input.held && body.has("mass"))
    body.fail("mass", "a held body does not move, so its mass has no effect",
              "Delete the mass, or delete `held: true`.");
  if (!input.held)
    input.mass = body.quantity("mass", Dimension::mass, Bounds::positive());
  return input;
}

std::vector<ShareInput> read_shares(const Mapping& impact, const std::vector<StructureInput>& structures) {
  if (!impact.has("share")) {
    if (structures.size() > 1)
      impact.fail("", "the impact does not say how the structures share it",
                  fmt::format("Add `share: {{{}: 50 %, ...}}`; the shares sum to 100 %.", structures.front().id));
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

ImpactInput read_impact(const std::string& id, Mapping impact, const std::vector<StructureInput>& structures) {
  impact.allow({"description", "striker", "struck", "structures_on", "closing_speed", "share"});
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
  input.shares = read_shares(impact, structures);
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
