#include "test_record/heading.hpp"

#include "quantities/dimension_table.hpp"
#include "quantities/nearest_spelling.hpp"
#include "quantities/unit_conversion.hpp"
#include "quantities/units.hpp"
#include "test_record/cut_line.hpp"

#include <algorithm>
#include <array>
#include <cstddef>
#include <sstream>
#include <stdexcept>
#include <utility>

namespace crushwright {

namespace {

struct RoleWord {
  std::string_view word;
  ColumnRole role;
};

// Words of the trade, English and German; both languages are common in laboratories.
constexpr std::array role_words{
    RoleWord{"force", ColumnRole::force},
    RoleWord{"load", ColumnRole::force},
    RoleWord{"kraft", ColumnRole::force},
    RoleWord{"stress", ColumnRole::stress},
    RoleWord{"spannung", ColumnRole::stress},
    RoleWord{"\u03c3", ColumnRole::stress},
    RoleWord{"sigma", ColumnRole::stress},
    RoleWord{"displacement", ColumnRole::displacement},
    RoleWord{"extension", ColumnRole::displacement},
    RoleWord{"stroke", ColumnRole::displacement},
    RoleWord{"crush", ColumnRole::displacement},
    RoleWord{"deformation", ColumnRole::displacement},
    RoleWord{"travel", ColumnRole::displacement},
    RoleWord{"shortening", ColumnRole::displacement},
    RoleWord{"elongation", ColumnRole::displacement},
    RoleWord{"weg", ColumnRole::displacement},
    RoleWord{"strain", ColumnRole::strain},
    RoleWord{"stauchung", ColumnRole::strain},
    RoleWord{"dehnung", ColumnRole::strain},
    RoleWord{"\u03b5", ColumnRole::strain},
    RoleWord{"epsilon", ColumnRole::strain},
    RoleWord{"time", ColumnRole::time},
    RoleWord{"zeit", ColumnRole::time},
    RoleWord{"specimen", ColumnRole::specimen},
    RoleWord{"coupon", ColumnRole::specimen},
};

// A column with one of these is another quantity than its last word says: a rate, a peak, a true stress.
constexpr std::array<std::string_view, 24> other_quantity{
    "true",   "rate",    "speed",   "velocity",    "max",     "maximum", "min",    "minimum",
    "peak",   "mean",    "average", "target",      "set",     "energy",  "work",   "yield",
    "offset", "modulus", "area",    "logarithmic", "plastic", "limit",   "demand", "per"};

// Common in laboratories, but not among the accepted units: never to be taken for a part of the name.
constexpr std::array<std::string_view, 23> foreign_units{
    "lbf",  "lb", "lbs", "klbf", "kip", "kips", "psi", "ksi",     "in",  "inch",    "inches", "mil",
    "mils", "ft", "kgf", "kg",   "tf",  "dan",  "cn",  "percent", "bar", "seconds", "sec"};

constexpr std::array<std::string_view, 6> naming_words{"id", "no", "nr", "number", "name", "label"};

bool contains(const auto& list, std::string_view word) {
  return std::find(list.begin(), list.end(), word) != list.end();
}

std::vector<std::string> words_in(const std::string& text) {
  std::istringstream stream(text);
  std::vector<std::string> words;
  for (std::string word; stream >> word;)
    words.push_back(word);
  return words;
}

std::string with_marks_as_blanks(std::string_view text) {
  constexpr std::string_view unbreakable_blank = "\u00a0", as_blanks = "_-.:,()[]\t\"'";
  std::string plain;
  for (std::size_t at = 0; at < text.size(); ++at) {
    const bool unbreakable = text.substr(at, unbreakable_blank.size()) == unbreakable_blank;
    at += unbreakable ? unbreakable_blank.size() - 1 : 0;
    plain += unbreakable || as_blanks.find(text[at]) != std::string_view::npos ? ' ' : text[at];
  }
  return plain;
}

ColumnRole role_of_letter(const std::string& words) {
  if (words == "f")
    return ColumnRole::force;
  return words == "t" ? ColumnRole::time : ColumnRole::other;
}

/// The last word that names a quantity decides: a load-line displacement is a displacement.
void find_role(Heading& heading, std::string_view name) {
  heading.role = role_of_letter(heading.words);
  bool another = false;
  std::string label;
  for (const std::string& given : words_in(with_marks_as_blanks(name))) {
    const std::string word = lower_case(given);
    another = another || contains(other_quantity, word);
    const auto* const known =
        std::find_if(role_words.begin(), role_words.end(), [&](const RoleWord& each) { return each.word == word; });
    if (known == role_words.end())
      label += (label.empty() ? "" : " ") + given;
    else if (known->role != ColumnRole::specimen || heading.role == ColumnRole::other)
      heading.role = known->role;
  }
  // A specimen's width or temperature does not name it.
  if (heading.role == ColumnRole::specimen && !label.empty() && !contains(naming_words, lower_case(label)))
    another = true;
  if (another)
    heading.role = ColumnRole::other;
  heading.label = heading.role == ColumnRole::other || words_in(heading.words).size() == 1 ? "" : label;
}

bool foreign_or_of_wrong_case(std::string_view unit) {
  const std::string lower = lower_case(unit);
  for (const Dimension dimension : {Dimension::force, Dimension::stress, Dimension::length, Dimension::time})
    for (const std::string& accepted : accepted_units(dimension))
      if (accepted.size() > 1 && lower_case(accepted) == lower)
        return true;
  return contains(foreign_units, lower);
}

struct Split {
  std::string_view name, unit;
};

/// "Force [kN]" and "Force (kN)". What stands in square brackets is a unit; in round ones it may be a remark.
std::optional<Split> split_at_brackets(std::string_view cell) {
  if (cell.size() < 3 || (cell.back() != ']' && cell.back() != ')'))
    return std::nullopt;
  const std::size_t open = cell.rfind(cell.back() == ']' ? '[' : '(');
  if (open == std::string_view::npos)
    return std::nullopt;
  const std::string_view inside = trimmed(cell.substr(open + 1, cell.size() - open - 2));
  if (cell.back() == ')' && !meant_as_unit(inside))
    return std::nullopt;
  return Split{trimmed(cell.substr(0, open)), inside};
}

/// "Force / kN", "Force_kN", "Force, kN", "Force in kN": the longest ending that is meant as a unit.
std::optional<Split> split_at_marks(std::string_view cell) {
  for (std::size_t at = 1; at + 1 < cell.size(); ++at) {
    if (cell[at] != ' ' && cell[at] != '_' && cell[at] != '/' && cell[at] != ',')
      continue;
    std::string_view unit = trimmed(cell.substr(at + 1));
    const bool slash_before = !unit.empty() && unit.front() == '/';
    if (slash_before || (!unit.empty() && unit.front() == ','))
      unit = trimmed(unit.substr(1));
    if (unit.substr(0, 3) == "in ")
      unit = trimmed(unit.substr(3));
    if (unit == "1") // "Force 1" is the first of several
      continue;
    const bool one_word = unit.find_first_of(" /") == std::string_view::npos;
    if (meant_as_unit(unit) || ((slash_before || cell[at] == '/') && one_word && !unit.empty()))
      return Split{trimmed(cell.substr(0, at)), unit};
  }
  return std::nullopt;
}

} // namespace

bool is_along(ColumnRole role) {
  return role == ColumnRole::displacement || role == ColumnRole::strain;
}

bool is_load(ColumnRole role) {
  return role == ColumnRole::force || role == ColumnRole::stress;
}

Dimension dimension_of(ColumnRole role) {
  switch (role) {
  case ColumnRole::displacement:
    return Dimension::length;
  case ColumnRole::strain:
    return Dimension::fraction;
  case ColumnRole::force:
    return Dimension::force;
  case ColumnRole::stress:
    return Dimension::stress;
  case ColumnRole::time:
    return Dimension::time;
  case ColumnRole::specimen:
  case ColumnRole::other:
    break;
  }
  throw std::logic_error("a column without a dimension");
}

std::string_view name_of(ColumnRole role) {
  switch (role) {
  case ColumnRole::displacement:
    return "displacement";
  case ColumnRole::strain:
    return "strain";
  case ColumnRole::force:
    return "force";
  case ColumnRole::stress:
    return "stress";
  case ColumnRole::time:
    return "time";
  case ColumnRole::specimen:
    return "specimen";
  case ColumnRole::other:
    break;
  }
  return "other";
}

Heading read_heading(std::string_view cell) {
  Heading heading;
  heading.shown = std::string(trimmed(cell));
  Split split{heading.shown, {}};
  if (const auto at_brackets = split_at_brackets(heading.shown))
    split = *at_brackets;
  else if (const auto at_marks = split_at_marks(heading.shown))
    split = *at_marks;
  heading.words = plain_words(split.name);
  find_role(heading, split.name);
  give_unit(heading, split.unit);
  return heading;
}

std::string plain_words(std::string_view text) {
  std::string words;
  for (const std::string& word : words_in(with_marks_as_blanks(lower_case(text))))
    words += (words.empty() ? "" : " ") + word;
  return words;
}

std::optional<double> column_value(double number, std::string_view unit, ColumnRole role) {
  if (role == ColumnRole::strain && (unit == "-" || unit == "1" || unit == "mm/mm" || unit == "m/m"))
    return number;
  return to_si(number, unit, dimension_of(role));
}

bool is_unit_of(std::string_view unit, ColumnRole role) {
  return column_value(1, unit, role).has_value();
}

std::string units_for(ColumnRole role) {
  return comma_list(accepted_units_of(role));
}

std::vector<std::string> accepted_units_of(ColumnRole role) {
  if (role == ColumnRole::strain)
    return {"%", "-", "mm/mm"};
  std::vector<std::string> units;
  for (const UnitSpelling& spelling : row_of(dimension_of(role)).spellings)
    if (spelling.listed)
      units.push_back(spelling.written);
  return units;
}

void give_unit(Heading& heading, std::string_view unit) {
  heading.unit = std::string(unit);
  // Such words are used of strains as well, and the unit decides.
  if (heading.role == ColumnRole::displacement && is_unit_of(unit, ColumnRole::strain))
    heading.role = ColumnRole::strain;
}

bool meant_as_unit(std::string_view text) {
  if (text == "-" || text == "1" || text == "mm/mm" || text == "m/m")
    return true;
  for (const DimensionRow& row : dimension_table())
    for (const UnitSpelling& spelling : row.spellings)
      if (spelling.written == text)
        return true;
  return foreign_or_of_wrong_case(text);
}

std::string_view without_brackets(std::string_view text) {
  const std::string_view plain = trimmed(text);
  const bool square = plain.size() >= 2 && plain.front() == '[' && plain.back() == ']';
  const bool round = plain.size() >= 2 && plain.front() == '(' && plain.back() == ')';
  return square || round ? trimmed(plain.substr(1, plain.size() - 2)) : plain;
}

} // namespace crushwright
