#pragma once
#include "crushwright/cell_property.hpp"
#include "crushwright/quantity.hpp"

#include <array>
#include <string>

namespace crushwright {

/// A property of a cell with how it is shown.
struct ShownProperty {
  const char* name;
  CellProperty CellProperties::*member;
  Dimension dimension;
};

inline constexpr std::array<ShownProperty, 6> shown_properties = {
    {{"Elastic modulus", &CellProperties::elastic_modulus, Dimension::stress},
     {"Plateau stress (mean over 20 to 40 % strain)", &CellProperties::plateau_stress, Dimension::stress},
     {"First peak over plateau", &CellProperties::first_peak_ratio, Dimension::number},
     {"Locking strain", &CellProperties::locking_strain, Dimension::fraction},
     {"Efficiency strain", &CellProperties::efficiency_strain, Dimension::fraction},
     {"Plateau end (1.3 times the plateau stress)", &CellProperties::plateau_end_strain, Dimension::fraction}}};

/// All evidence at one relative density side by side, HTML: a row a property, a column a kind of evidence, every
/// value with its law; the one used is framed, and a value more than 30 % off it is marked with the difference.
/// Properties without evidence have no row. Empty text when there is none at all.
std::string evidence_table(const CellProperties& properties);

} // namespace crushwright
