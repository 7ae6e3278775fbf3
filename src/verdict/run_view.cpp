#include "verdict/run_view.hpp"

#include <algorithm>

namespace crushwright {

const StructureView& structure_of(const RunView& run, const std::string& id) {
  return *std::find_if(run.structures->begin(), run.structures->end(),
                       [&](const StructureView& each) { return *each.id == id; });
}

bool is_all(const Limit& limit) {
  return limit.of == "structures";
}

std::vector<const StructureView*> structures_of(const Limit& limit, const RunView& run) {
  std::vector<const StructureView*> found;
  for (const StructureView& each : *run.structures)
    if (is_all(limit) || *each.id == limit.of)
      found.push_back(&each);
  return found;
}

std::vector<const ColumnMotion*> columns_of(const Limit& limit, const RunView& run) {
  const std::string structure = limit.of.substr(0, limit.of.find('.'));
  std::vector<const ColumnMotion*> found;
  for (const ColumnMotion& each : run.motion->columns)
    if (is_all(limit) || limit.quantity == LimitedQuantity::acceleration || each.structure == structure)
      found.push_back(&each);
  return found;
}

const Body& body_of(const Limit& limit, const ImpactMotion& motion) {
  return motion.striker.id == limit.of ? motion.striker : motion.struck;
}

} // namespace crushwright
