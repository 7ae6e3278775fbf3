#pragma once
#include "crushwright/quantity.hpp"

#include <string>
#include <string_view>
#include <vector>

namespace crushwright {

/// One accepted way to write a unit, and how UDUNITS-2 writes the same unit.
struct UnitSpelling {
  std::string written;
  std::string udunits;
  bool listed = true; ///< named in messages; second spellings of the same unit are accepted but not named
};

/// What the program knows of one dimension. The first spelling is the one that reports show.
struct DimensionRow {
  Dimension dimension;
  std::string_view name;         ///< "specific energy"
  std::string_view with_article; ///< "a specific energy", for sentences
  std::string_view example;      ///< a value as a file writes it
  std::string_view si_unit;      ///< as result files state it
  std::vector<UnitSpelling> spellings;
};

const std::vector<DimensionRow>& dimension_table();
const DimensionRow& row_of(Dimension dimension);

} // namespace crushwright
