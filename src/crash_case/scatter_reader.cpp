#include "crash_case/scatter_reader.hpp"

#include "crushwright/sample_statistics.hpp"

#include <algorithm>
#include <fmt/format.h>

namespace crushwright {
namespace {

constexpr const char* handbook_id = "handbook";

Quantity prior(double value, Dimension dimension, const std::string& text) {
  Quantity quantity;
  quantity.value = value;
  quantity.dimension = dimension;
  quantity.source = {text, Standing::common_practice};
  return quantity;
}

Quantity scatter_or(const Mapping& set, const char* key, const Quantity& fallback) {
  return set.has(key) ? set.quantity(key, Dimension::fraction, Bounds::closed(0, 0.5)) : fallback;
}

CountedScatter counted(const Mapping& specimens, const Mapping& set, const char* key) {
  CountedScatter counted;
  if (!specimens.has(key))
    return counted;
  if (!set.has(key))
    specimens.fail(key, fmt::format("specimens are counted for `{}`, whose scatter this set does not state", key),
                   "State the scatter that they gave, or delete the line.");
  counted.specimens = specimens.integer(key, 2, 100000);
  return counted;
}

/// From how many specimens each scatter was found; absent means that it is known.
void read_specimens(const Mapping& set, ScatterSet& read) {
  auto specimens = set.optional_mapping("specimens");
  if (!specimens)
    return;
  specimens->allow({"law", "build", "skin", "efficiency_strain"});
  read.counted_law = counted(*specimens, set, "law");
  read.counted_build = counted(*specimens, set, "build");
  read.counted_skin = counted(*specimens, set, "skin");
  read.counted_efficiency_strain = counted(*specimens, set, "efficiency_strain");
}

ScatterSet read_set(const std::string& id, Mapping set) {
  set.allow({"description", "law", "build", "skin", "interaction", "efficiency_strain", "specimens"});
  ScatterSet read = handbook_scatter();
  read.id = id;
  read.description = set.text_or("description", id == handbook_id ? read.description : "");
  read.law = scatter_or(set, "law", read.law);
  read.build = scatter_or(set, "build", read.build);
  read.skin = scatter_or(set, "skin", read.skin);
  read.efficiency_strain = scatter_or(set, "efficiency_strain", read.efficiency_strain);
  if (set.has("interaction")) {
    read.interaction = set.quantity("interaction", Dimension::number, Bounds::closed(0.5, 3));
    read.interaction_tested = true;
  }
  read_specimens(set, read);
  return read;
}

} // namespace

ScatterSet handbook_scatter() {
  const std::string practice = "prior: one standard deviation, where nothing was tested";
  ScatterSet set;
  set.id = handbook_id;
  set.description = "Priors for a structure of which nothing has been tested yet";
  set.law = prior(0.12, Dimension::fraction, practice);
  set.build = prior(0.08, Dimension::fraction, practice);
  set.skin = prior(0.12, Dimension::fraction, practice);
  set.efficiency_strain = prior(0.04, Dimension::fraction, practice);
  set.interaction =
      prior(1.15, Dimension::number,
            "prior: 1.00 for energy, 1.45 or the interaction law for force; a printed hybrid was tested "
            "at +43 %");
  set.interaction.source.standing = Standing::memory;
  set.interaction.low = 1.00;
  set.interaction.high = 1.45;
  return set;
}

void set_tolerance_factors(double level, double confidence, ScatterSet& set) {
  for (CountedScatter* counted :
       {&set.counted_law, &set.counted_build, &set.counted_skin, &set.counted_efficiency_strain})
    counted->factor =
        counted->specimens > 0
            ? one_sided_tolerance_factor(static_cast<std::size_t>(counted->specimens), level, confidence)
            : 0;
}

void read_scatter(const Mapping& root, CrashCase& crash_case) {
  auto scatter = root.optional_mapping("scatter");
  if (!scatter) {
    crash_case.scatter_sets = {handbook_scatter()};
    return;
  }
  scatter->allow({"level", "confidence", "decide_with", "sets"});
  if (scatter->has("level"))
    crash_case.level = scatter->quantity("level", Dimension::fraction, Bounds::closed(0.5, 0.9999)).value;
  if (scatter->has("confidence"))
    crash_case.confidence = scatter->quantity("confidence", Dimension::fraction, Bounds::closed(0.5, 0.999)).value;
  for (const auto& [id, entry] : scatter->entries("sets")) {
    crash_case.scatter_sets.push_back(read_set(id, entry));
    set_tolerance_factors(crash_case.level, crash_case.confidence, crash_case.scatter_sets.back());
  }
  auto& sets = crash_case.scatter_sets;
  const auto has_id = [](const std::string& id) { return [id](const ScatterSet& set) { return set.id == id; }; };
  if (std::none_of(sets.begin(), sets.end(), has_id(handbook_id)))
    sets.insert(sets.begin(), handbook_scatter());
  std::vector<std::string> ids;
  ids.reserve(sets.size());
  for (const ScatterSet& set : sets)
    ids.push_back(set.id);
  const std::string deciding = scatter->choice_or("decide_with", ids, sets.size() == 1 ? ids.front() : handbook_id);
  crash_case.deciding_set =
      static_cast<std::size_t>(std::find_if(sets.begin(), sets.end(), has_id(deciding)) - sets.begin());
}

} // namespace crushwright
