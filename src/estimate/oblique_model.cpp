#include "estimate/oblique_model.hpp"

#include "estimate/fracture_band.hpp"
#include "estimate/oblique_strength.hpp"

#include <algorithm>
#include <fmt/format.h>

namespace crushwright {
namespace {

bool any_oblique_force(const CrashCase& crash_case) {
  return std::any_of(crash_case.impacts.begin(), crash_case.impacts.end(),
                     [](const ImpactInput& impact) { return impact.force_angle.high_end() > 0; });
}

} // namespace

void describe_weakening(const CrashCase& crash_case, const Ingredients& from, StructureModel& model) {
  if (!from.fill)
    return;
  const FractureBand band =
      fracture_band(*from.fill->cell, *from.fill->material, from.fill->laws.plateau_stress.origin.evidence,
                    from.input->lattice->brittle_plateau);
  model.fracture_low = band.low;
  if (!band.note.empty())
    model.warnings.push_back(fmt::format("{}: {}", model.id, band.note));
  if (!any_oblique_force(crash_case))
    return;
  model.oblique =
      at_case_line(crash_case, path_of(*from.input, "lattice"),
                   "Choose another cell, direction or size, or state the impact without `force_angle`.", [&] {
                     return oblique_strength(*from.fill->cell, *from.fill->material,
                                             from.input->lattice->crush_direction, model.middle_relative_density);
                   });
  if (model.oblique->evidence == Evidence::generic)
    model.warnings.push_back(
        fmt::format("{}: what the lattice carries under an oblique force rests on generic evidence "
                    "alone ({}).",
                    model.id, model.oblique->how));
}

} // namespace crushwright
