#include "lattice_body/strut_pieces.hpp"

#include "crushwright/errors.hpp"

#include <Eigen/Dense>
#include <fmt/format.h>
#include <tbb/parallel_for.h>

#include <algorithm>
#include <cmath>
#include <limits>

namespace crushwright {
namespace {

using Vector = Eigen::Vector3d;
using Cell = Eigen::Vector3i;

constexpr double unseen_part = 0.1; // of a radius that an axis may bulge out

/// Places for the lattice nodes of all cells and of the cells around them, which struts may reach.
class NodeGrid {
public:
  NodeGrid(const CellBlock& block, std::size_t kinds)
      : padded_{block.low.array() - 1, block.count.array() + 2}, kinds_(kinds) {}

  std::size_t size() const { return padded_.size() * kinds_; }
  /// @param cell  counted from the block's first
  std::size_t place(const Cell& cell, int kind) const {
    return padded_.place(cell.array() + 1) * kinds_ + std::size_t(kind);
  }
  Vector in_cells(std::size_t place, const RepeatingStruts& lattice) const {
    return (padded_.low + padded_.cell(place / kinds_)).cast<double>() + lattice.nodes[place % kinds_];
  }

private:
  CellBlock padded_;
  std::size_t kinds_;
};

struct Piece {
  std::int32_t strut;
  KeptPart part;
};

double checked_size(const SizeAt& size, const Vector& point) {
  const double value = size({point.x(), point.y(), point.z()});
  if (!(value > 0 && std::isfinite(value)))
    throw OutOfDomain(fmt::format("the strut diameter at ({:g}, {:g}, {:g}) m is {:g} m; expected more than 0",
                                  point.x(), point.y(), point.z(), value));
  return value;
}

class Cutter {
public:
  Cutter(const LatticeFrame& frame, const RepeatingStruts& lattice, const CellSurvey& survey,
         const InnerRegion& region, const SizeAt& size)
      : frame_(frame), lattice_(lattice), survey_(survey), region_(region), size_(size),
        grid_(survey.block, lattice.nodes.size()) {}

  StrutNetwork network() {
    list_cells();
    tell_levels();
    cut_near_cells();
    assemble();
    set_radii();
    return std::move(network_);
  }

private:
  using Ends = std::array<std::size_t, 2>;

  Ends ends_of(const Cell& cell, const RepeatingStrut& strut) const {
    return {grid_.place(cell + strut.from_shift, strut.from), grid_.place(cell + strut.to_shift, strut.to)};
  }

  Vector point_of(std::size_t node) const { return frame_.point(grid_.in_cells(node, lattice_)); }

  void list_cells() {
    for (std::size_t place = 0; place < survey_.places.size(); ++place)
      if (survey_.places[place] == CellPlace::near_boundary)
        near_.push_back(place);
  }

  /// Levels of the nodes of the near cells, each asked for once.
  void tell_levels() {
    levels_.assign(grid_.size(), std::numeric_limits<float>::quiet_NaN());
    std::vector<std::size_t> wanted;
    for (const std::size_t place : near_)
      for (const RepeatingStrut& strut : lattice_.struts)
        for (const std::size_t node : ends_of(survey_.block.cell(place), strut))
          if (std::isnan(levels_[node])) {
            levels_[node] = 0;
            wanted.push_back(node);
          }
    tbb::parallel_for(std::size_t{0}, wanted.size(), [&](std::size_t i) {
      // Rounded to the safe side, towards 0; the sign is what decides.
      const double level = region_.level(point_of(wanted[i]));
      float rounded = static_cast<float>(level);
      if (std::abs(static_cast<double>(rounded)) > std::abs(level))
        rounded = std::nextafter(rounded, 0.0F);
      levels_[wanted[i]] = rounded;
    });
  }

  void cut_near_cells() {
    pieces_.resize(near_.size());
    tbb::parallel_for(std::size_t{0}, near_.size(), [&](std::size_t i) {
      const Cell cell = survey_.block.cell(near_[i]);
      for (std::size_t s = 0; s < lattice_.struts.size(); ++s) {
        const auto [from, to] = ends_of(cell, lattice_.struts[s]);
        const Vector start = point_of(from), end = point_of(to);
        const double from_level = static_cast<double>(levels_[from]), to_level = static_cast<double>(levels_[to]);
        const double length = (end - start).norm();
        if (from_level > 0 && to_level > 0 && from_level + to_level >= length)
          continue;
        const double diameter = checked_size(size_, 0.5 * (start + end));
        for (const KeptPart& part :
             region_.kept_parts(start, end, from_level, to_level, 0.5 * unseen_part * diameter))
          pieces_[i].push_back({static_cast<std::int32_t>(s), part});
      }
    });
  }

