#pragma once
#include "crush_curve/test_layers.hpp"
#include "crushwright/impact.hpp"

#include <cmath>
#include <string>

// Impacts simple enough for closed forms.
namespace test_impacts {

using crushwright::Body;
using crushwright::CrushCurve;
using crushwright::Group;
using crushwright::ImpactMotion;

inline constexpr double standard_gravity = 9.80665;
inline constexpr double kilometre_per_hour = 1 / 3.6;

inline Body wall() {
  return {"wall", 0, true};
}
inline Body body(double mass) {
  return {"body", mass, false};
}

/// One force at any crush, rigid-plastic, without end.
inline CrushCurve constant_force(double force) {
  return test_layers::polyline({{0, force}, {10, force}});
}

/// Elastic to a force, then constant; unloads with the stiffness it loaded with.
inline CrushCurve elastic_plastic(double stiffness, double force) {
  return test_layers::polyline({{0, 0}, {force / stiffness, force}, {10, force}}, stiffness);
}

/// Elastic-plastic block that gives back a stated coefficient of restitution: it leaves at v' = F / √(k μ).
inline CrushCurve block_with_restitution(double force, double restitution, double closing_speed, double effective) {
  return elastic_plastic(std::pow(force / (restitution * closing_speed), 2) / effective, force);
}

/// A structure with a share of its own.
inline Group alone(const std::string& structure, const CrushCurve& curve, double share = 1) {
  crushwright::Line line;
  line.structure = structure;
  line.curve = &curve;
  return {share, {line}};
}

inline ImpactMotion hit(const Body& striker, const Body& struck, double closing_speed, const CrushCurve& curve) {
  return integrate_impact(striker, struck, closing_speed, {alone("block", curve)});
}

/// Many points, a first peak, a valley, a plateau that rises and a lock.
inline CrushCurve lattice_like() {
  return test_layers::polyline({{0, 0},
                                {0.004, 62e3},
                                {0.016, 41e3},
                                {0.060, 43e3},
                                {0.110, 52e3},
                                {0.150, 60e3},
                                {0.180, 95e3},
                                {0.195, 260e3},
                                {0.205, 900e3}},
                               20e6);
}

} // namespace test_impacts
