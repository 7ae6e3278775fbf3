#include "crash_case/print_references.hpp"

#include <fmt/format.h>
#include <string>

namespace crushwright {
namespace {

/// What a quantity needs and the case lacks; both texts are empty when nothing is missing.
struct Missing {
  std::string what;
  std::string what_to_do;
};

Missing missing_for(LimitedQuantity quantity, const CrashCase& crash_case) {
  if (!crash_case.printing)
    return {
        "the block `printing`",
        "Add for instance `printing: {build_direction: \"-x\", machine: {build_volume: [250 mm, 250 mm, 300 mm]}}`."};
  const PrintingInput& printing = *crash_case.printing;
  const bool timed = quantity == LimitedQuantity::build_time || quantity == LimitedQuantity::build_cost;
  if (timed && !printing.rates)
    return {"`printing.rates`", "Add the machine's layer_thickness, recoat_time and volume_rate."};
  if (quantity == LimitedQuantity::build_cost && printing.rates->currency.empty())
    return {"a price in `printing.rates`", "Add `currency:` and for instance `cost_per_hour:`."};
  if (quantity == LimitedQuantity::build_pieces && !printing.machine.build_volume)
    return {"`printing.machine.build_volume`", "Add the two sides of the platform and the height."};
  return {};
}

} // namespace

void check_print_references(const Mapping& root, const CrashCase& crash_case) {
  const auto check = [&](LimitedQuantity quantity, const std::string& path) {
    const Missing missing = missing_for(quantity, crash_case);
    if (!missing.what.empty())
      root.fail_at_path(path, fmt::format("{} needs {}", name_of(quantity), missing.what), missing.what_to_do);
  };
  for (const Limit& limit : crash_case.limits)
    if (is_of_printing(limit.quantity))
      check(limit.quantity, fmt::format("limits.{}.quantity", limit.id));
  if (!crash_case.sizing || crash_case.sizing->objective == Objective::mass)
    return;
  check(crash_case.sizing->objective == Objective::build_time ? LimitedQuantity::build_time
                                                              : LimitedQuantity::build_cost,
        "size.objective");
}

} // namespace crushwright
