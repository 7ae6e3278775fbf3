#pragma once
#include "crushwright/estimate.hpp"
#include "review_pack/page.hpp"

#include <cstddef>
#include <string>

namespace crushwright {

// Parts of an impact's report beyond its runs; each is HTML, empty where the impact has nothing of the kind.

/// How the face meets each tip.
std::string contact_part(const ImpactOutcome& impact);

/// Face blocks, attachments and the rest of the body at nominal.
std::string element_part(const ImpactOutcome& impact);

/// Yaw of the body that carries the structures.
std::string yaw_part(const ImpactOutcome& impact);

/// What a later hit still finds.
std::string after_hit_part(const ImpactOutcome& impact);

/// The run with the structures' own inertia beside the quasi-static one.
std::string resolved_part(const ImpactOutcome& impact, std::size_t index, ChartSet& charts);

} // namespace crushwright
