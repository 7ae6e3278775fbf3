#pragma once
#include "crushwright/unit_cell.hpp"

#include <string>

namespace crushwright {

struct CellDrawingOptions {
  int samples = 96;            ///< of the cell's solid along its edge, > 7
  int pixels = 480;            ///< of the longer side of the picture, > 15
  int copies = 1;              ///< of the cell along each edge, 1 to 4
  std::string crush_direction; ///< three digits in cell axes, "001": arrows at both ends; empty for none
};

/// Whether the cell has a shape to be drawn; a foam has none.
bool has_drawing(const UnitCell& cell);

/// One repeating cell as it is built, seen without perspective: an SVG element that stands alone as a file or inside
/// a page, fetches nothing and follows the reader's light or dark page. The metal is a picture made from the cell's
/// own solid; box, axes and arrows are lines. Metal cut by the box is bright and flat. A strut cell is cut half a
/// strut outside its box, so that struts along edges show round.
///
/// The same cell, size and options give the same bytes.
/// @param size_ratio  τ [-], inside the cell's range
/// @throws OutOfDomain for a foam, a size outside the cell's range, options outside theirs or a direction that is not
///         three digits.
std::string cell_drawing_svg(const UnitCell& cell, double size_ratio, const CellDrawingOptions& options = {});

} // namespace crushwright
