#pragma once
#include <optional>
#include <string>
#include <string_view>

namespace crushwright {

/// How sure the place is that a number comes from.
enum class Standing { read, memory, derived, common_practice };

/// What kind of knowledge a property rests on; earlier is better.
enum class Evidence { measured, published, computed, generic, prior };

std::string_view name_of(Standing standing);
std::string_view name_of(Evidence evidence);

/// Where a number comes from. An empty text means that no source was given.
struct Source {
  std::string text;                 ///< in words, or a key of docs/references.bib with the place in it
  std::optional<Standing> standing; ///< how sure it is; absent for the user's own unsourced input
  bool operator==(const Source&) const = default;
};

/// The physical kinds a value in a file can have. Each has its list of accepted units (docs/case_format.md).
enum class Dimension {
  number,   ///< bare: counts, exponents, coefficients
  fraction, ///< bare or with %
  length,
  area,
  volume,
  mass,
  time,
  speed,
  acceleration,
  force,
  stress,
  energy,
  density,
  specific_energy,
  stiffness, ///< force over length
  angle,
  temperature, ///< stored in kelvin
  strain_rate,
  duration,    ///< of work, not of an impact: hours
  volume_rate, ///< volume over time
  area_rate,   ///< area over time
  moment,      ///< force times lever
  frequency    ///< periods over time
};

/// One value of a case or of the catalogue, in SI, with what is known of its spread.
///
/// Addressable by `path`, the way to it through the YAML file ("structures.left.lattice.strut.tip").
struct Quantity {
  double value = 0;                               ///< SI
  std::optional<double> low;                      ///< lower end of an interval quantity or tolerance, <= value
  std::optional<double> high;                     ///< upper end, >= value
  std::optional<double> coefficient_of_variation; ///< standard deviation over mean, >= 0
  Source source;
  Dimension dimension = Dimension::number;
  std::string path;

  double low_end() const { return low.value_or(value); }
  double high_end() const { return high.value_or(value); }
  bool operator==(const Quantity&) const = default;
};

} // namespace crushwright
