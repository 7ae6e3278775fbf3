#pragma once
#include "crushwright/crash_case.hpp"
#include "review_pack/fill_facts.hpp"

#include <string>
#include <vector>

namespace crushwright {

/// What `fill` prints.
std::string fill_text(const CrashCase& crash_case, const std::vector<FillReview>& reviews);

} // namespace crushwright
