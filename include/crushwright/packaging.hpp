#pragma once
#include "crushwright/crush_curve.hpp"
#include "crushwright/envelope.hpp"

#include <array>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

namespace crushwright {

/// A side of a structure along which air flows, from the attachment to the struck end. Inner looks to the middle of
/// the car, outer away from it.
enum class FlowFace { lower, upper, inner, outer };
std::string_view name_of(FlowFace face);

/// A region that the structure must stay clear of: a closed surface in the structure's frame [m].
struct KeepOut {
  std::string id;
  TriangleMesh surface;
  double clearance = 0;                     ///< least that is asked before the crush [m]
  double clearance_after = 0;               ///< and after it [m]
  std::shared_ptr<const GeometryFile> file; ///< null for a box
};

/// What a case asks of the place of one structure.
struct PackagingInput {
  std::vector<FlowFace> flow_faces;
  double outer_side = 1;  ///< sign of the y that points away from the car's middle
  double ramp_limit = 0;  ///< beyond it attached flow is doubtful [rad]
  double ramp_length = 0; ///< over which a ramp's angle is taken [m], > 0
  std::vector<KeepOut> keep_outs;
};

/// How one flow face runs along the car's axis.
struct RampProfile {
  FlowFace face = FlowFace::lower;
  std::vector<double> station; ///< [m], rising; shape = (number of stations)
  /// How far the body reaches to this side of the structure's axis, the outermost place of each section [m].
  std::vector<double> reach;
  /// Over the ramp length about each station, cut off at the ends [rad]; positive where the face draws back from the
  /// flow, so that the body becomes narrower to the struck end.
  std::vector<double> angle;
  double steepest = 0; ///< greatest over any ramp length inside the body [rad]; may be below 0
  double from = 0;     ///< where that length begins, at the struck end's side [m]
};

/// Least distance between a structure and a keep-out.
struct Clearance {
  std::string keep_out;
  double value = 0;                     ///< [m]; below 0: how deep one lies in the other
  std::array<double, 3> on_structure{}; ///< where [m], structure's frame; on the striker's plane when that is nearer
  std::array<double, 3> on_keep_out{};
  bool struck = false; ///< the striker's plane has passed a part of the keep-out
};

/// Where the stations of a structure have gone when its layers have shortened: its attachment stays, every point
/// moves along the axis by the shortenings between it and the attachment. Nothing moves sideways.
class CrushedStations {
public:
  /// @param shortenings  of each layer [m]; shape = (number of layers)
  CrushedStations(const std::vector<Layer>& layers, const std::vector<double>& shortenings);
  double at(double station) const;                ///< [m]
  double crush() const { return moved_.front(); } ///< of the whole structure: the place of the striker's plane [m]

private:
  std::vector<double> stations_;
  std::vector<double> moved_;
};

/// One structure in the room that the car leaves it. Its shape does not change with what fills it, so one serves all
/// candidates of a search.
class Packaging {
public:
  /// @param layer_count  of the structure; points between the borders of two layers move together.
  Packaging(const Envelope& envelope, PackagingInput input, int layer_count);
  ~Packaging();
  Packaging(const Packaging&) = delete;
  Packaging& operator=(const Packaging&) = delete;

  const PackagingInput& input() const { return input_; }
  const SurfaceBounds& bounds() const { return bounds_; }
  double outer_volume() const { return outer_volume_; }                    ///< [m^3]
  const std::vector<RampProfile>& ramps() const { return ramps_; }         ///< as input().flow_faces
  const std::vector<Clearance>& clearances() const { return clearances_; } ///< before the crush, as input().keep_outs
  /// After the crush, as input().keep_outs: the smaller of the distances to the crushed body and ahead of the
  /// striker, a plane across the whole car at the struck end.
  std::vector<Clearance> clearances_after(const CrushedStations& crushed) const;
  Clearance clearance_after(std::size_t keep_out, const CrushedStations& crushed) const;

private:
  struct Trees;
  PackagingInput input_;
  SurfaceBounds bounds_;
  double outer_volume_ = 0;
  std::vector<RampProfile> ramps_;
  std::unique_ptr<const Trees> trees_;
  std::vector<Clearance> clearances_;
};

/// @param envelope     typed or sliced.
/// @param outer_side   as PackagingInput.   @param ramp_length  [m], > 0, at most the length.
/// @param steps        stations of the profile, less 1.
RampProfile ramp_profile(const Envelope& envelope, FlowFace face, double outer_side, double ramp_length,
                         int steps = 96);

} // namespace crushwright
