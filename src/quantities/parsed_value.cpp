#include "quantities/dimension_table.hpp"
#include "quantities/nearest_spelling.hpp"
#include "quantities/unit_conversion.hpp"
#include "quantities/units.hpp"
#include "quantities/value_error.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <map>
#include <optional>
#include <system_error>

#include <fmt/format.h>

namespace crushwright {

namespace {

/// The text of a value, cut behind its number.
struct CutText {
  std::string_view number;
  std::string_view rest;
};

bool is_digit(char letter) {
  return letter >= '0' && letter <= '9';
}

std::string lower_case(std::string_view text) {
  std::string lower(text);
  std::transform(lower.begin(), lower.end(), lower.begin(), [](char letter) {
    return letter >= 'A' && letter <= 'Z' ? static_cast<char>(letter + 32) : letter;
  });
  return lower;
}

std::size_t digits_from(std::string_view text, std::size_t begin) {
  std::size_t end = begin;
  while (end < text.size() && is_digit(text[end])) {
    ++end;
  }
  return end;
}

bool is_sign(std::string_view text, std::size_t at) {
  return at < text.size() && (text[at] == '+' || text[at] == '-');
}

// An "e" belongs to the number only when digits follow it, else it begins a (wrong) unit.
std::size_t exponent_from(std::string_view text, std::size_t begin) {
  if (begin >= text.size() || (text[begin] != 'e' && text[begin] != 'E')) {
    return begin;
  }
  const std::size_t digits_begin = begin + (is_sign(text, begin + 1) ? 2U : 1U);
  const std::size_t end = digits_from(text, digits_begin);
  return end > digits_begin ? end : begin;
}

CutText cut_behind_number(std::string_view text) {
  const std::size_t begin = is_sign(text, 0) ? 1 : 0;
  const std::size_t point = digits_from(text, begin);
  std::size_t end = point;
  if (end < text.size() && text[end] == '.') {
    end = digits_from(text, end + 1);
  }
  const bool has_digit = end > begin + (end > point ? 1U : 0U);
  if (!has_digit) {
    return {text.substr(0, 0), text};
  }
  end = exponent_from(text, end);
  return {text.substr(0, end), text.substr(end)};
}

/// The accepted units without the second spellings, some of which look alike.
std::vector<std::string> listed_units(const DimensionRow& row) {
  std::vector<std::string> units;
  for (const UnitSpelling& spelling : row.spellings) {
    if (spelling.listed) {
      units.push_back(spelling.written);
    }
  }
  return units;
}

std::string unit_list(const DimensionRow& row) {
  if (row.dimension == Dimension::fraction) {
    return "A fraction is bare (0.4) or in per cent (40 %)";
  }
  return fmt::format("Units of {}: {}", row.with_article, comma_list(listed_units(row)));
}

std::string how_to_write(const DimensionRow& row) {
  if (row.dimension == Dimension::number) {
    return "Write a number without a unit, for instance 1.5.";
  }
  if (row.dimension == Dimension::fraction) {
    return "Write it bare (0.4) or in per cent (40 %).";
  }
  return fmt::format("Write a number, one space and a unit, for instance {}. {}.", row.example, unit_list(row));
}

bool begins_with_word(const std::string& text, std::string_view word) {
  return text.compare(0, word.size(), word) == 0 && (text.size() == word.size() || text[word.size()] == ' ');
}

bool is_not_finite_word(std::string_view text) {
  std::string word = lower_case(text);
  if (is_sign(word, 0)) {
    word.erase(0, 1);
  }
  if (!word.empty() && word[0] == '.') {
    word.erase(0, 1);
  }
  return begins_with_word(word, "nan") || begins_with_word(word, "inf") || begins_with_word(word, "infinity");
}

bool is_hexadecimal(std::string_view text) {
  const std::size_t begin = is_sign(text, 0) ? 1 : 0;
  return text.size() > begin + 1 && text[begin] == '0' && (text[begin + 1] == 'x' || text[begin + 1] == 'X');
}

[[noreturn]] void refuse_number(std::string_view text, const DimensionRow& row) {
  constexpr std::string_view typographic_minus = "\u2212";
  if (text.empty()) {
    throw ValueError(fmt::format("there is no value; {} was expected", row.with_article), how_to_write(row));
  }
  if (is_not_finite_word(text)) {
    throw ValueError(fmt::format("{} is not a finite number", in_quotes(text)),
                     "Give a finite value, or delete the line where the value is optional.");
  }
  if (text.substr(0, typographic_minus.size()) == typographic_minus) {
    throw ValueError(fmt::format("{} begins with a typographic minus sign", in_quotes(text)),
                     fmt::format("Write the plain one: -{}.", text.substr(typographic_minus.size())));
  }
  throw ValueError(fmt::format("{} does not begin with a number; {} was expected", in_quotes(text), row.with_article),
                   how_to_write(row));
}

[[noreturn]] void refuse_comma(std::string_view text, const CutText& cut) {
  const std::string_view behind = cut.rest.substr(1);
  std::string what_to_do = fmt::format("Write {}.{}", cut.number, behind);
  if (behind.find_first_of(",.") != std::string_view::npos || cut.number.find('.') != std::string_view::npos) {
    what_to_do = "Write the digits without commas and a point before the decimals";
  } else if (digits_from(behind, 0) == 3) {
    what_to_do += fmt::format(" if the comma stands before decimals, {}{} if it parts thousands", cut.number, behind);
  }
  throw ValueError(fmt::format("{} has a comma in its number", in_quotes(text)), what_to_do + ".");
}

std::vector<const DimensionRow*> rows_with_unit(std::string_view unit) {
  std::vector<const DimensionRow*> rows;
  for (const DimensionRow& row : dimension_table()) {
    const auto matches = [&](const UnitSpelling& spelling) { return spelling.written == unit; };
    if (std::any_of(row.spellings.begin(), row.spellings.end(), matches)) {
      rows.push_back(&row);
    }
  }
  return rows;
}

std::string named(const std::vector<const DimensionRow*>& rows) {
  std::vector<std::string> names;
  names.reserve(rows.size());
  for (const DimensionRow* row : rows) {
    names.emplace_back(row->with_article);
  }
  return fmt::format("{}", fmt::join(names, " or "));
}

std::string what_was_expected(const DimensionRow& row) {
  if (row.dimension == Dimension::number) {
    return "a bare number was expected";
  }
  return fmt::format("{} was expected, for instance {}", row.with_article, row.example);
}

std::optional<std::string> meant_unit(std::string_view unit, const DimensionRow& row) {
  for (const std::string& accepted : accepted_units(row.dimension)) {
    if (lower_case(accepted) == lower_case(unit)) {
      return accepted;
    }
  }
  return nearest_spelling(unit, accepted_units(row.dimension));
}

[[noreturn]] void refuse_unit(std::string_view text, std::string_view unit, const DimensionRow& row) {
  const std::vector<const DimensionRow*> others = rows_with_unit(unit);
  if (!others.empty()) {
    throw ValueError(fmt::format("{} is {}; {}", text, named(others), what_was_expected(row)),
                     row.dimension == Dimension::number ? how_to_write(row) : unit_list(row) + ".");
  }
  if (row.dimension == Dimension::number) {
    throw ValueError(fmt::format("{} has more than a number; a bare number was expected", in_quotes(text)),
                     how_to_write(row));
  }
  const std::optional<std::string> meant = meant_unit(unit, row);
  throw ValueError(fmt::format("{} is not an accepted unit; {}", in_quotes(unit), what_was_expected(row)),
                   fmt::format("{}{}.", meant ? fmt::format("Did you mean `{}`? ", *meant) : "", unit_list(row)));
}

std::string_view without_leading_blanks(std::string_view text) {
  const std::size_t begin = text.find_first_not_of(" \t");
  return begin == std::string_view::npos ? std::string_view() : text.substr(begin);
}

/// The unit of a value whose spacing follows the grammar; every departure has its own message.
std::string_view unit_of(std::string_view text, const CutText& cut, const DimensionRow& row) {
  const std::string_view unit = without_leading_blanks(cut.rest);
  if (cut.rest == unit) {
    if (rows_with_unit(unit).empty()) {
      throw ValueError(
          fmt::format("{} is not a number with a unit; {} was expected", in_quotes(text), row.with_article),
          how_to_write(row));
    }
    throw ValueError(fmt::format("{} lacks the space between number and unit", in_quotes(text)),
                     fmt::format("Write {} {}.", cut.number, unit));
  }
  if (!unit.empty() && is_digit(unit.front()) && rows_with_unit(unit).empty()) {
    throw ValueError(fmt::format("{} has a space inside its number", in_quotes(text)),
                     fmt::format("Write {}{}.", cut.number, unit));
  }
  if (cut.rest.size() != unit.size() + 1 || cut.rest.front() != ' ') {
    throw ValueError(fmt::format("{} needs exactly one space between number and unit", in_quotes(text)),
                     fmt::format("Write {} {}.", cut.number, unit));
  }
  return unit;
}

double read_number(std::string_view text, const CutText& cut) {
  const std::string_view digits = cut.number.front() == '+' ? cut.number.substr(1) : cut.number;
  double number = 0;
  const std::from_chars_result result = std::from_chars(digits.data(), digits.data() + digits.size(), number);
  if (result.ec != std::errc() || result.ptr != digits.data() + digits.size()) {
    throw ValueError(fmt::format("{} is too large or too small for a number of double precision", in_quotes(text)),
                     "Check the exponent.");
  }
  return number;
}

double finite(double si_value, std::string_view text) {
  if (!std::isfinite(si_value)) {
    throw ValueError(fmt::format("{} is too large for a number of double precision", in_quotes(text)),
                     "Check the exponent.");
  }
  return si_value;
}

double not_below_absolute_zero(double kelvin, std::string_view text) {
  if (kelvin < 0) {
    throw ValueError(fmt::format("{} is below absolute zero", in_quotes(text)), "Check the sign and the unit.");
  }
  return kelvin;
}

double value_in_unit(double number, std::string_view text, const CutText& cut, const DimensionRow& row) {
  const std::string_view unit = unit_of(text, cut, row);
  const std::optional<double> si_value = to_si(number, unit, row.dimension);
  if (!si_value) {
    refuse_unit(text, unit, row);
  }
  finite(*si_value, text);
  return row.dimension == Dimension::temperature ? not_below_absolute_zero(*si_value, text) : *si_value;
}

} // namespace

double parse_value(std::string_view text, Dimension dimension) {
  const DimensionRow& row = row_of(dimension);
  if (is_hexadecimal(text)) {
    throw ValueError(fmt::format("{} is written in hexadecimal", in_quotes(text)), "Write it in decimal.");
  }
  const CutText cut = cut_behind_number(text);
  if (cut.number.empty()) {
    refuse_number(text, row);
  }
  if (!cut.rest.empty() && cut.rest.front() == ',') {
    refuse_comma(text, cut);
  }
  const double number = read_number(text, cut);
  if (!cut.rest.empty()) {
    return value_in_unit(number, text, cut, row);
  }
  if (dimension != Dimension::number && dimension != Dimension::fraction) {
    throw ValueError(fmt::format("{} has no unit; {}", in_quotes(text), what_was_expected(row)),
                     fmt::format("Put one space and a unit behind the number. {}.", unit_list(row)));
  }
  return number;
}

const std::vector<std::string>& accepted_units(Dimension dimension) {
  static const std::map<Dimension, std::vector<std::string>> all = [] {
    std::map<Dimension, std::vector<std::string>> made;
    for (const DimensionRow& row : dimension_table()) {
      std::vector<std::string>& units = made[row.dimension];
      for (const UnitSpelling& spelling : row.spellings) {
        units.push_back(spelling.written);
      }
    }
    return made;
  }();
  return all.at(dimension);
}

} // namespace crushwright
