#pragma once
#include "crushwright/coupon_series.hpp"

namespace crushwright {

/// Specimens of one density: each within 2 % of the lightest.
struct DensityGroup {
  std::optional<double> relative_density; ///< mean [-]; absent: theirs is not known
  std::vector<std::size_t> members;       ///< indices into the series' specimens, rising
};

/// Rising density; those of unknown density last, as one group.
std::vector<DensityGroup> density_groups(const std::vector<ReducedSpecimen>& specimens);

/// All properties of all groups. A name carries its group when there are several.
std::vector<PropertySummary> property_summaries(const std::vector<ReducedSpecimen>& specimens,
                                                const std::vector<DensityGroup>& groups);

} // namespace crushwright
