#pragma once
#include "crushwright/test_record.hpp"

#include <optional>

namespace crushwright {

/// Whole cross-section [m^2]: stated, else of the box or the round. Absent when nothing tells.
std::optional<double> cross_section(const SpecimenFacts& facts);

/// Shortest edge or diameter across the load [m]; a stated area alone is taken for a square's.
std::optional<double> least_width(const SpecimenFacts& facts);

/// Of the whole body [m^3]; absent without area or height.
std::optional<double> envelope_volume(const SpecimenFacts& facts);

/// Stated, else speed over height [1/s].
std::optional<double> strain_rate_of(const SpecimenFacts& facts);

/// Weighed over the solid's density [-]; absent without mass, size or density.
std::optional<double> weighed_relative_density(const SpecimenFacts& facts, std::optional<double> solid_density);

} // namespace crushwright