  std::int32_t node_number(std::size_t node) {
    if (numbers_[node] < 0) {
      numbers_[node] = static_cast<std::int32_t>(network_.body.nodes.size());
      const Vector point = point_of(node);
      const bool on_boundary = static_cast<double>(levels_[node]) > -3 * region_.grain(); // NaN far inside
      network_.body.nodes.push_back({point.x(), point.y(), point.z()});
      network_.places.push_back(on_boundary ? region_.boundary_at(point) : NodePlace::inside);
    }
    return numbers_[node];
  }

  std::int32_t cut_end(const Vector& point) {
    network_.body.nodes.push_back({point.x(), point.y(), point.z()});
    network_.places.push_back(region_.boundary_at(point));
    return static_cast<std::int32_t>(network_.body.nodes.size()) - 1;
  }

  void add(std::size_t cell, std::size_t strut, const KeptPart& part) {
    const auto [from, to] = ends_of(survey_.block.cell(cell), lattice_.struts[strut]);
    BodyStrut added;
    if (part.cut_from || part.cut_to) {
      const Vector start = point_of(from), along = point_of(to) - start;
      added.from = part.cut_from ? cut_end(start + part.from * along) : node_number(from);
      added.to = part.cut_to ? cut_end(start + part.to * along) : node_number(to);
    } else {
      added.from = node_number(from);
      added.to = node_number(to);
    }
    network_.body.struts.push_back(added);
    network_.origins.push_back(cell * lattice_.struts.size() + strut);
    network_.cut.push_back(part.cut_from || part.cut_to ? 1 : 0);
  }

  void reserve() {
    std::size_t struts = 0;
    for (const CellPlace place : survey_.places)
      struts += place == CellPlace::inside ? lattice_.struts.size() : 0;
    for (const auto& pieces : pieces_)
      struts += pieces.size();
    network_.body.struts.reserve(struts);
    network_.origins.reserve(struts);
    network_.cut.reserve(struts);
  }

  void assemble() {
    reserve();
    numbers_.assign(grid_.size(), -1);
    std::size_t next_near = 0;
    for (std::size_t cell = 0; cell < survey_.places.size(); ++cell) {
      if (survey_.places[cell] == CellPlace::inside)
        for (std::size_t s = 0; s < lattice_.struts.size(); ++s)
          add(cell, s, KeptPart{});
      else if (survey_.places[cell] == CellPlace::near_boundary)
        for (const Piece& piece : pieces_[next_near++])
          add(cell, std::size_t(piece.strut), piece.part);
    }
  }

  void set_radii() {
    StrutBody& body = network_.body;
    std::vector<double> radii(body.nodes.size());
    tbb::parallel_for(std::size_t{0}, radii.size(), [&](std::size_t node) {
      radii[node] = 0.5 * checked_size(size_, Vector(body.nodes[node].data()));
    });
    for (BodyStrut& strut : body.struts) {
      strut.from_radius = radii[std::size_t(strut.from)];
      strut.to_radius = radii[std::size_t(strut.to)];
    }
  }

  const LatticeFrame& frame_;
  const RepeatingStruts& lattice_;
  const CellSurvey& survey_;
  const InnerRegion& region_;
  const SizeAt& size_;
  NodeGrid grid_;
  std::vector<std::size_t> near_;
  std::vector<float> levels_; ///< of the nodes of near cells, NaN for others
  std::vector<std::vector<Piece>> pieces_;
  std::vector<std::int32_t> numbers_;
  StrutNetwork network_;
};

} // namespace

StrutNetwork strut_pieces(const LatticeFrame& frame, const RepeatingStruts& lattice, const CellSurvey& survey,
                          const InnerRegion& region, const SizeAt& size) {
  return Cutter(frame, lattice, survey, region, size).network();
}

} // namespace crushwright
