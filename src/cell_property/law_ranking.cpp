#include "cell_property/law_ranking.hpp"
#include "crushwright/errors.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <tuple>

namespace crushwright {

namespace {

bool holds_for_direction(const LawQuestion& question, const LawOrigin& origin) {
  return origin.direction == "any" || question.cell.symmetry == "isotropic" ||
         equivalent_direction(question.cell, origin.direction) ==
             equivalent_direction(question.cell, question.direction);
}

// A material's id stands for alloy and condition together. A weighed density holds the process offset of the part it
// was weighed on, so it never matches a drawn one; nominal and true are both drawn, and one gives the other exactly.
bool matches(const LawQuestion& question, const LawOrigin& origin, bool inside) {
  return origin.material == question.material.id && !origin.process.empty() &&
         origin.process == question.material.process && inside && origin.density_basis != DensityBasis::weighed;
}

Trust trust_in(const LawQuestion& question, const LawOrigin& origin, bool inside) {
  switch (origin.evidence) {
  case Evidence::measured:
    // A test counts as measured only for the metal and the process that it was made with; weighing is part of a test.
    return origin.material == question.material.id && origin.process == question.material.process
               ? Trust::measured_here
               : Trust::published_elsewhere;
  case Evidence::published:
    return matches(question, origin, inside) ? Trust::published_match : Trust::published_elsewhere;
  case Evidence::computed:
    return Trust::computed;
  case Evidence::generic:
    return Trust::generic;
  case Evidence::prior:
    return Trust::prior;
  }
  return Trust::prior;
}

double extrapolation_of(const Range& range, double relative_density) {
  if (range.contains(relative_density)) {
    return 0;
  }
  return relative_density < range.low ? std::log(range.low / relative_density)
                                      : std::log(relative_density / range.high);
}

} // namespace

void require_direction(const std::string& direction) {
  const bool digits = direction.size() == 3 &&
                      std::all_of(direction.begin(), direction.end(), [](char c) { return c >= '0' && c <= '9'; }) &&
                      direction != "000";
  if (!digits) {
    throw OutOfDomain(
        fmt::format("crush direction '{}': write three digits in cell axes, for instance 100 along an edge "
                    "or 001 along the axis of a honeycomb.",
                    direction));
  }
}

std::string equivalent_direction(const UnitCell& cell, const std::string& direction) {
  std::string sorted = direction;
  if (cell.symmetry == "cubic") {
    std::sort(sorted.begin(), sorted.end(), std::greater<>());
  } else if (cell.symmetry == "tetragonal" && sorted.size() == 3) {
    std::sort(sorted.begin(), sorted.begin() + 2, std::greater<>());
  }
  return sorted;
}

std::vector<RankedOrigin> ranked(const LawQuestion& question, const std::vector<LawOrigin>& origins) {
  std::vector<RankedOrigin> order;
  for (std::size_t place = 0; place < origins.size(); ++place) {
    const LawOrigin& origin = origins[place];
    if (!holds_for_direction(question, origin)) {
      continue;
    }
    const double density = in_basis(question.cell, question.relative_density, origin.density_basis);
    const double extrapolation = extrapolation_of(origin.fitted_relative_density, density);
    const bool inside = origin.fitted_relative_density.contains(density);
    const bool asked = question.asked == origin.evidence;
    order.push_back({place, trust_in(question, origin, inside), inside, extrapolation, asked});
  }
  std::stable_sort(order.begin(), order.end(), [](const RankedOrigin& one, const RankedOrigin& other) {
    return std::tuple(!one.asked, one.extrapolation, one.trust) <
           std::tuple(!other.asked, other.extrapolation, other.trust);
  });
  return order;
}

namespace {

std::string reason_elsewhere(const LawOrigin& origin) {
  if (origin.evidence == Evidence::measured) {
    return fmt::format("'{}' was measured on another metal or process; nothing closer exists", origin.id);
  }
  if (origin.material.empty()) {
    return fmt::format("'{}' is published for this cell, and names no metal and process; nothing closer exists",
                       origin.id);
  }
  return fmt::format("'{}' is published for another metal, process, range or density basis; nothing closer exists",
                     origin.id);
}

} // namespace

std::string reason_for(const RankedOrigin& best, const LawOrigin& origin) {
  if (best.asked) {
    return fmt::format("'{}', because {} evidence is asked for{}", origin.id, name_of(origin.evidence),
                       best.inside ? "" : "; it is extrapolated to this relative density");
  }
  if (!best.inside) {
    return fmt::format("no law was fitted at this relative density; '{}' is extrapolated least", origin.id);
  }
  switch (best.trust) {
  case Trust::measured_here:
    return fmt::format("'{}' was measured on this metal and process", origin.id);
  case Trust::published_match:
    return fmt::format("'{}' is published for this cell, direction, metal, process and range", origin.id);
  case Trust::computed:
    return fmt::format("'{}' was computed for this cell from its own geometry", origin.id);
  case Trust::published_elsewhere:
    return reason_elsewhere(origin);
  case Trust::generic:
    return fmt::format("'{}' is a generic law; nothing closer holds at this relative density", origin.id);
  case Trust::prior:
    return fmt::format("'{}' is a starting prior; nothing better exists", origin.id);
  }
  return "";
}

} // namespace crushwright
