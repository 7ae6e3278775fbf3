#pragma once
#include "crushwright/surface.hpp"
#include "crushwright/unit_cell.hpp"

#include <array>
#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <vector>

namespace crushwright {

/// Where a lattice lies. Everything here is in the structure's own frame: x is the station, 0 at the struck end and
/// growing to the attachment, y to the left, z up, lengths in metres.
struct LatticePlacement {
  double cell_edge = 0;                                                         ///< [m], > 0
  std::array<double, 3> origin{};                                               ///< a corner of one cell [m]
  std::array<std::array<double, 3>, 3> axes{{{1, 0, 0}, {0, 1, 0}, {0, 0, 1}}}; ///< the cell's axes, unit vectors
};

/// Strut diameter or wall thickness at a point [m].
using SizeAt = std::function<double(const std::array<double, 3>&)>;

/// A round bar of a lattice body, its radius linear between its ends.
struct BodyStrut {
  std::int32_t from = 0; ///< places in `nodes`
  std::int32_t to = 0;
  double from_radius = 0; ///< [m], > 0
  double to_radius = 0;
};

/// A lattice of struts cut to a body's shape.
struct StrutBody {
  std::vector<std::array<double, 3>> nodes; ///< shape = (number of nodes, 3) [m]
  std::vector<BodyStrut> struts;            ///< shape = (number of struts)
};

/// What decides where a lattice lies in a body.
struct PlacementChoice {
  double cell_edge = 0;                ///< [m], > 0
  std::string crush_direction = "100"; ///< the direction of the cell that lies along x: three digits in cell axes
  double turn = 0;                     ///< of the lattice about x, from y towards z [rad]
  double length = 0;                   ///< station of the attachment [m], > 0
  std::array<double, 2> middle{};      ///< (y, z) of the centre of the body's middle section [m]
  std::optional<std::array<double, 3>> origin; ///< a cell's corner [m]; absent: (length, middle)
};

/// The cell's three axes in the structure's frame. The crush direction lies along x; the cell's third axis is as near
/// to z as that leaves it, or the second where the third is the crush direction itself; then all is turned about x.
/// @throws OutOfDomain unless the direction is three digits, not all 0
std::array<std::array<double, 3>, 3> cell_axes(const std::string& crush_direction, double turn = 0);

/// Without an origin of its own a cell's corner lies on the axis at the attachment, so that the layers of cells end
/// whole at the attachment and are cut at the struck end, and cells with mirror planes lie alike to left and right.
/// @throws OutOfDomain for an edge or length that is not positive, or a direction that is not three digits
LatticePlacement place_lattice(const PlacementChoice& choice);

/// A factor on the size, given at the points of a grid and linear between them along each axis; beyond the grid it
/// keeps the value at the grid's end. An axis with one place does not vary along it.
struct SizeField {
  std::vector<double> station; ///< rising [m]
  std::vector<double> y;       ///< rising [m]
  std::vector<double> z;       ///< rising [m]
  std::vector<double> values;  ///< > 0 [-]; shape = (z, y, station), station fastest
};

/// @throws OutOfDomain that says which list is empty, does not rise, has the wrong length, or holds what is no factor
void require_usable(const SizeField& field);

/// @param field  usable
double factor_at(const SizeField& field, const std::array<double, 3>& point);

/// Linear from the struck end to the attachment and held beyond them, as the estimate has it, times a factor field.
/// @param tip     size at the struck end [m], > 0
/// @param root    size at the attachment [m], > 0
/// @param length  station of the attachment [m], > 0
/// @throws OutOfDomain for values that are not positive, or a field that is not usable
SizeAt graded_size(double tip, double root, double length, std::optional<SizeField> factor = std::nullopt);

/// What becomes of a chain of struts that ends free.
enum class LooseEnds {
  drop, ///< taken away, strut by strut, until nothing ends free
  keep,
  tie, ///< its end is joined to the nearest other end or node by a strut of its own radius; dropped where none is
       ///< near
};

struct TrimOptions {
  double inset = 0;         ///< the skin's thickness: struts end this far inside the outer surface [m], >= 0
  bool skin = false;        ///< there is a skin: it holds what ends on it
  double first_station = 0; ///< nothing is kept before [m]
  double last_station = 0;  ///< nothing is kept beyond [m]; both 0: the surface alone ends the lattice
  bool tip_plate = false;   ///< a plate at first_station holds what ends there
  bool root_plate = false;  ///< a plate at last_station holds what ends there
  LooseEnds loose_ends = LooseEnds::drop;
  double shortest_piece = 1; ///< pieces of cut struts shorter than this many of their own radii are taken away [-]
};

/// Where a node came from.
enum class NodePlace : std::uint8_t {
  inside,     ///< a node of the lattice
  at_surface, ///< a cut end on the inset surface, or a node that lost a very short piece to it
  at_tip,     ///< the same at first_station
  at_root,    ///< the same at last_station
};

/// Struts that were taken away or added.
struct StrutTally {
  std::int64_t struts = 0;
  double length = 0; ///< [m]
  double volume = 0; ///< of the bars, overlaps counted for each [m^3]
};

/// A lattice of struts trimmed to a body.
struct TrimmedLattice {
  StrutBody body;
  std::vector<NodePlace> places; ///< shape = (number of nodes)
  std::int64_t whole_cells = 0;  ///< cells with all their struts, those on their faces and edges among them
  std::int64_t cut_cells = 0;    ///< other cells with at least a part of one strut
  std::int64_t cut_struts = 0;   ///< pieces in the body with at least one cut end
  StrutTally short_pieces;
  std::int64_t fragments = 0; ///< parts that did not hang together with the largest
  StrutTally in_fragments;
  StrutTally loose; ///< taken away by `drop`, or because nothing was near enough to tie to
  StrutTally ties;  ///< added
};

/// The struts of all cells, cut where they leave the body: a strut may leave and come back, and all its parts are
/// kept. Struts and nodes that neighbouring cells share are there once; struts that meet are joined in a node. Radii
/// are half the size at each end, so that grading is continuous. An axis may bulge out of the inset surface by less
/// than a tenth of its radius without being cut, and never by more. The result is the same for any number of threads.
///
/// @param cell   of struts, hanging together through its copies
/// @param size   strut diameter; asked from several threads at once; > 0 everywhere in the body
/// @param outer  closed, facing outward, not crossing itself [m]
/// @throws OutOfDomain for a cell that is not of struts or falls apart, a placement or options that cannot be used, a
///         size that is not positive, or when nothing of the lattice is left; the message says what to do
TrimmedLattice trim_struts(const UnitCell& cell, const LatticePlacement& placement, const SizeAt& size,
                           const TriangleMesh& outer, const TrimOptions& options);

/// The same body with its flat end faces, at the lowest and the highest station, pushed out along x and straight
/// walls up to them. A skin that stands around a body and leaves its ends open is had by trimming to the lengthened
/// surface, by more than the inset, between the stations of the ends. An end without a flat face stays as it is.
/// @param by  [m], > 0
/// @throws OutOfDomain for a mesh without triangles or a length that is not positive
TriangleMesh lengthened(const TriangleMesh& mesh, double by);

/// Volume by sampling, with the standard error of the samples.
struct SampledVolume {
  double value = 0; ///< [m^3]
  double error = 0; ///< one standard error [m^3]
};

/// Real volume of a body's metal minus the homogenised estimate, in parts that add up to it.
struct FillDifference {
  double grading = 0; ///< bars linear between nodes against the density of the size at each point [m^3]
  double method = 0;  ///< the catalogue's density against bars that overlap, in whole cells, with the sampling error
  double cut_cells = 0; ///< cells at the surface, but for what follows
  double short_pieces = 0;
  double fragments = 0;
  double loose_ends = 0; ///< dropped, less ties that were added
  double total() const { return grading + method + cut_cells + short_pieces + fragments + loose_ends; }
};

/// A filled body in numbers.
struct FillReport {
  std::int64_t whole_cells = 0, cut_cells = 0;
  std::int64_t struts = 0, nodes = 0, cut_struts = 0;
  double strut_length = 0;      ///< sum [m]
  double smallest_diameter = 0; ///< [m]
  double largest_diameter = 0;  ///< [m]
  double shortest_strut = 0;    ///< [m]
  double room = 0;              ///< volume left for the lattice inside the inset surface [m^3]
  SampledVolume metal;          ///< of the union of all struts, a ball at every node, as it is written out
  SampledVolume metal_inside;   ///< the part of it inside the inset surface: what the lattice adds to the skin
  double estimated = 0;         ///< the catalogue's true density of the size at each point over the room [m^3]
  FillDifference difference;    ///< of metal_inside and estimated
};

/// A trimmed lattice with its report.
struct FilledBody {
  TrimmedLattice lattice;
  FillReport report;
};

/// Trims and reports; parameters and errors as trim_struts. A mass is a volume times the base material's density.
/// @throws OutOfDomain also where the size leaves the range of the catalogue entry's density
FilledBody fill_with_struts(const UnitCell& cell, const LatticePlacement& placement, const SizeAt& size,
                            const TriangleMesh& outer, const TrimOptions& options);

} // namespace crushwright
