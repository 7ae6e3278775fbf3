#pragma once
#include "study/design_family.hpp"

#include <string>
#include <vector>

namespace crushwright {

/// One design judged with the deciding scatter set.
struct JudgedDesign {
  Candidate candidate;
  double number = 0;       ///< the family's [m or -]
  double worst_margin = 0; ///< over all checks, on their worst sides [-]
  double objective = 0;    ///< what the family is searched for the least of: mass, time or cost
};

/// A candidate's mass, build time or build cost; infinite where it is not known.
double objective_of(const Candidate& candidate, Objective objective);

/// What a design lacks, to rank those that do not pass: what misses by less comes first, what could not be judged
/// last.
bool misses_by_less(const Candidate& a, const Candidate& b);

/// @return a candidate that is not feasible, with the reason as its remark, when the design cannot be built.
JudgedDesign judge_design(const DesignFamily& family, const Catalogue& catalogue, double number);

/// Answer of a search through a family.
struct FamilySearch {
  JudgedDesign best;
  std::string missed_below; ///< what the next lighter design misses; empty when the range or the catalogue ends there
  std::vector<Candidate> scanned; ///< every design of the scan; empty from lightest_passing
};

/// Least of a family's objective: a scan, then bisection on the edge of what passes. When nothing passes, the design
/// that misses by least.
FamilySearch scan_and_refine(const DesignFamily& family, const Catalogue& catalogue);

/// The same answer without judging what cannot change it: nothing heavier than the first that passes, and no sides
/// of a design whose nominal run already misses by more than the best so far.
FamilySearch lightest_passing(const DesignFamily& family, const Catalogue& catalogue);

/// Several families that compete: where one passes, only those that pass are searched to the end and returned.
std::vector<FamilySearch> lightest_passing(const std::vector<DesignFamily>& families, const Catalogue& catalogue);

} // namespace crushwright
