#include "quantities/unit_conversion.hpp"

#include "quantities/dimension_table.hpp"

#include <cstddef>
#include <memory>
#include <stdexcept>
#include <string>
#include <vector>

#include <fmt/format.h>
#include <udunits2.h>

namespace crushwright {

namespace {

struct FreeConverter {
  void operator()(cv_converter* converter) const { cv_free(converter); }
};
using Converter = std::unique_ptr<cv_converter, FreeConverter>;

struct UnitConverter {
  std::string written;
  Converter to_si;
};

struct DimensionConverters {
  std::vector<UnitConverter> units;
  Converter to_first; ///< empty for a dimension without units
};

ut_unit* parse_unit(const ut_system* system, const std::string& text) {
  ut_unit* unit = ut_parse(system, text.c_str(), UT_UTF8);
  if (unit == nullptr) {
    throw std::runtime_error(fmt::format("the unit database of UDUNITS-2 does not know `{}`", text));
  }
  return unit;
}

Converter make_converter(ut_unit* from, ut_unit* to) {
  Converter converter(ut_get_converter(from, to));
  if (converter == nullptr) {
    throw std::runtime_error("UDUNITS-2 cannot convert between two units of the table of accepted units");
  }
  return converter;
}

DimensionConverters make_converters(const ut_system* system, const DimensionRow& row) {
  DimensionConverters made;
  if (row.spellings.empty()) {
    return made;
  }
  ut_unit* si = parse_unit(system, std::string(row.si_unit));
  for (const UnitSpelling& spelling : row.spellings) {
    ut_unit* unit = parse_unit(system, spelling.udunits);
    made.units.push_back({spelling.written, make_converter(unit, si)});
    if (made.to_first == nullptr) {
      made.to_first = make_converter(si, unit);
    }
    ut_free(unit);
  }
  ut_free(si);
  return made;
}

// The unit database takes milliseconds to read, a converter nanoseconds to use: all are made once, on first use. The
// initialisation of a local static is safe from several threads.
const std::vector<DimensionConverters>& all_converters() {
  static const std::vector<DimensionConverters> all = [] {
    ut_set_error_message_handler(ut_ignore);
    ut_system* system = ut_read_xml(nullptr);
    if (system == nullptr) {
      throw std::runtime_error(
          "the unit database of UDUNITS-2 was not found: install the package libudunits2-data, or "
          "let UDUNITS2_XML_PATH name its udunits2.xml");
    }
    std::vector<DimensionConverters> made(dimension_table().size());
    for (const DimensionRow& row : dimension_table()) {
      made.at(static_cast<std::size_t>(row.dimension)) = make_converters(system, row);
    }
    ut_free_system(system);
    return made;
  }();
  return all;
}

} // namespace

std::optional<double> to_si(double number, std::string_view unit, Dimension dimension) {
  for (const UnitConverter& candidate : all_converters().at(static_cast<std::size_t>(dimension)).units) {
    if (candidate.written == unit) {
      return cv_convert_double(candidate.to_si.get(), number);
    }
  }
  return std::nullopt;
}

double to_first_unit(double si_value, Dimension dimension) {
  const Converter& converter = all_converters().at(static_cast<std::size_t>(dimension)).to_first;
  return converter == nullptr ? si_value : cv_convert_double(converter.get(), si_value);
}

} // namespace crushwright
