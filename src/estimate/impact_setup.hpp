#pragma once
#include "crushwright/estimate.hpp"
#include "estimate/side_setting.hpp"

#include <array>
#include <string>
#include <vector>

namespace crushwright {

/// What of one impact stays the same in all its runs: how its face meets the structures, what stands in series with
/// them, and what both make of the structures' curves.
class ImpactSetup {
public:
  ImpactSetup(const ImpactInput& impact, const std::vector<StructureModel>& structures);
  ImpactSetup(const ImpactSetup&) = delete; // the elements point into the curves
  ImpactSetup& operator=(const ImpactSetup&) = delete;

  /// One per structure, in their order; empty without a face.
  const std::vector<Contact>& contacts() const { return contacts_; }

  /// Why no number of this impact could be trusted, in a sentence; empty when there is none: nothing is struck, or
  /// the striker is lighter than what it hits.
  const std::string& obstacle() const { return obstacle_; }
  /// What must be known beside the numbers: how the face meets the tips, a light striker.
  const std::vector<std::string>& notes() const { return notes_; }
  bool nothing_is_struck() const { return nothing_is_struck_; }

  /// Whether the impact must settle the structures itself: rate laws, an oblique force, a face that meets a tip in
  /// part, an attachment whose capacity ends the stroke.
  bool needs_own_curves() const { return needs_own_curves_; }

  /// On a structure's crush force, from the force's angle and the part of the tip that the face covers [-].
  double force_factor(std::size_t structure, Side side) const;

  /// Closing speed and mass for the strain rates of a structure [m/s], [kg].
  double speed() const { return speed_; }
  double moving_mass(std::size_t structure) const { return moving_masses_[structure]; }

  /// Angle of the force to the crush axis that a side takes [rad]: the far end where it weakens, the near where it
  /// strengthens.
  double force_angle(Side side) const;

  /// The lines of force of a run. @param curves  one per structure, in their order.
  std::vector<Group> groups(const std::vector<const CrushCurve*>& curves, Side side) const;

  /// Capacity of a structure's attachment on a side [N]; infinity without one.
  double attachment_capacity(std::size_t structure, Side side) const;

private:
  void find_contacts();
  void find_obstacle();
  void weigh_striker();
  void find_series();
  void find_masses();

  const ImpactInput& impact_;
  const std::vector<StructureModel>& structures_;
  std::vector<Contact> contacts_;
  std::array<SeriesCurves, 3> series_; ///< by Side
  std::vector<double> moving_masses_;
  double speed_ = 0;
  std::string obstacle_;
  std::vector<std::string> notes_;
  bool nothing_is_struck_ = false;
  bool needs_own_curves_ = false;
};

} // namespace crushwright
