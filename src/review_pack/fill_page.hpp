#pragma once
#include "crushwright/crash_case.hpp"
#include "review_pack/fill_facts.hpp"

#include <string>
#include <vector>

namespace crushwright {

/// The page of `fill`: pictures, figures, printing, files, notes and cautions of each structure; self-contained.
std::string fill_page(const CrashCase& crash_case, const std::vector<FillReview>& reviews,
                      const std::string& program_version);

} // namespace crushwright
