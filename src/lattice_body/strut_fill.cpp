#include "lattice_body/strut_fill.hpp"

#include "crushwright/errors.hpp"
#include "lattice_body/strut_pieces.hpp"
#include "lattice_body/tied_ends.hpp"

#include <Eigen/Dense>
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace crushwright {
namespace {

using Vector = Eigen::Vector3d;

void require_usable(const TrimOptions& options) {
  if (!(options.inset >= 0 && std::isfinite(options.inset)))
    throw OutOfDomain(fmt::format("the inset is {:g} m; expected 0 or more", options.inset));
  if (!(options.shortest_piece >= 0 && std::isfinite(options.shortest_piece)))
    throw OutOfDomain(fmt::format("the shortest piece is {:g} radii; expected 0 or more", options.shortest_piece));
  const bool stated = options.first_station != 0 || options.last_station != 0;
  if (stated && !(options.last_station > options.first_station))
    throw OutOfDomain(fmt::format("the lattice is to lie between the stations {:g} m and {:g} m; expected stations "
                                  "that rise",
                                  options.first_station, options.last_station));
  if (!stated && (options.tip_plate || options.root_plate))
    throw OutOfDomain("an end plate holds what ends on it, but no stations were given: state first_station and "
                      "last_station");
}

void count_cells(StrutFill& fill, const StrutNetwork& network) {
  const std::size_t struts = fill.lattice.struts.size();
  const CellBlock& block = fill.survey.block;
  // 0 none, 1 a part, 2 whole
  std::vector<std::uint8_t> there(block.size() * struts, 0);
  for (std::size_t i = 0; i < network.origins.size(); ++i)
    if (network.origins[i] != StrutNetwork::added)
      there[network.origins[i]] = network.cut[i] ? 1 : 2;
  fill.whole.assign(block.size(), 0);
  for (std::size_t place = 0; place < block.size(); ++place) {
    const Eigen::Vector3i cell = block.cell(place);
    bool all = true, any = false;
    for (const InClosedCell& strut : fill.lattice.closed_struts) {
      const Eigen::Vector3i owner = cell + strut.shift;
      const int state = block.holds(owner) ? there[block.place(owner) * struts + std::size_t(strut.place)] : 0;
      all = all && state == 2;
      any = any || state > 0;
    }
    fill.whole[place] = all ? 1 : 0;
    fill.trimmed.whole_cells += all ? 1 : 0;
    fill.trimmed.cut_cells += any && !all ? 1 : 0;
  }
}

void put_in_order(StrutNetwork& network, const InnerRegion& region, double edge, const TrimOptions& options,
                  TrimmedLattice& trimmed) {
  const Holders holders{options.skin, options.tip_plate, options.root_plate};
  if (options.shortest_piece > 0)
    trimmed.short_pieces = drop_short_pieces(network, options.shortest_piece);
  trimmed.in_fragments = drop_fragments(network, holders, trimmed.fragments);
  if (options.loose_ends == LooseEnds::tie)
    trimmed.ties = tie_loose_ends(network, holders, region, edge);
  if (options.loose_ends != LooseEnds::keep)
    trimmed.loose = drop_loose_ends(network, holders);
}

} // namespace

StrutFill strut_fill(const UnitCell& cell, const LatticePlacement& placement, const SizeAt& size,
                     const InnerRegion& region, const Vector& low, const Vector& high, const TrimOptions& options) {
  require_usable(options);
  StrutFill fill{LatticeFrame(placement), repeating_struts(cell), {}, {}, {}};
  fill.survey = survey_cells(fill.frame, fill.lattice, region, low, high);
  StrutNetwork network = strut_pieces(fill.frame, fill.lattice, fill.survey, region, size);
  put_in_order(network, region, fill.frame.edge, options, fill.trimmed);
  if (network.body.struts.empty())
    throw OutOfDomain(fmt::format(
        "nothing of the lattice is left in the body: cells of {:g} m, struts cut {:g} m inside its surface, {} "
        "struts "
        "dropped as fragments and {} as loose ends. Take smaller cells, a thinner skin, or keep or tie loose ends",
        fill.frame.edge, options.inset, fill.trimmed.in_fragments.struts, fill.trimmed.loose.struts));
  count_cells(fill, network);
  fill.trimmed.cut_struts = std::count(network.cut.begin(), network.cut.end(), std::uint8_t{1});
  fill.trimmed.body = std::move(network.body);
  fill.trimmed.places = std::move(network.places);
  return fill;
}

} // namespace crushwright
