#include "verdict/limit_reader.hpp"

#include "quantities/nearest_spelling.hpp"
#include "verdict/limit_words.hpp"
#include "verdict/pulse_statistic.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <fmt/ranges.h>
#include <iterator>

namespace crushwright {
namespace {

constexpr const char* all_structures = "structures";

template <class Value>
std::vector<std::string> plain_words(const std::vector<std::pair<Value, std::string>>& words) {
  std::vector<std::string> plain;
  for (const auto& each : words)
    plain.push_back(each.second);
  return plain;
}

template <class Value>
Value chosen(const std::vector<std::pair<Value, std::string>>& words, const std::string& word) {
  return std::find_if(words.begin(), words.end(), [&](const auto& each) { return each.second == word; })->first;
}

bool contains(const std::vector<std::string>& words, const std::string& word) {
  return std::find(words.begin(), words.end(), word) != words.end();
}

bool needs_impact(LimitedQuantity quantity) {
  return quantity != LimitedQuantity::mass && quantity != LimitedQuantity::wall &&
         quantity != LimitedQuantity::cells_across && quantity != LimitedQuantity::clearance &&
         quantity != LimitedQuantity::ramp_angle && quantity != LimitedQuantity::bending_frequency &&
         quantity != LimitedQuantity::service_use && quantity != LimitedQuantity::fatigue_damage &&
         !is_of_printing(quantity);
}

bool has_signal(LimitedQuantity quantity) {
  return quantity == LimitedQuantity::acceleration || quantity == LimitedQuantity::force;
}

/// What the time of a statistic is.
std::string meaning_of_time(Statistic statistic) {
  return statistic == Statistic::cumulative_time   ? "how long in all the level is held"
         : statistic == Statistic::continuous_time ? "how long the level is held without break"
                                                   : "the width of the window";
}

void read_time(const Mapping& entry, Limit& limit) {
  if (needs_time(limit.statistic)) {
    if (!entry.has("time"))
      entry.fail("statistic",
                 fmt::format("{} needs `time`, {}", name_of(limit.statistic), meaning_of_time(limit.statistic)),
                 "Add for instance `time: 3 ms`.");
    limit.statistic_time = entry.quantity("time", Dimension::time, Bounds::positive()).value;
    return;
  }
  if (entry.has("time"))
    entry.fail("time", "`time` belongs to the statistics cumulative_time, continuous_time and moving_average",
               "Delete the line, or set for instance `statistic: cumulative_time`.");
}

void read_statistic(const Mapping& entry, Limit& limit) {
  limit.statistic = chosen(statistic_words(), entry.choice_or("statistic", plain_words(statistic_words()), "peak"));
  if (!has_signal(limit.quantity) && entry.has("statistic"))
    entry.fail("statistic", fmt::format("{} has one value a run, no statistic", name_of(limit.quantity)),
               "Delete the line.");
  if (is_of_occupant(limit.statistic) && limit.quantity != LimitedQuantity::acceleration)
    entry.fail("statistic",
               fmt::format("{} is of the acceleration of a body, not of a {}", name_of(limit.statistic),
                           name_of(limit.quantity)),
               "Set `quantity: acceleration` and `of:` to a body that is free, or take another statistic.");
  read_time(entry, limit);
}

void read_window(const Mapping& entry, Limit& limit) {
  const bool crush = entry.has("first_crush"), energy = entry.has("first_energy");
  if (crush && energy)
    entry.fail("first_energy", "a limit has one window, first_crush or first_energy", "Delete one of the two.");
  if ((crush || energy) && !has_signal(limit.quantity))
    entry.fail(crush ? "first_crush" : "first_energy",
               fmt::format("{} is judged over the whole impact", name_of(limit.quantity)), "Delete the line.");
  if ((crush || energy) && is_of_occupant(limit.statistic))
    entry.fail(crush ? "first_crush" : "first_energy",
               fmt::format("{} looks at the whole impact", name_of(limit.statistic)), "Delete the line.");
  if (crush)
    limit.window = {WindowKind::first_crush,
                    entry.quantity("first_crush", Dimension::length, Bounds::positive()).value};
  if (energy)
    limit.window = {WindowKind::first_energy,
                    entry.quantity("first_energy", Dimension::energy, Bounds::positive()).value};
}

void read_filter(const Mapping& entry, Limit& limit) {
  const std::string filter =
      entry.choice_or("filter", {"none", "class_60", "class_180", "class_600", "class_1000"}, "none");
  if (filter == "none")
    return;
  limit.channel_class = std::stoi(filter.substr(6));
  if (!has_signal(limit.quantity) || limit.statistic == Statistic::mean_over_distance)
    entry.fail("filter", "a filter belongs to an acceleration or force over time", "Delete the line.");
}

void read_bound(const Mapping& entry, Limit& limit) {
  const bool most = entry.has("at_most"), least = entry.has("at_least");
  if (most == least)
    entry.fail(most ? "at_least" : "", most ? "a limit has one bound, at_most or at_least" : "the limit has no value",
               most ? "Delete one of the two." : "Add `at_most:` or `at_least:` with a value and its unit.");
  limit.at_most = most;
  const char* bound = most ? "at_most" : "at_least";
  limit.value = entry.quantity(bound, dimension_of(limit.quantity), Bounds::not_negative());
  if (limit.value.low || limit.value.high || limit.value.coefficient_of_variation)
    entry.fail(bound, "a limit is one value; it carries a spread, which nothing would use",
               "Give the value that must hold, alone or with its source.");
}

void read_requirement(const Mapping& entry, Limit& limit) {
  limit.status = chosen(status_words(), entry.choice_or("status", plain_words(status_words()), "internal"));
  if (auto requirement = entry.optional_mapping("requirement")) {
    requirement->allow({"identifier", "edition", "clause"});
    limit.requirement = {requirement->text_or("identifier", ""), requirement->text_or("edition", ""),
                         requirement->text_or("clause", "")};
  }
  if (limit.status != LimitStatus::internal && limit.requirement.clause.empty())
    entry.fail("status", "a limit from a regulation or series rule must say which",
               "Add `requirement: {identifier: ..., edition: ..., clause: ...}`, or set `status: internal`.");
}

bool of_keep_outs(LimitedQuantity quantity) {
  return quantity == LimitedQuantity::clearance || quantity == LimitedQuantity::clearance_after_crush;
}

/// Structures with what the quantity looks at, and their keep-outs.
std::vector<std::string> packaged_subjects(LimitedQuantity quantity, const LimitScope& scope,
                                           const std::vector<std::string>& structures) {
  std::vector<std::string> subjects;
  for (const std::string& structure : structures) {
    if (quantity == LimitedQuantity::ramp_angle) {
      if (contains(scope.ramped, structure))
        subjects.push_back(structure);
      continue;
    }
    const auto own = [&](const std::string& keep_out) { return keep_out.substr(0, keep_out.find('.')) == structure; };
    if (std::any_of(scope.keep_outs.begin(), scope.keep_outs.end(), own))
      subjects.push_back(structure);
    std::copy_if(scope.keep_outs.begin(), scope.keep_outs.end(), std::back_inserter(subjects), own);
  }
  if (!subjects.empty())
    subjects.emplace_back(all_structures);
  return subjects;
}

bool is_of_body(LimitedQuantity quantity) {
  return quantity == LimitedQuantity::acceleration || quantity == LimitedQuantity::speed_change ||
         quantity == LimitedQuantity::yaw_moment;
}

/// The structures that state what a quantity looks at; null when every structure has it.
const std::vector<std::string>* structures_with(LimitedQuantity quantity, const LimitScope& scope) {
  switch (quantity) {
  case LimitedQuantity::attachment_crush:
    return &scope.attached;
  case LimitedQuantity::bolt_use:
    return &scope.bolted;
  case LimitedQuantity::service_use:
  case LimitedQuantity::fatigue_damage:
    return &scope.loaded;
  default:
    return nullptr;
  }
}

/// A limit on what the case does not state.
void require_stated(const Mapping& entry, const Limit& limit, const LimitScope& scope) {
  const std::vector<std::string>* having = structures_with(limit.quantity, scope);
  if (having != nullptr && having->empty()) {
    const bool of_service = having == &scope.loaded;
    entry.fail("quantity",
               fmt::format("{} needs a structure with {}, and there is none", name_of(limit.quantity),
                           of_service                  ? "a service load"
                           : having == &scope.attached ? "an attachment"
                                                       : "bolts in its attachment"),
               of_service
                   ? "Add one under `service_loads:`, or delete this limit."
                   : "Add for instance `attachment: {capacity: 90 kN, bolts: {...}}` to a structure, or delete "
                     "this limit.");
  }
  const auto has_face = [](const LimitScope::Impact& impact) { return impact.has_face; };
  if (limit.quantity == LimitedQuantity::bearing_share &&
      std::none_of(scope.impacts.begin(), scope.impacts.end(), has_face))
    entry.fail("quantity", "bearing_share needs an impact with a `face`, and there is none",
               "Describe in an impact what meets the structures (`face:`), or delete this limit.");
}

/// A limit on what no structure states.
void require_packaging(const Mapping& entry, const Limit& limit, const LimitScope& scope) {
  if (of_keep_outs(limit.quantity) && scope.keep_outs.empty())
    entry.fail("quantity",
               fmt::format("{} needs a structure with a keep-out, and there is none", name_of(limit.quantity)),
               "Add `packaging: {keep_out: {...}}` to a structure, or delete this limit.");
  if (limit.quantity == LimitedQuantity::ramp_angle && scope.ramped.empty())
    entry.fail("quantity", "ramp_angle needs a structure with flow faces, and there is none",
               "Add for instance `packaging: {flow_faces: [lower]}` to a structure, or delete this limit.");
}

/// What `of` may name for this quantity in one impact (or outside of any).
std::vector<std::string> possible_subjects(LimitedQuantity quantity, const LimitScope& scope,
                                           const LimitScope::Impact* impact) {
  std::vector<std::string> subjects;
  if (is_of_body(quantity) && impact)
    return impact->free_bodies;
  if (quantity == LimitedQuantity::bearing_share && impact && !impact->has_face)
    return {};
  subjects = impact ? impact->structures : scope.structures;
  if (const std::vector<std::string>* having = structures_with(quantity, scope))
    subjects.erase(std::remove_if(subjects.begin(), subjects.end(),
                                  [&](const std::string& each) { return !contains(*having, each); }),
                   subjects.end());
  if (of_keep_outs(quantity) || quantity == LimitedQuantity::ramp_angle)
    return packaged_subjects(quantity, scope, subjects);
  if (quantity == LimitedQuantity::crush)
    for (const std::string& part : scope.parts)
      if (contains(subjects, part.substr(0, part.find('.'))))
        subjects.push_back(part);
  subjects.emplace_back(all_structures);
  return subjects;
}

/// What `of` may name in the asked impact, or in any of them without one.
std::vector<std::string> known_subjects(LimitedQuantity quantity, const LimitScope& scope,
                                        const LimitScope::Impact* asked) {
  if (asked || !needs_impact(quantity))
    return possible_subjects(quantity, scope, asked);
  std::vector<std::string> known;
  for (const LimitScope::Impact& impact : scope.impacts)
    for (const std::string& subject : possible_subjects(quantity, scope, &impact))
      if (!contains(known, subject))
        known.push_back(subject);
  return known;
}

[[noreturn]] void fail_subject(const Mapping& entry, const Limit& limit, const LimitScope& scope,
                               const LimitScope::Impact* asked) {
  const std::vector<std::string> known = known_subjects(limit.quantity, scope, asked);
  const std::string in_impact = asked ? fmt::format(" in the impact `{}`", asked->id) : "";
  const std::string one_of = fmt::format("Write one of: {}.", fmt::join(known, ", "));
  if (!entry.has("of"))
    entry.fail("", fmt::format("a limit on {} needs `of`, the body that it is for", name_of(limit.quantity)), one_of);
  for (const LimitScope::Impact& impact : scope.impacts)
    if ((!asked || asked == &impact) && contains(impact.held_bodies, limit.of))
      entry.fail(
          "of", fmt::format("`{}` is held in the impact `{}`: it does not move", limit.of, impact.id),
          fmt::format("Limit the acceleration of a body that is free, or the force of a structure. {}", one_of));
  if (asked && contains(known_subjects(limit.quantity, scope, nullptr), limit.of))
    entry.fail("of", fmt::format("`{}` takes no part in the impact `{}`", limit.of, asked->id), one_of);
  const auto nearest = nearest_spelling(limit.of, known);
  entry.fail("of", fmt::format("{} of `{}` cannot be limited{}", name_of(limit.quantity), limit.of, in_impact),
             fmt::format("{}{}", nearest ? fmt::format("Did you mean `{}`? ", *nearest) : "", one_of));
}

Limit read_limit(const std::string& id, const Mapping& entry) {
  Limit limit;
  limit.id = id;
  limit.quantity = chosen(quantity_words(), entry.choice("quantity", plain_words(quantity_words())));
  limit.of = entry.text_or("of", all_structures);
  read_statistic(entry, limit);
  read_window(entry, limit);
  read_filter(entry, limit);
  read_bound(entry, limit);
  read_requirement(entry, limit);
  return limit;
}

void add_for_impacts(const Mapping& entry, const Limit& limit, const LimitScope& scope, std::vector<Limit>& limits) {
  std::vector<std::string> ids;
  for (const LimitScope::Impact& impact : scope.impacts)
    ids.push_back(impact.id);
  if (ids.empty())
    entry.fail("quantity", fmt::format("{} needs an impact and the case has none", name_of(limit.quantity)),
               "Add one under `impacts:`, or delete this limit.");
  const std::string asked = entry.has("impact") ? entry.choice("impact", ids) : "";
  bool added = false;
  for (const LimitScope::Impact& impact : scope.impacts) {
    if (!asked.empty() && impact.id != asked)
      continue;
    if (!contains(possible_subjects(limit.quantity, scope, &impact), limit.of)) {
      if (!asked.empty())
        fail_subject(entry, limit, scope, &impact);
      continue;
    }
    Limit each = limit;
    each.impact = impact.id;
    limits.push_back(std::move(each));
    added = true;
  }
  if (!added)
    fail_subject(entry, limit, scope, nullptr);
}

} // namespace

std::vector<Limit> read_limits(const Mapping& root, const LimitScope& scope) {
  std::vector<Limit> limits;
  for (auto& [id, entry] : root.entries("limits")) {
    Mapping one = entry;
    one.allow({"impact", "of", "quantity", "statistic", "time", "first_crush", "first_energy", "filter", "at_most",
               "at_least", "status", "requirement"});
    const Limit limit = read_limit(id, one);
    require_packaging(one, limit, scope);
    require_stated(one, limit, scope);
    if (needs_impact(limit.quantity)) {
      add_for_impacts(one, limit, scope, limits);
      continue;
    }
    if (one.has("impact"))
      one.fail("impact", fmt::format("{} does not depend on an impact", name_of(limit.quantity)), "Delete the line.");
    if (!contains(possible_subjects(limit.quantity, scope, nullptr), limit.of))
      fail_subject(one, limit, scope, nullptr);
    limits.push_back(limit);
  }
  return limits;
}

} // namespace crushwright
