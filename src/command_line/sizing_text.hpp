#pragma once
#include "crushwright/study.hpp"

#include <string>

namespace crushwright {

/// The report of `size` for a terminal, at most 100 columns: the design, what binds, the choices beside each other,
/// what to write into the case. Plain UTF-8 text, ends with a line feed.
std::string sizing_text(const CrashCase& crash_case, const SizingResult& sizing);

} // namespace crushwright
