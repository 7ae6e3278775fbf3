#pragma once
#include "crushwright/estimate.hpp"

#include <optional>
#include <string>

namespace crushwright {

/// What a number of coupons is worth to a case: its deciding set with the scatter of the lattice law as tests saw it.
struct CouponCount {
  double scatter = 0;                ///< coefficient of variation of the law [-]
  std::size_t specimens = 0;         ///< it was seen in
  double factor = 0;                 ///< one-sided tolerance factor of that many [-]
  Word word = Word::open;            ///< of the case then
  Word word_if_known = Word::open;   ///< with the scatter taken as known: what no number of coupons can better
  std::optional<std::size_t> needed; ///< fewest specimens with which it passes at this scatter; absent: over `most`
  std::string sentence;              ///< all that in words
};

/// Judges the case's deciding set with the law's scatter counted from this many specimens; when it does not pass,
/// seeks the fewest with which it would, by bisection (more specimens only narrow the sides).
///
/// @param structures  of the case, with the laws that are to be used.
/// @param scatter     coefficient of variation of the law [-], in [0, 0.5].  @param specimens  >= 2.
/// @param most        that are looked at, > specimens.
/// @throws OutOfDomain as stated.
CouponCount coupons_to_pass(const CrashCase& crash_case, const std::vector<StructureModel>& structures,
                            double scatter, std::size_t specimens, std::size_t most = 200);

} // namespace crushwright
