#pragma once
#include "crushwright/impact.hpp"

namespace crushwright {

/// Walks along one group's pieces with rising time.
class GroupReader {
public:
  explicit GroupReader(const GroupMotion& group) : group_(group) {}

  void go_to(double time) {
    parted_ = time >= group_.separation_time;
    if (parted_)
      return;
    while (piece_ + 1 < group_.pieces.size() && group_.pieces[piece_ + 1].start <= time)
      ++piece_;
    since_ = time - group_.pieces[piece_].start;
    further_ = group_.pieces[piece_].closing_after(since_, group_.moving_mass) - group_.pieces[piece_].closing;
  }
  /// δ' [m/s]
  double speed() const {
    return parted_ ? -group_.rebound_speed : group_.pieces[piece_].speed_after(since_, group_.moving_mass);
  }
  double force() const {
    return parted_ ? 0 : group_.pieces[piece_].force + group_.pieces[piece_].stiffness * further_;
  }
  /// Of a structure or an element of the group.
  double force_of(const std::vector<CrushPiece>& pieces) const {
    return parted_ ? 0 : pieces[piece_].force + pieces[piece_].slope * further_;
  }
  double crush_of(const std::vector<CrushPiece>& pieces, double lasting) const {
    return parted_ ? lasting : pieces[piece_].crush + pieces[piece_].rate * further_;
  }

private:
  const GroupMotion& group_;
  std::size_t piece_ = 0;
  double since_ = 0;
  double further_ = 0; ///< δ since the piece's start [m]
  bool parted_ = false;
};

} // namespace crushwright
