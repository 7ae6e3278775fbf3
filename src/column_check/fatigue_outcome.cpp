#include "column_check/fatigue_life.hpp"

#include <algorithm>
#include <vector>

#include <fmt/format.h>
#include <fmt/ranges.h>

namespace crushwright {
namespace {

using Part = std::optional<double> NominalStress::*;

const FatigueStrength* strength_of(const std::vector<FatigueStrength>& strengths, const std::string& part) {
  const auto found = std::find_if(strengths.begin(), strengths.end(),
                                  [&](const FatigueStrength& strength) { return strength.of == part; });
  return found == strengths.end() ? nullptr : &*found;
}

/// One load of the spectrum on this structure.
struct SpectrumLoad {
  const ServiceLoad* load;
  const ServiceOutcome* outcome;
};

std::vector<SpectrumLoad> spectrum_of(const std::vector<ServiceOutcome>& outcomes,
                                      const std::vector<ServiceLoad>& loads, const std::string& structure) {
  std::vector<SpectrumLoad> spectrum;
  for (const ServiceLoad& load : loads) {
    if (load.structure != structure || !(load.cycles > 0))
      continue;
    for (const ServiceOutcome& outcome : outcomes)
      if (outcome.load == load.id && outcome.structure == structure)
        spectrum.push_back({&load, &outcome});
  }
  return spectrum;
}

/// Why a part's damage is open; empty when it can be summed.
std::string why_open(const std::vector<SpectrumLoad>& spectrum, const FatigueStrength* strength, Part part) {
  if (strength == nullptr)
    return "its fatigue strength is not stated";
  for (const SpectrumLoad& each : spectrum) {
    if (!(each.outcome->nominal.*part))
      return "the proof stress of its metal is not known";
    if (!each.load->alternating && !(strength->mean_stress_limit.value > 0))
      return fmt::format("load {} comes and goes, and no limit for the mean stress is stated", each.load->id);
  }
  return {};
}

bool is_there(const std::vector<SpectrumLoad>& spectrum, Part part) {
  return std::any_of(spectrum.begin(), spectrum.end(), [&](const SpectrumLoad& each) {
    // A lattice whose metal is not known has a use, but no stress.
    return (each.outcome->nominal.*part).has_value() ||
           (part == &NominalStress::lattice && each.outcome->lattice_use > 0);
  });
}

std::optional<double> damage_of(const std::vector<SpectrumLoad>& spectrum,
                                const std::vector<FatigueStrength>& strengths, const std::string& name, Part part,
                                std::vector<std::string>& open) {
  if (!is_there(spectrum, part))
    return std::nullopt;
  const FatigueStrength* strength = strength_of(strengths, name);
  if (const std::string reason = why_open(spectrum, strength, part); !reason.empty()) {
    open.push_back(fmt::format("{}: {}", name, reason));
    return std::nullopt;
  }
  double damage = 0;
  for (const SpectrumLoad& each : spectrum) {
    const StressCycle cycle = cycle_of(*(each.outcome->nominal.*part), each.load->alternating);
    damage += each.load->cycles / cycles_to_failure(*strength, cycle);
  }
  return damage;
}

} // namespace

FatigueOutcome fatigue_outcome(const std::vector<ServiceOutcome>& outcomes, const std::vector<ServiceLoad>& loads,
                               const std::vector<FatigueStrength>& strengths, const std::string& structure) {
  const std::vector<SpectrumLoad> spectrum = spectrum_of(outcomes, loads, structure);
  FatigueOutcome fatigue;
  fatigue.structure = structure;
  std::vector<std::string> open;
  fatigue.skin = damage_of(spectrum, strengths, "skin", &NominalStress::skin, open);
  fatigue.lattice = damage_of(spectrum, strengths, "lattice", &NominalStress::lattice, open);
  fatigue.root = damage_of(spectrum, strengths, "root", &NominalStress::bolt, open);
  fatigue.missing = fmt::format("{}", fmt::join(open, "; "));
  return fatigue;
}

} // namespace crushwright
