#include "test_record/decimal_mark.hpp"

#include <fmt/format.h>

namespace crushwright {

namespace {

using Sighting = DecimalMarkSearch::Sighting;

std::string_view name_of_mark(char mark) {
  return mark == '.' ? "point" : "comma";
}

[[noreturn]] void fail_both(const TableText& text, const Sighting& one, const Sighting& other) {
  const Sighting& later = one.line < other.line ? other : one;
  const Sighting& earlier = one.line < other.line ? one : other;
  text.fail_at(later.line,
               fmt::format("`{}` does not go with `{}` on line {}: points and commas both stand before decimals; one "
                           "decimal mark was expected",
                           later.text, earlier.text, earlier.line + 1),
               "Export the file again with one decimal mark throughout.");
}

[[noreturn]] void fail_unsure(const TableText& text, const Sighting& seen, char mark) {
  std::string as_decimals = seen.text, as_thousands = seen.text;
  as_decimals[as_decimals.find(mark)] = '.';
  as_thousands.erase(as_thousands.find(mark), 1);
  text.fail_at(seen.line,
               fmt::format("`{}` can mean {} or {}, and nothing in the file tells which", seen.text, as_decimals,
                           as_thousands),
               "State `decimal_mark`: point or comma.");
}

[[noreturn]] void fail_thousands(const TableText& text, const Sighting& seen) {
  text.fail_at(
      seen.line,
      fmt::format("`{}` has a mark between thousands; digits with at most one decimal mark were expected", seen.text),
      "Export the file without marks between thousands.");
}

/// One mark is sure; the other then can only part thousands.
char sure(const TableText& text, char mark, const std::optional<Sighting>& unsure_other) {
  if (unsure_other)
    fail_thousands(text, *unsure_other);
  return mark;
}

} // namespace

char decimal_mark_of(const TableText& text, const DecimalMarkSearch& search, char separator,
                     const TableOptions& options) {
  if (search.grouped)
    fail_thousands(text, *search.grouped);
  if (options.decimal_mark) {
    const char mark = *options.decimal_mark;
    const auto& other = mark == '.' ? search.decimal_comma : search.decimal_point;
    const auto& unsure = mark == '.' ? search.unsure_comma : search.unsure_point;
    if (other)
      text.fail_at(
          other->line,
          fmt::format("`{}` does not go with the stated decimal mark, a {}", other->text, name_of_mark(mark)),
          "Correct `decimal_mark`, or leave it out.");
    return sure(text, mark, unsure);
  }
  if (search.decimal_point && search.decimal_comma)
    fail_both(text, *search.decimal_point, *search.decimal_comma);
  if (search.decimal_point)
    return sure(text, '.', search.unsure_comma);
  if (search.decimal_comma)
    return sure(text, ',', search.unsure_point);
  if (search.unsure_comma)
    fail_unsure(text, *search.unsure_comma, ',');
  // A comma that parts the cells leaves the point for the decimals.
  if (search.unsure_point && separator != ',')
    fail_unsure(text, *search.unsure_point, '.');
  return '.';
}

} // namespace crushwright
