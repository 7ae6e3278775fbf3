#pragma once
#include "review_pack/body_image.hpp"
#include "review_pack/body_raster.hpp"

#include <string>

namespace crushwright {

/// The lattice seen from all sides about its upright middle, one picture shown at a time, behind a heading that opens
/// them; HTML. Without scripts the first view stays. @param azimuth, elevation  of the first view, as cell_view.
std::string turned_lattice_html(const BodyShape& shape, const std::string& name, const StationColours& colours,
                                double azimuth, double elevation);

} // namespace crushwright
