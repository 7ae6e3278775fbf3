#pragma once
#include <string>
#include <vector>

namespace crushwright {

/// One column of a CSV file.
struct CsvColumn {
  std::string name;
  std::string unit; ///< SI symbol; "1" for a plain number
  std::vector<double> values;
};

/// A table as RFC 4180 text: a header row "crush [m],force [N]", then one row per sample; nine significant digits.
/// @param columns  all of the same length.
/// @throws NotFinite  naming file, row and column.
std::string csv_text(const std::string& file_name, const std::vector<CsvColumn>& columns);

} // namespace crushwright
