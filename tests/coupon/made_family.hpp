#pragma once
#include "crushwright/test_record.hpp"

#include <algorithm>
#include <cmath>
#include <random>
#include <string>

/// Tests of one invented lattice at several densities whose laws are known exactly: plateau, modulus and efficiency
/// strain follow them but for a stated scatter from specimen to specimen. The record then gets what real ones have: a
/// quiet stretch with a load zero that is off, a seating toe, a machine's compliance, an unload loop, noise.
namespace made_family {

struct Family {
  double proof_stress = 250e6, youngs_modulus = 70e9, solid_density = 2670; // of the invented base material
  double strength_coefficient = 0.60, strength_exponent = 1.70;
  double stiffness_coefficient = 0.80, stiffness_exponent = 2.0;                    // of unloading
  double intercept = 0.80, slope = 0.90;                                            // of the efficiency strain
  double strength_scatter = 0.06, stiffness_scatter = 0.08, strain_scatter = 0.012; // the last in strain
  double noise = 5e-4;                                                              // over the plateau stress
  double toe = 0.012, approach = 0.01, zero = 0.03; // strain, strain, over the plateau stress
  double machine_compliance = 5e-9;                 // [m/N]
  double edge = 0.020;
  int points = 300;
};

/// The true numbers of one specimen.
struct Truth {
  double plateau_stress = 0, modulus = 0, efficiency_strain = 0;
};

inline Truth truth_of(const Family& family, double density, std::mt19937_64& random, double strength_scatter) {
  std::normal_distribution<double> normal;
  Truth truth;
  truth.plateau_stress = family.proof_stress * family.strength_coefficient *
                         std::pow(density, family.strength_exponent) * std::exp(strength_scatter * normal(random));
  truth.modulus = family.youngs_modulus * family.stiffness_coefficient *
                  std::pow(density, family.stiffness_exponent) * std::exp(family.stiffness_scatter * normal(random));
  truth.efficiency_strain = family.intercept - family.slope * density + family.strain_scatter * normal(random);
  return truth;
}

/// Straight rise to s at strain e, then s (1 + (strain/c)^p): the curve whose efficiency is greatest exactly at the
/// truth's strain and whose mean from 20 to 40 % is exactly its plateau.
struct Curve {
  static constexpr double power = 16;
  double stress = 0, rise = 0, scale = 0;

  Curve(const Truth& truth, double rise_strain) : rise(rise_strain) {
    // With u = (strain/c)^p and d = rise/(2 strain), W/sigma is stationary where
    // (1 + u)^2 = p u (1 - d + u/(p + 1)), which is quadratic in u.
    const double d = rise / (2 * truth.efficiency_strain);
    const double a = 1 - power / (power + 1);
    const double b = 2 - power * (1 - d);
    const double u = (-b - std::sqrt(b * b - 4 * a)) / (2 * a);
    scale = truth.efficiency_strain * std::pow(u, -1 / power);
    const auto integral = [this](double strain) {
      return strain * (1 + std::pow(strain / scale, power) / (power + 1));
    };
    stress = truth.plateau_stress * 0.2 / (integral(0.4) - integral(0.2));
  }
  double operator()(double strain) const {
    double branch = strain / scale;
    for (int doubled = 1; doubled < 16; doubled *= 2) {
      branch *= branch;
    }
    const double flat = stress * (1 + branch);
    return strain < rise ? flat * strain / rise : flat;
  }
};

/// Writes a record sample by sample as a machine would see it.
class Machine {
public:
  Machine(const Family& family, const Truth& truth, std::mt19937_64& random)
      : family_(family), truth_(truth), random_(random) {}

  void reads(double strain, double stress) {
    const double area = family_.edge * family_.edge;
    greatest_ = std::max(greatest_, stress); // what is crushed flat at the faces stays flat
    const double seated = family_.toe * (1 - std::exp(-greatest_ / (0.04 * truth_.plateau_stress)));
    const double force = stress * area;
    const double seen = force + (family_.zero + family_.noise * normal_(random_)) * truth_.plateau_stress * area;
    record.points.push_back({(family_.approach + seated + strain) * family_.edge + family_.machine_compliance * force,
                             seen, 0, record.points.size() + 2});
  }
  void before_contact(int count) {
    const double area = family_.edge * family_.edge;
    for (int i = 0; i < count; ++i) {
      const double seen = (family_.zero + family_.noise * normal_(random_)) * truth_.plateau_stress * area;
      record.points.push_back({family_.approach * i / count * family_.edge, seen, 0, record.points.size() + 2});
    }
  }
  crushwright::TestRecord record;

private:
  const Family& family_;
  const Truth& truth_;
  std::mt19937_64& random_;
  std::normal_distribution<double> normal_;
  double greatest_ = 0;
};

inline crushwright::TestRecord record_of(const Family& family, double density, const Truth& truth,
                                         const std::string& id, std::mt19937_64& random) {
  Machine machine(family, truth, random);
  const Curve curve(truth, 0.025);
  const double end = truth.efficiency_strain + 0.08;
  constexpr double loop_at = 0.08;
  bool unloaded = false;
  machine.before_contact(16);
  for (int i = 0; i < family.points; ++i) {
    // Closer in the rise and about the efficiency strain than between: a tenth of the points lie in the rise.
    const double share = static_cast<double>(i) / (family.points - 1);
    const double strain = share < 0.1 ? 0.03 * share / 0.1 : 0.03 + (end - 0.03) * (share - 0.1) / 0.9;
    machine.reads(strain, curve(strain));
    if (strain > loop_at && !unloaded) {
      unloaded = true;
      for (int j = 1; j <= 16; ++j) {
        const double left = 1 - 0.9 * (j <= 8 ? j : 16 - j) / 8.0;
        machine.reads(strain - curve(strain) * (1 - left) / truth.modulus, curve(strain) * left);
      }
    }
  }
  machine.record.file_name = "made.csv";
  machine.record.specimen.id = id;
  machine.record.specimen.area = family.edge * family.edge;
  machine.record.specimen.height = family.edge;
  machine.record.specimen.mass = density * family.solid_density * family.edge * family.edge * family.edge;
  machine.record.specimen.machine_compliance = family.machine_compliance;
  return machine.record;
}

} // namespace made_family
