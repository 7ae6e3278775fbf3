#pragma once
#include "crushwright/crash_case.hpp"

#include <string>
#include <vector>

namespace crushwright {

/// What templates write where the user has to state the edition, or the clause, that applies.
inline constexpr const char* edition_to_state = "state the edition";
inline constexpr const char* clause_to_state = "state the clause";

/// What of the case the user has yet to state or to confirm, one sentence each: editions and clauses of requirements
/// that still read as in a template, an edition that a regulation or series rule leaves out, values from memory.
std::vector<std::string> unconfirmed(const CrashCase& crash_case);

} // namespace crushwright
