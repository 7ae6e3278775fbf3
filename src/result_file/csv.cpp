#include "result_file/csv.hpp"

#include "result_file/json_text.hpp"

#include <cmath>
#include <stdexcept>

#include <fmt/format.h>

namespace crushwright {

namespace {

std::string quoted_where_needed(const std::string& field) {
  if (field.find_first_of("\",\r\n") == std::string::npos) {
    return field;
  }
  std::string quoted = "\"";
  for (const char c : field) {
    quoted.append(c == '"' ? 2 : 1, c);
  }
  quoted += '"';
  return quoted;
}

std::string header(const CsvColumn& column) {
  return quoted_where_needed(fmt::format("{} [{}]", column.name, column.unit));
}

} // namespace

std::string csv_text(const std::string& file_name, const std::vector<CsvColumn>& columns) {
  std::string text;
  for (std::size_t c = 0; c < columns.size(); ++c) {
    if (columns[c].values.size() != columns[0].values.size()) {
      throw std::logic_error(fmt::format("{}: column {} has another length", file_name, columns[c].name));
    }
    text += c > 0 ? "," : "";
    text += header(columns[c]);
  }
  text += "\r\n";
  for (std::size_t row = 0; !columns.empty() && row < columns[0].values.size(); ++row) {
    for (std::size_t c = 0; c < columns.size(); ++c) {
      const double value = columns[c].values[row];
      if (!std::isfinite(value)) {
        throw NotFinite(fmt::format("{}, row {}, column \"{}\"", file_name, row + 1, columns[c].name), value);
      }
      fmt::format_to(std::back_inserter(text), "{}{:.9g}", c > 0 ? "," : "", value);
    }
    text += "\r\n";
  }
  return text;
}

} // namespace crushwright
