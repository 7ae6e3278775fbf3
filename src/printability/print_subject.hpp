#pragma once
#include "crushwright/printability.hpp"
#include "printability/strut_support.hpp"
#include "printability/wall_facets.hpp"

#include <memory>

namespace crushwright {

/// A subject with all that no build direction changes.
struct PreparedSubject {
  const PrintSubject* subject = nullptr;
  TriangleMesh outer;                       ///< closed
  TriangleMesh shell;                       ///< skin and printed plates: the faces of `outer` that are metal
  CellBars bars;                            ///< of a strut cell
  std::shared_ptr<const CellFacets> facets; ///< of every other printed cell
  bool has_lattice = false;
};
PreparedSubject prepared(const PrintSubject& subject, const PrintingInput& printing);

/// Struts by length or walls by area below the self-supporting angle, in cell edges. @param with_spans  the search
/// for a direction leaves the ceilings of walls out.
LatticeSupport lattice_support(const PreparedSubject& prepared, const BuildDirection& direction, double angle,
                               bool with_spans = true);

/// Share of lattice and of skin and plates that hangs over, the mean where both are there [-].
double unsupported_share(const LatticeSupport& lattice, const Overhang& overhang);

/// The way out for powder, which no direction changes.
PowderEscape powder_escape(const PrintSubject& subject, const PrintingInput& printing);

} // namespace crushwright
