#include "review_pack/coupon_words.hpp"

#include "quantities/units.hpp"

#include <fmt/format.h>

namespace crushwright {

std::string value_text(const PropertySummary& summary, double value) {
  if (summary.unit == "J/m3") {
    return fmt::format("{:.4g} MJ/m³", value * 1e-6);
  }
  return show(value, summary.unit == "Pa"     ? Dimension::stress
                     : summary.unit == "J/kg" ? Dimension::specific_energy
                                              : Dimension::number);
}

std::string short_name(std::string property) {
  const std::string group = " at relative density ";
  const std::size_t at = property.find(group);
  return at == std::string::npos ? property : property.replace(at, group.size(), ", density ");
}

} // namespace crushwright
