#include "crushwright/coupon_count.hpp"

#include "crash_case/scatter_reader.hpp"
#include "crushwright/errors.hpp"

#include <fmt/format.h>

namespace crushwright {

namespace {

/// The deciding set with the law's scatter as seen; 0 specimens: known.
ScatterSet with_law(const CrashCase& crash_case, double scatter, std::size_t specimens) {
  ScatterSet set = crash_case.scatter_sets[crash_case.deciding_set];
  set.law.value = scatter;
  set.counted_law.specimens = static_cast<int>(specimens);
  set_tolerance_factors(crash_case.level, crash_case.confidence, set);
  return set;
}

Word word_with(const CrashCase& crash_case, const std::vector<StructureModel>& structures, double scatter,
               std::size_t specimens) {
  return judge_case(crash_case, structures, with_law(crash_case, scatter, specimens), false).verdict.word;
}

std::string sentence_of(const CouponCount& count) {
  std::string text =
      fmt::format("With the law's scatter as these tests saw it, {:.1f} % from {} specimens (factor {:.2f}): {}",
                  100 * count.scatter, count.specimens, count.factor, name_of(count.word));
  if (count.word == Word::pass) {
    return text + ".";
  }
  if (count.word_if_known != Word::pass) {
    return text + "; no number of specimens would make it pass at that scatter: something else stands against it.";
  }
  return count.needed
             ? text + fmt::format("; {} specimens would make it pass at that scatter.", *count.needed)
             : text + "; more specimens than anybody tests would be needed: it passes only with the scatter known.";
}

} // namespace

CouponCount coupons_to_pass(const CrashCase& crash_case, const std::vector<StructureModel>& structures,
                            double scatter, std::size_t specimens, std::size_t most) {
  if (!(scatter >= 0 && scatter <= 0.5)) {
    throw OutOfDomain(fmt::format("the law's scatter is {}; between 0 and 0.5 it can be judged", scatter));
  }
  if (specimens < 2 || most <= specimens) {
    throw OutOfDomain(fmt::format("{} specimens, and up to {} looked at: two or more, and the second above the first",
                                  specimens, most));
  }
  CouponCount count;
  count.scatter = scatter;
  count.specimens = specimens;
  count.factor = with_law(crash_case, scatter, specimens).counted_law.factor;
  count.word = word_with(crash_case, structures, scatter, specimens);
  count.word_if_known = count.word == Word::pass ? Word::pass : word_with(crash_case, structures, scatter, 0);
  if (count.word == Word::pass) {
    count.needed = specimens;
  } else if (count.word_if_known == Word::pass && word_with(crash_case, structures, scatter, most) == Word::pass) {
    std::size_t fails = specimens, passes = most;
    while (passes - fails > 1) {
      const std::size_t middle = fails + (passes - fails) / 2;
      (word_with(crash_case, structures, scatter, middle) == Word::pass ? passes : fails) = middle;
    }
    count.needed = passes;
  }
  count.sentence = sentence_of(count);
  return count;
}

} // namespace crushwright
