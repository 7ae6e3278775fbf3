#pragma once
#include "review_pack/body_raster.hpp"

#include <string>
#include <vector>

namespace crushwright {

/// Values of a body along its station.
struct DrawnLayer {
  double from = 0, to = 0;     ///< stations [m], from < to
  double relative_density = 0; ///< of the lattice [-]; 0 where there is none
  int crush_order = 0;         ///< 1 for what crushes first; 0 where it is not known or does not crush
};

/// A filled body to be drawn.
struct BodyDrawing {
  std::string name;               ///< for captions and for readers that do not see: "left"
  BodyShape shape;                ///< the structure's frame
  double axis_y = 0;              ///< y of the vertical plane that it is cut along [m]
  std::vector<DrawnLayer> layers; ///< stations rising; may be empty
  bool turned = true;             ///< the lattice from ten sides too, which takes longer than all else
};

/// The body drawn for a page with page_style(): its outer surface, the lattice inside it and a cut along the vertical
/// plane through its axis, coloured by relative density and by crush order, with rulers in millimetres and a scale of
/// the values; the lattice also from ten sides, to be turned. HTML, pictures inside it, nothing fetched; all but the
/// turning works without scripts. On screen the reader chooses the colouring; print shows all pictures by relative
/// density and the cut by crush order. About 1.3 MB of text; time grows slowly with the number of struts.
///
/// The surface or the lattice may be missing; where both are, or are empty, a sentence says so. The same body gives
/// the same bytes. Names are to differ within a page.
/// @throws OutOfDomain when a coordinate or radius is not finite, a place in a list is outside it, layers do not
///         rise, or there is a lattice without a cell edge; the message carries the value.
std::string body_pictures_html(const BodyDrawing& body);

} // namespace crushwright
