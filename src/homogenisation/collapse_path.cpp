#include "homogenisation/collapse_path.hpp"

#include "homogenisation/collapse_mechanism.hpp"
#include "homogenisation/limit_analysis.hpp"

#include <Eigen/Geometry>
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace crushwright {
namespace {

/// Upper over lower bound, less 1, beyond which a step counts as not solved.
constexpr double widest_gap = 0.05;

/// Bounds are closed further than for a collapse load, since a strut's bow grows by the turn of its hinges, to which
/// the load is blind to first order.
constexpr double path_gap = 0.001;

/// Towards where a strut bows: along the crush direction as far as that lies across the strut.
Eigen::Vector3d bow_of(const Eigen::Vector3d& axis, const Eigen::Vector3d& direction) {
  const Eigen::Vector3d across = direction - direction.dot(axis) * axis;
  return across.norm() > 0.05 ? across.normalized() : axis.unitOrthogonal();
}

/// No two printed struts bow alike. Equal bows would let a symmetric cell stay symmetric, at a load above that of its
/// first uneven mechanism; numbers spread evenly over 0.75 to 1.25 (multiples of the golden section) take that away.
double share_of_bow(std::size_t place) {
  return 0.75 + 0.5 * std::fmod(0.6180339887 * static_cast<double>(place), 1.0);
}

/// Gradient of velocity of the period: its strain with the rotation that keeps planes across the direction so.
Eigen::Matrix3d velocity_gradient(const Voigt& strain, const Eigen::Vector3d& direction) {
  Eigen::Matrix3d symmetric;
  symmetric << strain[0], 0.5 * strain[5], 0.5 * strain[4], 0.5 * strain[5], strain[1], 0.5 * strain[3],
      0.5 * strain[4], 0.5 * strain[3], strain[2];
  const Eigen::Vector3d along = symmetric * direction;
  const Eigen::Vector3d slide = along - direction.dot(along) * direction;
  return symmetric + slide * direction.transpose() - direction * slide.transpose();
}

/// The frame after `duration` of the motion of a mechanism that was found for the frame `at`.
HingedFrame moved(const HingedFrame& frame, const HingedFrame& at, const CollapseMechanism& mechanism,
                  const Eigen::Vector3d& direction, double duration) {
  HingedFrame next = frame;
  const Eigen::Matrix3d gradient = velocity_gradient(mechanism.strain, direction);
  const Eigen::Vector3d whole(0.5 * (gradient(2, 1) - gradient(1, 2)), 0.5 * (gradient(0, 2) - gradient(2, 0)),
                              0.5 * (gradient(1, 0) - gradient(0, 1)));
  next.periods += duration * gradient * at.periods;
  std::vector<Eigen::Matrix3d> turn;
  for (std::size_t node = 0; node < frame.nodes.size(); ++node) {
    next.nodes[node] += duration * (mechanism.velocity[node] + gradient * at.nodes[node]);
    const Eigen::Vector3d angle = duration * (mechanism.spin[node] + whole);
    const double size = angle.norm();
    turn.push_back(size > 0 ? Eigen::AngleAxisd(size, angle / size).toRotationMatrix()
                            : Eigen::Matrix3d(Eigen::Matrix3d::Identity()));
  }
  for (HingedStrut& strut : next.struts) {
    strut.from_arm = turn[static_cast<std::size_t>(strut.from)] * strut.from_arm;
    strut.to_arm = turn[static_cast<std::size_t>(strut.to)] * strut.to_arm;
  }
  return next;
}

std::vector<double> clear_lengths(const HingedFrame& frame) {
  std::vector<double> lengths;
  for (const HingedStrut& strut : frame.struts) {
    lengths.push_back(frame.clear_span(strut).norm());
  }
  return lengths;
}

/// A frame on its way: struts that yield along their axis keep their volume.
// A path shorter than this says nothing of a plateau.
constexpr double least_path = 0.1;

class Crushing {
public:
  Crushing(const HingedFrame& frame, const Eigen::Vector3d& direction, const PathOptions& options)
      : first_(with_middles(frame, direction, options.waviness)), now_(first_), direction_(direction),
        options_(options), first_length_(clear_lengths(first_)), length_(first_length_) {
    mechanism_ = mechanism_of(now_);
    path_.strain.push_back(0);
    path_.stress.push_back(stress_of(now_));
  }

  CollapsePath run() {
    double work = 0;
    // Strains closer than this are one.
    const double end = options_.end * (1 - 1e-9);
    double reached = 0;
    try {
      while (strain_ < end) {
        const double step = advance(step_length());
        work += path_.stress.back() * step;
        reached = strain_;
      }
      mechanism_ = mechanism_of(now_);
      path_.strain.push_back(strain_);
      path_.stress.push_back(stress_of(now_));
    } catch (const NoMechanism&) {
      // Thick struts on short clear spans shrink to nothing before the end: the path stops where it still has a
      // meaning.
      if (reached < least_path) {
        throw;
      }
    }
    path_.mean_stress = work / reached;
    return path_;
  }

private:
  CollapseMechanism mechanism_of(const HingedFrame& frame) {
    CollapseMechanism mechanism = collapse_mechanism(frame, axial_stress(direction_), {.gap = path_gap});
    const double gap = mechanism.upper / mechanism.lower - 1;
    if (!(gap < widest_gap)) {
      throw NoMechanism(fmt::format("collapse stress between {} and {} at strain {}: the bounds do not close",
                                    mechanism.lower, mechanism.upper, strain_));
    }
    path_.greatest_gap = std::max(path_.greatest_gap, gap);
    return mechanism;
  }

  /// Present height over the first.
  double height() const { return 1 - strain_; }

  double stress_of(const HingedFrame& frame) const {
    return mechanism_.upper * frame.volume() / (first_.volume() * height());
  }

  double step_length() const {
    const double by_turn = options_.largest_turn / std::max(mechanism_.fastest_turn, 1e-6) * height();
    const double left = options_.end - strain_;
    const double step = std::min({options_.step, by_turn, left});
    return left - step < 0.1 * step ? left : step;
  }

  /// The rule of the middle: the last mechanism leads half a step ahead, and the one found there makes the whole
  /// step.
  double advance(double step) {
    const HingedFrame start = now_;
    const double ahead = 0.5 * step / height();
    HingedFrame middle = moved(start, start, mechanism_, direction_, ahead);
    set_radii(middle, ahead);
    strain_ += 0.5 * step;
    mechanism_ = mechanism_of(middle);
    path_.strain.push_back(strain_);
    path_.stress.push_back(stress_of(middle));
    const double duration = step / height();
    now_ = moved(start, middle, mechanism_, direction_, duration);
    strain_ += 0.5 * step;
    for (std::size_t k = 0; k < length_.size(); ++k) {
      length_[k] += duration * mechanism_.stretch[k];
    }
    set_radii(now_, 0);
    note_length_error();
    return step;
  }

  /// Volume over length, `ahead` of the motion so far.
  void set_radii(HingedFrame& frame, double ahead) const {
    for (std::size_t k = 0; k < length_.size(); ++k) {
      const double length = length_[k] + ahead * mechanism_.stretch[k];
      frame.struts[k].radius = first_.struts[k].radius * std::sqrt(first_length_[k] / length);
    }
  }

  void note_length_error() {
    const std::vector<double> drawn = clear_lengths(now_);
    for (std::size_t k = 0; k < length_.size(); ++k) {
      path_.greatest_length_error =
          std::max(path_.greatest_length_error, std::abs(drawn[k] - length_[k]) / first_length_[k]);
    }
  }

  HingedFrame first_;
  HingedFrame now_;
  Eigen::Vector3d direction_;
  PathOptions options_;
  std::vector<double> first_length_;
  std::vector<double> length_; ///< first length and the plastic stretch since
  CollapseMechanism mechanism_;
  double strain_ = 0;
  CollapsePath path_;
};

} // namespace

HingedFrame with_middles(const HingedFrame& frame, const Eigen::Vector3d& direction, double waviness) {
  HingedFrame split = frame;
  split.struts.clear();
  for (const HingedStrut& strut : frame.struts) {
    const Eigen::Vector3d clear = frame.clear_span(strut);
    const auto middle = static_cast<int>(split.nodes.size());
    split.nodes.push_back(frame.nodes[static_cast<std::size_t>(strut.from)] + strut.from_arm + 0.5 * clear +
                          waviness * share_of_bow(split.nodes.size()) * clear.norm() *
                              bow_of(clear.normalized(), direction));
    HingedStrut half = strut;
    half.to = middle;
    half.shift.setZero();
    half.to_arm.setZero();
    split.struts.push_back(half);
    half = strut;
    half.from = middle;
    half.from_arm.setZero();
    split.struts.push_back(half);
  }
  return split;
}

CollapsePath collapse_path(const HingedFrame& frame, const Eigen::Vector3d& direction, const PathOptions& options) {
  return Crushing(frame, direction.normalized(), options).run();
}

} // namespace crushwright
