#pragma once
#include "crushwright/catalogue.hpp"
#include "crushwright/printability.hpp"

#include <numbers>
#include <string>
#include <vector>

// Cells of the shipped catalogue and small bodies of invented dimensions.
namespace sample_subjects {

inline const crushwright::UnitCell& cell(const std::string& id) {
  static const crushwright::Catalogue shipped({std::filesystem::path(CRUSHWRIGHT_SOURCE_DIR) / "lattices"});
  return shipped.cell(id);
}

inline crushwright::UnitCell struts_of(std::vector<crushwright::Strut> struts) {
  crushwright::UnitCell cell;
  cell.id = "struts_of_a_test";
  cell.size_name = "strut diameter";
  cell.struts = std::move(struts);
  cell.size_ratio_range = {0, 1};
  return cell;
}

constexpr double degree = std::numbers::pi / 180;

/// A straight box of stated length, width (y) and height (z) [m].
inline crushwright::Envelope box(double length, double width, double height) {
  crushwright::Envelope envelope;
  for (const double station : {0.0, length}) {
    crushwright::Section section;
    section.station = station;
    section.width = width;
    section.height = height;
    envelope.sections.push_back(section);
  }
  return envelope;
}

/// A printer that judges nothing but angles, 45 degrees, growing along x with the attachment down.
inline crushwright::PrintingInput printing(const crushwright::BuildDirection& direction = {-1, 0, 0}) {
  crushwright::PrintingInput input;
  input.build_direction = direction;
  input.machine.self_supporting_angle.value = 45 * degree;
  return input;
}

inline crushwright::Quantity value(double si) {
  crushwright::Quantity quantity;
  quantity.value = si;
  return quantity;
}

} // namespace sample_subjects
