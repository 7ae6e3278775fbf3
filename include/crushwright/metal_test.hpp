#pragma once
#include "crushwright/coupon_series.hpp"

namespace crushwright {

/// One tension or compression test of the printed alloy, reduced after ISO 6892-1 (tension; memory) or its mirror in
/// compression. docs/method/metal_test.md.
struct MetalTest {
  SpecimenFacts facts;
  ConditionedTest test;
  std::optional<double> youngs_modulus;      ///< slope of the elastic part [Pa]; flagged doubtful by crosshead strain
  std::optional<double> proof_stress;        ///< 0.2 % [Pa]
  std::optional<double> ultimate_stress;     ///< tension: greatest engineering stress [Pa]
  std::optional<double> uniform_elongation;  ///< plastic strain at greatest force, tension [-]
  std::optional<double> fracture_elongation; ///< plastic strain at the end, tension [-]
  std::optional<double> hardening_coefficient, hardening_exponent; ///< K [Pa], n of σ = K ε^n, true, between 2 % (or
                                                                   ///< 0.2 × uniform) and uniform elongation
  std::optional<double> strain_rate; ///< [1/s]
  std::vector<std::string> warnings;
};

MetalTest reduce_metal_test(const TestRecord& record, TestKind kind);

/// Rate constants from proof or flow stresses at several rates.
struct RateFit {
  double reference_rate = 0;                                                  ///< of the slowest tests [1/s]
  double reference_stress = 0;                                                ///< [Pa]
  double johnson_cook_C = 0, johnson_cook_C_low = 0, johnson_cook_C_high = 0; ///< [-]
  std::optional<double> cowper_symonds_D, cowper_symonds_q; ///< [1/s], [-]; when at least three rates tell them
  double largest_miss = 0;                                  ///< of the better form [-]
  std::string refusal;                                      ///< why there is none; then the rest is 0
};

/// @param stresses  at each rate [Pa].  @param rates  [1/s], > 0; at least two different, a decade apart in all.
RateFit fitted_rate(const std::vector<double>& rates, const std::vector<double>& stresses);

struct MetalReport {
  std::string title, material, process;
  TestKind kind = TestKind::metal_tension;
  Source source;
  std::vector<MetalTest> tests;
  std::vector<PropertySummary> summaries;
  RateFit rate;
  std::vector<std::string> warnings;
};

MetalReport metal_report(const TestSeries& series);

} // namespace crushwright
