#pragma once
#include "crushwright/quantity.hpp"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace crushwright {

/// What a column holds.
enum class ColumnRole { displacement, strain, force, stress, time, specimen, other };

bool is_along(ColumnRole role);
bool is_load(ColumnRole role);
/// Of a displacement, strain, force, stress or time.
Dimension dimension_of(ColumnRole role);
std::string_view name_of(ColumnRole role);

/// The heading of one column, taken apart.
struct Heading {
  std::string shown; ///< as it stands in the file
  std::string words; ///< lower case, marks as blanks, without the unit
  std::string label; ///< what is left of the words without those that tell the role: "A" of "Force A [kN]"
  std::string unit;  ///< as it stands in the heading, accepted or not; empty when there is none
  ColumnRole role = ColumnRole::other;
};

Heading read_heading(std::string_view cell);

/// A heading or part of it for comparison: lower case, runs of blanks and marks as one blank.
std::string plain_words(std::string_view text);

/// A number in a column's unit to SI; strain also takes -, 1, mm/mm and m/m. Absent for a unit that is not accepted.
std::optional<double> column_value(double number, std::string_view unit, ColumnRole role);
bool is_unit_of(std::string_view unit, ColumnRole role);

/// "kN, N, MN": what messages offer.
std::string units_for(ColumnRole role);
std::vector<std::string> accepted_units_of(ColumnRole role);

/// Gives a heading the unit that stands apart from it. "Deformation [%]" then is a strain.
void give_unit(Heading& heading, std::string_view unit);

/// True for a text that is meant as a unit of anything, accepted or not; "-" counts.
bool meant_as_unit(std::string_view text);
std::string_view without_brackets(std::string_view text);

} // namespace crushwright
