#include "crash_case/unconfirmed.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <iterator>

namespace crushwright {
namespace {

bool edition_is_open(const Limit& limit) {
  return limit.requirement.edition == edition_to_state ||
         (limit.requirement.edition.empty() && limit.status != LimitStatus::internal);
}

std::string missing_edition(const Limit& limit) {
  const bool clause_too = limit.requirement.clause == clause_to_state;
  const std::string whose = limit.requirement.identifier.empty() ? "its requirement" : limit.requirement.identifier;
  return fmt::format("limit {}: the edition{} of {} {} not stated: write {} into `requirement`, and confirm the "
                     "impact and the limit against it.",
                     limit.id, clause_too ? " and the clause" : "", whose, clause_too ? "are" : "is",
                     clause_too ? "those that apply" : "the one that applies");
}

bool is_from_memory(const Quantity& quantity) {
  return quantity.source.standing == Standing::memory;
}

} // namespace

std::vector<std::string> unconfirmed(const CrashCase& crash_case) {
  std::vector<std::string> found;
  for (const Limit& limit : crash_case.limits)
    if (edition_is_open(limit)) {
      const std::string sentence = missing_edition(limit);
      if (std::find(found.begin(), found.end(), sentence) == found.end()) // one limit may hold in several impacts
        found.push_back(sentence);
    }
  const auto& all = crash_case.all_quantities;
  const auto count = std::count_if(all.begin(), all.end(), is_from_memory);
  if (count == 0)
    return found;
  const std::string first = std::find_if(all.begin(), all.end(), is_from_memory)->path;
  found.push_back(count == 1 ? fmt::format("One value of the case is from memory, {}: confirm it before the verdict "
                                           "is relied on.",
                                           first)
                             : fmt::format("{} values of the case are from memory, {} the first of them; the inputs "
                                           "mark each. Confirm them before the verdict is relied on.",
                                           count, first));
  return found;
}

} // namespace crushwright
