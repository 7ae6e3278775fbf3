#pragma once
#include "crushwright/coupon.hpp"
#include "crushwright/sample_statistics.hpp"
#include "crushwright/test_record.hpp"

#include <optional>
#include <string>
#include <vector>

namespace crushwright {

/// An unloading and reloading inside a test: where it lies and what it says.
struct UnloadLoop {
  double strain = 0;   ///< where unloading began [-]
  double depth = 0;    ///< share of the stress taken off [-]
  double gradient = 0; ///< secant between the loop's stress limits, the elastic gradient of ISO 13314 [Pa]
  std::size_t first_line = 0, last_line = 0;
};

/// A record made into one stress-strain curve whose strain rises; docs/method/conditioning.md.
struct ConditionedTest {
  std::string specimen;
  StressStrain curve;               ///< strain from the foot of the quasi-elastic line on, compliance taken off
  std::vector<UnloadLoop> loops;    ///< cut out of the curve
  double toe_strain = 0;            ///< taken off at the start [-]
  double compliance_strain = 0;     ///< greatest strain taken off for the machine [-]
  std::vector<std::string> remarks; ///< what was done, with lines
};

/// Steps in this order: stress and strain from the specimen's area and height; sign; zero of the load from a quiet
/// stretch before contact; machine compliance; repeated and falling samples (unload loops cut and kept, jitter
/// merged); end of the test cut where the load falls for good; toe taken off by the line through the quasi-elastic
/// part. A record of stretching is conditioned alike.
/// @throws InputError naming the file and line when area or height is missing, a compliance is impossible, strain
/// falls
///         without the load, a loop does not close, the toe is over 20 % strain, or fewer than ten points are left.
ConditionedTest conditioned(const TestRecord& record);

/// One condition of ISO 13314 (memory; the porosity from its scope, read) on specimen and test: what was found and
/// what the standard asks.
struct TestCondition {
  std::string what;          ///< "height over width", "cells along the shortest edge", "strain rate", ...
  std::string found;         ///< "1.0", or "not stated"
  std::string asked;         ///< "1 to 2"
  std::optional<bool> holds; ///< absent: cannot be told
};

/// One specimen of a lattice compression test, reduced.
struct ReducedSpecimen {
  SpecimenFacts facts;
  ConditionedTest test;
  CompressionQuantities quantities;       ///< reduce_compression_test of the conditioned curve
  std::optional<double> elastic_gradient; ///< of the first unload loop [Pa]
  std::optional<double> offset_stress;    ///< compressive proof stress at 1 % plastic strain by that gradient, else
                                          ///< by the quasi-elastic one [Pa]
  bool offset_by_unloading = false;
  std::optional<double> relative_density; ///< stated, or weighed over the solid's density [-]
  std::optional<double> specific_energy;  ///< to the efficiency strain, over mass [J/kg]
  std::vector<TestCondition> conditions;
  std::vector<std::string> warnings;
};

/// @param solid_density  of the base material [kg/m^3]; absent: no relative density from a mass.
/// @throws InputError as conditioned(), and when the test ends before the plateau window does.
ReducedSpecimen reduce_specimen(const TestRecord& record, std::optional<double> solid_density, double plateau_from,
                                double plateau_to);

/// One property over all specimens of one density.
struct PropertySummary {
  std::string property; ///< "plateau stress", "efficiency strain", ...
  std::string unit;     ///< SI
  SampleSummary summary;
  std::vector<std::size_t> outliers;                   ///< indices into the series' specimens
  std::optional<double> claimable_low, claimable_high; ///< mean -+ k s (one-sided, population 90 %, confidence 95 %)
  double factor = 0;                                   ///< that k [-]; 0 when there is none
};

/// A law fitted to the specimens of several densities, weighted by the scatter at each density where there are three
/// specimens or more at all of them; docs/method/coupon.md. Of stress and gradient: ln y = ln C + m ln ρ̄, y over the
/// base material's proof stress or Young's modulus. Of the efficiency strain: ε = a - b ρ̄, with a in `coefficient`
/// and b >= 0 in `exponent`; a may come out above 1.
struct MeasuredLaw {
  std::string property;
  std::optional<LineFit> line;          ///< of the logarithms, or of ε over ρ̄; absent when refused or assumed
  double coefficient = 0, exponent = 0; ///< C, m [-]; or a, b
  double coefficient_low = 0, coefficient_high = 0;
  double exponent_low = 0, exponent_high = 0;
  bool exponent_assumed = false;            ///< one density: C from the tests, m as told
  double scatter = 0;                       ///< coefficient of variation about the law, mean over the densities [-]
  double leave_one_out_error = 0;           ///< relative, root mean square [-]
  double density_low = 0, density_high = 0; ///< [-]
  std::string refusal;                      ///< why there is no law; empty otherwise
};

/// Values of the base material that laws are set over; absent ones leave their laws out, with the reason.
struct BaseValues {
  std::optional<double> density;        ///< [kg/m^3]
  std::optional<double> youngs_modulus; ///< [Pa]
  std::optional<double> proof_stress;   ///< [Pa]
};

/// Everything a series of lattice coupons says.
struct CouponReport {
  std::string title, cell, direction, material, process;
  Source source;
  double plateau_from = 0.20, plateau_to = 0.40;
  std::optional<double> proof_stress; ///< that stresses are set over [Pa]
  std::vector<ReducedSpecimen> specimens;
  std::vector<PropertySummary> summaries; ///< over all specimens when they are of one density, else of the residuals'
                                          ///< groups, densities within 2 % of each other; group named in `property`
  std::vector<MeasuredLaw> laws;          ///< plateau stress, quasi-elastic gradient, densification
  std::vector<std::string> warnings;
};

/// @param strength_exponent  m for a plateau law when all specimens have one density (of the cell's best other law);
///        absent: no law then.  @throws InputError when the series holds no lattice compression tests or one record
///        cannot be conditioned.
CouponReport coupon_report(const TestSeries& series, const BaseValues& base,
                           std::optional<double> strength_exponent = std::nullopt);

} // namespace crushwright
