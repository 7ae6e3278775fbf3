#pragma once
#include "crushwright/estimate.hpp"
#include "crushwright/lattice_body.hpp"
#include "crushwright/printability.hpp"
#include "crushwright/surface.hpp"

#include <optional>
#include <string>
#include <vector>

namespace crushwright {

/// A lattice of walls (sheet, skeletal, plate, honeycomb) in a body, in numbers.
struct WallFill {
  double room = 0;      ///< volume left for the lattice inside skin and end plates, by samples [m^3]
  SampledVolume metal;  ///< of the lattice in that room [m^3]
  double estimated = 0; ///< the catalogue's true density of the size at each sample, over the room [m^3]
  double cells = 0;     ///< room over the volume of a cell [-]
  double smallest = 0;  ///< strut, neck or wall, smallest of the samples [m]
};

/// One structure of a case with its lattice in place, as it is drawn: no process offset, nothing weighed.
struct FilledStructure {
  std::string id;
  std::vector<std::string> mirrors; ///< structures that are mirror images of this one
  UnitCell cell;
  std::string material;
  double metal_density = 0;  ///< of the lattice's metal [kg/m^3]
  TriangleMesh outer;        ///< closed outer surface, structure's frame [m]
  double skin_thickness = 0; ///< as drawn, 0 without a skin [m]
  double tip_plate = 0;      ///< thickness, 0 without one [m]
  double root_plate = 0;
  double length = 0; ///< [m]
  LatticePlacement placement;
  SizeAt size;
  std::optional<FilledBody> struts; ///< cells of struts
  std::optional<WallFill> walls;    ///< other cells
  double layer_mass = 0;            ///< lattice by the layers of the estimate, at the same drawn sizes [kg]
  std::vector<std::string> notes;   ///< what explains the differences, one sentence each

  double lattice_mass() const;      ///< of the lattice in its place [kg]
  double estimated_mass() const;    ///< the homogenised estimate over the same room [kg]
  PrintedBody printed_body() const; ///< its struts, and its skin or bare outer surface; points into this structure
};

/// Places the lattice of a structure and cuts it to the room inside skin and end plates.
///
/// @param structure  id of a structure, or of a mirror: then its original is filled.
/// @throws InputError at the case's line: no such structure, no lattice, a foam or a mesh cell, a body with no room.
FilledStructure filled_structure(const CrashCase& crash_case, const Catalogue& catalogue,
                                 const std::string& structure);

} // namespace crushwright
