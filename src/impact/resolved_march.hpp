#pragma once
#include "crushwright/resolved_impact.hpp"
#include "impact/resolved_link.hpp"
#include "impact/resolved_recorder.hpp"

#include <vector>

namespace crushwright {

/// Chains side by side between the same two bodies, marched by velocity Verlet; docs/method/resolved_impact.md.
class ResolvedMarch {
public:
  /// @param share  of both bodies' masses.  @param bound  at the latest the run ends here [s].
  ResolvedMarch(const Body& striker, const Body& struck, double closing_speed,
                const std::vector<const Chain*>& chains, double share, double steps_per_period, double bound);

  void run();
  double smallest_step() const { return smallest_step_; }
  const EnergyLedger& ledger() const { return ledger_; }
  double momentum_residual() const { return momentum_residual_; } ///< [N s]
  std::vector<ResolvedChain> results() const;

private:
  struct ChainState {
    const Chain* chain = nullptr;
    std::vector<CrushLink> links;
    std::vector<double> mass;               ///< of the nodes [kg]; the last moves with the struck body
    std::vector<double> place, speed, rate; ///< of the nodes: [m] from their first place, [m/s], [m/s^2]
    std::vector<double> before;             ///< forces of the links at the step's start [N]
    bool joined = false;                    ///< the tip moves with the striker
    double work = 0, lost = 0, touch = 0, attachment = 0; ///< [J], [J], present end forces [N]
    double peak_crush = 0, last_crush = 0, transit = 0;
    MeanRecorder touch_record, attachment_record;
    std::vector<double> crush, first_collapse, half_used;
  };

  void add_chain(const Chain& chain, double start_speed);
  void find_step();
  void find_rates();
  double step_to_touch(double step) const;
  void advance(double step);
  void join_tips();
  void part_tips();
  void record(double step, const std::vector<std::pair<double, double>>& ends_before);
  bool all_parted() const;
  double momentum() const;
  void close_ledger();

  bool striker_held_, struck_held_;
  double striker_mass_, struck_mass_, steps_per_period_, bound_;
  double time_ = 0, step_ = 0, smallest_step_ = 0, transit_ = 0;
  double striker_place_ = 0, striker_speed_ = 0, striker_rate_ = 0;
  double struck_speed_ = 0, struck_rate_ = 0;
  double held_impulse_ = 0, start_momentum_ = 0, momentum_residual_ = 0;
  double plastic_time_ = 0, parted_time_ = 0;
  std::vector<ChainState> chains_;
  EnergyLedger ledger_;
};

} // namespace crushwright
