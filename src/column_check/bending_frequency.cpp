#include "column_check/service_beam.hpp"
#include "crushwright/column_check.hpp"
#include "crushwright/errors.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace crushwright {
namespace {

/// One layer as a piece of even beam with its mass in the middle.
struct Piece {
  double length;         ///< [m]
  double mass;           ///< [kg]
  double rotary;         ///< mass second moment about the section's axis [kg m^2]
  double bending;        ///< E I [N m^2]
  double shear;          ///< k G A [N]
  double deflection = 1; ///< of its middle
  double rotation = 0;   ///< of its middle
};

std::vector<Piece> pieces_of(const BeamColumn& column, Bending axis) {
  std::vector<Piece> pieces;
  double from = 0;
  for (std::size_t i = 0; i + 1 < column.sections.size(); ++i) {
    const BeamSection& section = column.sections[i];
    const double length = 2 * (section.station - from);
    const double per_length =
        section.lattice.density * section.lattice_area + section.skin.density * section.skin_area;
    const double rotary = section.lattice.density * section.lattice_second_moment[axis] +
                          section.skin.density * section.skin_second_moment[axis];
    pieces.push_back({length, per_length * length, rotary * length, section.elastic_bending(axis),
                      shear_stiffness(section, axis)});
    if (!(length > 0 && pieces.back().bending > 0 && pieces.back().shear > 0))
      throw OutOfDomain("a section of the structure has no length or no stiffness, so that it has no frequency");
    from += length;
  }
  if (pieces.empty())
    throw OutOfDomain("a structure without sections has no frequency");
  return pieces;
}

/// Half of a piece, from the root's side to the tip's, under a moment that is linear along it.
void advance(const Piece& piece, double moment, double shear, double& rotation, double& deflection) {
  const double length = piece.length / 2;
  const double moment_after = moment - shear * length;
  deflection += rotation * length + length * length / piece.bending * (moment / 3 + moment_after / 6) +
                shear * length / piece.shear;
  rotation += 0.5 * (moment + moment_after) * length / piece.bending;
}

/// One step of Stodola's iteration: deflections under the inertia forces of the last ones.
/// @return the square of the circular frequency, by Rayleigh's quotient.
double step(std::vector<Piece>& pieces, double tip_mass, double& tip_deflection) {
  double shear = tip_mass * tip_deflection, moment = 0;
  for (const Piece& piece : pieces) {
    moment += shear * piece.length + piece.mass * piece.deflection * piece.length / 2 + piece.rotary * piece.rotation;
    shear += piece.mass * piece.deflection;
  }
  double rotation = 0, deflection = 0, work = 0, energy = 0;
  for (auto piece = pieces.rbegin(); piece != pieces.rend(); ++piece) {
    const double force = piece->mass * piece->deflection, couple = piece->rotary * piece->rotation;
    advance(*piece, moment, shear, rotation, deflection);
    moment -= shear * piece->length / 2 + couple;
    shear -= force;
    work += force * deflection + couple * rotation;
    energy += piece->mass * deflection * deflection + piece->rotary * rotation * rotation;
    piece->deflection = deflection;
    piece->rotation = rotation;
    advance(*piece, moment, shear, rotation, deflection);
    moment -= shear * piece->length / 2;
  }
  work += tip_mass * tip_deflection * deflection;
  energy += tip_mass * deflection * deflection;
  tip_deflection = deflection;
  return work / energy;
}

double frequency(const BeamColumn& column, Bending axis) {
  std::vector<Piece> pieces = pieces_of(column, axis);
  double tip = 1, last = 0, square = 0;
  constexpr int most_steps = 60;
  constexpr double settled = 1e-12;
  for (int i = 0; i < most_steps; ++i) {
    square = step(pieces, column.tip_mass, tip);
    for (Piece& piece : pieces) {
      piece.deflection /= tip;
      piece.rotation /= tip;
    }
    tip = 1;
    if (std::abs(square - last) <= settled * square)
      break;
    last = square;
  }
  if (!(square > 0) || !std::isfinite(square))
    throw OutOfDomain("a structure without mass has no frequency");
  return std::sqrt(square) / (2 * std::numbers::pi);
}

} // namespace

double bending_frequency(const BeamColumn& column) {
  return std::min(frequency(column, about_vertical), frequency(column, about_lateral));
}

} // namespace crushwright
