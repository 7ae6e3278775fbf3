#include "printability/body_points.hpp"
#include "printability/build_cost.hpp"
#include "printability/build_fit.hpp"
#include "printability/direction_search.hpp"
#include "printability/print_subject.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>

namespace crushwright {
namespace {

/// Pieces and their heights of a subject in one direction.
std::vector<double> piece_heights(const std::vector<BuildPiece>& pieces) {
  std::vector<double> heights;
  for (const BuildPiece& piece : pieces)
    heights.push_back(piece.height);
  return heights;
}

double effort_of(const BuildWork& work, const PrintingInput& printing) {
  if (printing.rates && !work.heights.empty())
    return build_time(work, *printing.rates);
  double tallest = 0;
  for (const double height : work.heights)
    tallest = std::max(tallest, height);
  return tallest;
}

/// Strut length by direction: a lattice has millions of struts and a handful of directions.
class StrutDirections {
public:
  explicit StrutDirections(const StrutBody& body) {
    for (const BodyStrut& strut : body.struts) {
      const Vector along = minus(body.nodes.at(static_cast<std::size_t>(strut.to)),
                                 body.nodes.at(static_cast<std::size_t>(strut.from)));
      const double length = norm(along);
      if (length > 0)
        add(scaled(along, 1 / length), length);
    }
  }

  LatticeSupport support(const Vector& direction, double angle) const {
    constexpr double same_sine = 1e-9;
    LatticeSupport found;
    for (const auto& [key, bin] : bins_) {
      found.whole += bin.length;
      if (std::abs(dot(bin.way, direction)) < std::sin(angle) - same_sine)
        found.unsupported += bin.length;
    }
    return found;
  }

private:
  struct Bin {
    Vector way;
    double length = 0;
  };
  std::map<std::array<int, 3>, Bin> bins_;

  void add(Vector way, double length) {
    constexpr double steps = 1000; // a bin is 0.06 degrees wide
    std::array<int, 3> key{};
    for (std::size_t i = 0; i < 3; ++i)
      key[i] = static_cast<int>(std::lround(steps * way[i]));
    if (key < std::array<int, 3>{0, 0, 0})
      for (std::size_t i = 0; i < 3; ++i) {
        key[i] = -key[i];
        way[i] = -way[i];
      }
    Bin& bin = bins_.emplace(key, Bin{way, 0}).first->second;
    bin.length += length;
  }
};

} // namespace

BestDirection best_direction(const PrintSubject& subject, const PrintingInput& printing) {
  PreparedSubject ready = prepared(subject, printing);
  const double angle = printing.machine.self_supporting_angle.value;
  TriangleMesh hull;
  hull.points = outermost(ready.outer.points);
  // More pieces than in a direction tried before make no direction better, so they are not looked for.
  int fewest = most_pieces;
  return least_trouble([&](const BuildDirection& direction) {
    std::vector<BuildPiece> pieces;
    const Placement whole = placement_of(hull.points, direction, printing.machine.build_volume);
    if (whole.fits)
      pieces = {whole.piece};
    else
      pieces = pieces_that_fit(*subject.envelope, ready.outer, direction, printing.machine.build_volume, fewest);
    if (!pieces.empty())
      fewest = std::min(fewest, static_cast<int>(pieces.size()));
    DirectionTrouble trouble;
    trouble.pieces = pieces.empty() ? std::numeric_limits<double>::infinity() : static_cast<double>(pieces.size());
    trouble.unsupported = unsupported_share(lattice_support(ready, direction, angle, false),
                                            overhang_of(ready.shell, direction, angle));
    trouble.stands = stands_on_base(hull.points, direction);
    trouble.effort = effort_of({piece_heights(pieces), subject.volume, subject.mass, subject.surface}, printing);
    return trouble;
  });
}

BestDirection best_direction(const PrintedBody& body, const PrintingInput& printing) {
  const double angle = printing.machine.self_supporting_angle.value;
  const std::vector<Vector> outer = outermost(extreme_points(body, {1, 0, 0}));
  const StrutDirections struts(body.struts == nullptr ? StrutBody{} : *body.struts);
  return least_trouble([&](const BuildDirection& direction) {
    const Placement placement = placement_of(outer, direction, printing.machine.build_volume);
    DirectionTrouble trouble;
    trouble.pieces = placement.fits ? 1 : 2;
    trouble.unsupported =
        unsupported_share(struts.support(direction, angle),
                          body.surface == nullptr ? Overhang{} : overhang_of(*body.surface, direction, angle));
    trouble.stands = stands_on_base(outer, direction);
    trouble.effort = effort_of({{placement.piece.height}, body.volume, body.mass, body.metal_surface}, printing);
    return trouble;
  });
}

} // namespace crushwright
