#include "quantities/dimension_table.hpp"

#include <stdexcept>

namespace crushwright {

namespace {

// µ exists twice in Unicode (micro sign U+00B5, Greek mu U+03BC) and keyboards produce either.
std::vector<DimensionRow> make_table() {
  using D = Dimension;
  return {
      {D::number, "number", "a bare number", "1.5", "1", {}},
      {D::fraction, "fraction", "a fraction", "40 %", "1", {{"%", "%"}}},
      {D::length,
       "length",
       "a length",
       "275 mm",
       "m",
       {{"mm", "mm"}, {"cm", "cm"}, {"m", "m"}, {"um", "um"}, {"\u00b5m", "um", false}, {"\u03bcm", "um", false}}},
      {D::area,
       "area",
       "an area",
       "120 mm^2",
       "m^2",
       {{"mm^2", "mm^2"},
        {"cm^2", "cm^2"},
        {"m^2", "m^2"},
        {"mm\u00b2", "mm^2", false},
        {"cm\u00b2", "cm^2", false},
        {"m\u00b2", "m^2", false},
        {"mm2", "mm^2", false},
        {"cm2", "cm^2", false},
        {"m2", "m^2", false}}},
      {D::volume,
       "volume",
       "a volume",
       "350 cm^3",
       "m^3",
       {{"cm^3", "cm^3"},
        {"mm^3", "mm^3"},
        {"m^3", "m^3"},
        {"l", "dm^3"},
        {"cm\u00b3", "cm^3", false},
        {"mm\u00b3", "mm^3", false},
        {"m\u00b3", "m^3", false}}},
      {D::mass, "mass", "a mass", "1180 kg", "kg", {{"kg", "kg"}, {"g", "g"}, {"t", "t"}}},
      {D::time,
       "time",
       "a time",
       "15 ms",
       "s",
       {{"ms", "ms"},
        {"s", "s"},
        {"us", "us"},
        {"\u00b5s", "us", false},
        {"\u03bcs", "us", false},
        {"min", "min"},
        {"h", "h"}}},
      {D::speed,
       "speed",
       "a speed",
       "35 km/h",
       "m/s",
       {{"km/h", "km/h"}, {"m/s", "m/s"}, {"mm/s", "mm/s"}, {"mm/min", "mm/min"}}},
      {D::acceleration,
       "acceleration",
       "an acceleration",
       "20 g",
       "m/s^2",
       {{"g", "standard_free_fall"}, {"m/s^2", "m/s^2"}, {"m/s\u00b2", "m/s^2", false}}},
      {D::force, "force", "a force", "80 kN", "N", {{"kN", "kN"}, {"N", "N"}, {"MN", "MN"}}},
      {D::stress,
       "stress",
       "a stress",
       "275 MPa",
       "Pa",
       {{"MPa", "MPa"},
        {"GPa", "GPa"},
        {"kPa", "kPa"},
        {"Pa", "Pa"},
        {"N/mm^2", "N/mm^2"},
        {"N/mm\u00b2", "N/mm^2", false}}},
      {D::energy, "energy", "an energy", "12 kJ", "J", {{"kJ", "kJ"}, {"J", "J"}, {"MJ", "MJ"}}},
      {D::density,
       "density",
       "a density",
       "2670 kg/m^3",
       "kg/m^3",
       {{"kg/m^3", "kg/m^3"},
        {"g/cm^3", "g/cm^3"},
        {"kg/m\u00b3", "kg/m^3", false},
        {"g/cm\u00b3", "g/cm^3", false}}},
      {D::specific_energy,
       "specific energy",
       "a specific energy",
       "15 kJ/kg",
       "J/kg",
       {{"kJ/kg", "kJ/kg"}, {"J/g", "J/g"}, {"J/kg", "J/kg"}}},
      {D::stiffness,
       "stiffness",
       "a stiffness",
       "40 kN/mm",
       "N/m",
       {{"kN/mm", "kN/mm"}, {"N/mm", "N/mm"}, {"kN/m", "kN/m"}, {"N/m", "N/m"}}},
      {D::angle,
       "angle",
       "an angle",
       "12 \u00b0",
       "rad",
       {{"\u00b0", "arc_degree"}, {"deg", "arc_degree"}, {"rad", "rad"}}},
      {D::temperature,
       "temperature",
       "a temperature",
       "23 \u00b0C",
       "K",
       {{"\u00b0C", "celsius"}, {"degC", "celsius"}, {"K", "K"}}},
      {D::strain_rate, "strain rate", "a strain rate", "100 1/s", "1/s", {{"1/s", "s^-1"}, {"1/ms", "ms^-1"}}},
      {D::duration, "duration", "a duration", "12 h", "s", {{"h", "h"}, {"min", "min"}, {"s", "s"}}},
      {D::volume_rate,
       "volume rate",
       "a volume over time",
       "25 cm^3/h",
       "m^3/s",
       {{"cm^3/h", "cm^3/h"},
        {"mm^3/s", "mm^3/s"},
        {"m^3/s", "m^3/s"},
        {"cm\u00b3/h", "cm^3/h", false},
        {"mm\u00b3/s", "mm^3/s", false}}},
      {D::area_rate,
       "area rate",
       "an area over time",
       "900 cm^2/h",
       "m^2/s",
       {{"cm^2/h", "cm^2/h"},
        {"mm^2/s", "mm^2/s"},
        {"m^2/s", "m^2/s"},
        {"cm\u00b2/h", "cm^2/h", false},
        {"mm\u00b2/s", "mm^2/s", false}}},
      {D::moment, "moment", "a moment", "3.5 kN m", "N m", {{"kN m", "kN m"}, {"N m", "N m"}}},
      {D::frequency, "frequency", "a frequency", "120 Hz", "Hz", {{"Hz", "Hz"}, {"kHz", "kHz"}}},
  };
}

} // namespace

const std::vector<DimensionRow>& dimension_table() {
  static const std::vector<DimensionRow> table = make_table();
  return table;
}

const DimensionRow& row_of(Dimension dimension) {
  for (const DimensionRow& row : dimension_table()) {
    if (row.dimension == dimension) {
      return row;
    }
  }
  throw std::logic_error("a dimension without a row in the table of units");
}

} // namespace crushwright
