#include "review_pack/packaging_words.hpp"

#include "quantities/units.hpp"

#include <algorithm>
#include <numbers>

#include <fmt/format.h>

namespace crushwright {

namespace {

std::string millimetres(double metres) {
  return fmt::format("{:.1f} mm", metres * 1e3);
}

/// The least over impacts and sides that are not stacked.
struct WorstAfter {
  const Clearance* clearance = nullptr;
  const ImpactOutcome* impact = nullptr;
  Side side = Side::nominal;
};

WorstAfter worst_after(const Estimate& estimate, const StructureModel& structure, std::size_t keep_out) {
  WorstAfter worst;
  for (const ImpactOutcome& impact : estimate.deciding.impacts) {
    for (const Side side : {Side::weak, Side::nominal, Side::strong}) {
      const Clearance* each = clearance_after(impact, structure.id, keep_out, side);
      if (each != nullptr && (worst.clearance == nullptr || each->value < worst.clearance->value)) {
        worst = {each, &impact, side};
      }
    }
  }
  return worst;
}

} // namespace

bool has_room_to_show(const Estimate& estimate) {
  return std::any_of(estimate.structures.begin(), estimate.structures.end(), [](const StructureModel& structure) {
    return structure.packaging || structure.envelope.surface;
  });
}

const Clearance* clearance_after(const ImpactOutcome& impact, const std::string& structure, std::size_t keep_out,
                                 Side side) {
  for (const RunOutcome& run : impact.sides) {
    if (run.side != side || run.stacked) {
      continue;
    }
    for (const StructureOutcome& outcome : run.structures) {
      if (outcome.structure == structure && keep_out < outcome.clearances.size()) {
        return &outcome.clearances[keep_out];
      }
    }
  }
  return nullptr;
}

double lattice_volume(const StructureModel& structure) {
  double volume = 0;
  for (const Layer& layer : structure.layers) {
    volume += layer.lattice_area * layer.height;
  }
  return volume;
}

std::string angle_text(double radians) {
  return fmt::format("{:.1f} °", radians * 180 / std::numbers::pi);
}

std::string clearance_text(const Clearance& clearance) {
  if (clearance.struck) {
    return fmt::format("{}, struck", millimetres(clearance.value));
  }
  return clearance.value < 0 ? fmt::format("{}, inside", millimetres(clearance.value)) : millimetres(clearance.value);
}

std::vector<std::string> packaging_lines(const Estimate& estimate, const StructureModel& structure) {
  std::vector<std::string> lines;
  if (!structure.packaging) {
    return lines;
  }
  const PackagingInput& input = structure.packaging->input();
  for (const RampProfile& ramp : structure.packaging->ramps()) {
    lines.push_back(
        fmt::format("{} face of {}: ramp of {} at its steepest over {}, from station {} (warned of beyond {})",
                    name_of(ramp.face), structure.id, angle_text(ramp.steepest), millimetres(input.ramp_length),
                    millimetres(ramp.from), angle_text(input.ramp_limit)));
  }
  for (std::size_t i = 0; i < input.keep_outs.size(); ++i) {
    std::string line =
        fmt::format("keep-out {} of {}: {} before the crush (asked {})", input.keep_outs[i].id, structure.id,
                    clearance_text(structure.packaging->clearances()[i]), millimetres(input.keep_outs[i].clearance));
    const WorstAfter worst = worst_after(estimate, structure, i);
    if (worst.clearance != nullptr) {
      line += fmt::format("; {} after it (asked {}; {}, {} side)", clearance_text(*worst.clearance),
                          millimetres(input.keep_outs[i].clearance_after), worst.impact->id, name_of(worst.side));
    }
    lines.push_back(std::move(line));
  }
  return lines;
}

} // namespace crushwright
