#include "estimate/side_setting.hpp"

#include <algorithm>
#include <boost/math/distributions/normal.hpp>
#include <cmath>

namespace crushwright {
namespace {

/// Independent scatters on the crush force, each weighted with the share of the force that it acts on, times how far
/// a side stands off.
struct WeightedScatters {
  double law;
  double build;
  double skin;
  double combined() const { return std::sqrt(law * law + build * build + skin * skin); }
  double stacked() const { return law + build + skin; }
};

/// What a scatter is multiplied by: the normal quantile when it is known, a tolerance factor when it was counted.
double distance(const CountedScatter& counted, double quantile) {
  return counted.factor > 0 ? counted.factor : quantile;
}

WeightedScatters weighted(const StructureModel& structure, const ScatterSet& scatter, double quantile) {
  return {distance(scatter.counted_law, quantile) * structure.lattice_share * log_deviation(scatter.law.value),
          distance(scatter.counted_build, quantile) * log_deviation(scatter.build.value),
          distance(scatter.counted_skin, quantile) * (1 - structure.lattice_share) *
              log_deviation(scatter.skin.value)};
}

double interaction(const StructureModel& structure, const ScatterSet& scatter, Side side) {
  if (!structure.filled_skin)
    return 1;
  if (side == Side::weak)
    return scatter.interaction.low_end();
  if (side == Side::nominal)
    return scatter.interaction.value;
  // Untested, the force check takes the interaction law where that is more than the range; the user's own tests
  // replace both.
  const double high = scatter.interaction.high_end();
  return scatter.interaction_tested ? high : std::max(high, structure.interaction_law);
}

/// Struts that break instead of folding take force from the weak side alone.
double left_by_fracture(const StructureModel& structure, Side side) {
  return side == Side::weak ? 1 - structure.lattice_share * (1 - structure.fracture_low) : 1;
}

double rate(const StructureModel& structure, Side side) {
  return side == Side::weak     ? structure.rate_low
         : side == Side::strong ? structure.rate_high
                                : structure.rate_nominal;
}

} // namespace

const std::array<SideSetting, setting_count>& side_settings() {
  static constexpr std::array<SideSetting, setting_count> settings{
      SideSetting{Side::nominal, false, Densification::nominal},
      SideSetting{Side::weak, false, Densification::early},
      SideSetting{Side::weak, false, Densification::late},
      SideSetting{Side::strong, false, Densification::early},
      SideSetting{Side::strong, false, Densification::late},
      SideSetting{Side::weak, true, Densification::early},
      SideSetting{Side::weak, true, Densification::late},
      SideSetting{Side::strong, true, Densification::early},
      SideSetting{Side::strong, true, Densification::late}};
  return settings;
}

double log_deviation(double coefficient_of_variation) {
  return std::sqrt(std::log1p(coefficient_of_variation * coefficient_of_variation));
}

SideFactors side_factors(const StructureModel& structure, const ScatterSet& scatter, double level,
                         const SideSetting& setting) {
  const double fixed = interaction(structure, scatter, setting.side) * rate(structure, setting.side) *
                       left_by_fracture(structure, setting.side);
  if (setting.side == Side::nominal)
    return {fixed, 1};
  const double quantile = boost::math::quantile(boost::math::normal(), level);
  const WeightedScatters scatters = weighted(structure, scatter, quantile);
  const double sign = setting.side == Side::weak ? -1 : 1;
  const double log_force = sign * (setting.stacked ? scatters.stacked() : scatters.combined());
  const double log_crush = (setting.densification == Densification::early ? -1 : 1) *
                           distance(scatter.counted_efficiency_strain, quantile) *
                           log_deviation(scatter.efficiency_strain.value);
  return {fixed * std::exp(log_force), std::exp(log_crush)};
}

} // namespace crushwright
