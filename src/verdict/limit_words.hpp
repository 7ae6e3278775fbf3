#pragma once
#include "crushwright/verdict.hpp"

#include <string>
#include <utility>
#include <vector>

namespace crushwright {

/// The words a case file uses for a limit's choices, in the order in which messages list them.
const std::vector<std::pair<LimitedQuantity, std::string>>& quantity_words();
const std::vector<std::pair<Statistic, std::string>>& statistic_words();
const std::vector<std::pair<LimitStatus, std::string>>& status_words();

} // namespace crushwright
