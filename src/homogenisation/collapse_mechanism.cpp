#include "homogenisation/collapse_mechanism.hpp"

#include "homogenisation/section_curve.hpp"

#include <Eigen/Cholesky>
#include <Eigen/LU>

#include <algorithm>
#include <array>
#include <cmath>
#include <stdexcept>

namespace crushwright {
namespace {

using Vector6 = Eigen::Matrix<double, 6, 1>;
using Matrix6 = Eigen::Matrix<double, 6, 6>;
using Vector8 = Eigen::Matrix<double, 8, 1>;
using Matrix8 = Eigen::Matrix<double, 8, 8>;
using Vector18 = Eigen::Matrix<double, 18, 1>;
using Matrix18 = Eigen::Matrix<double, 18, 18>;
using Vector24 = Eigen::Matrix<double, 24, 1>;
using Matrix24 = Eigen::Matrix<double, 24, 24>;
using Matrix4x8 = Eigen::Matrix<double, 4, 8>;

/// Work in a hinge at rest, over the mean work of all.
constexpr double least_calm = 0.003;

/// Rates of both sections from the strut's six and the share of stretch and twist in the first section.
std::array<Matrix4x8, 2> section_maps() {
  Matrix4x8 first = Matrix4x8::Zero();
  first(0, 6) = first(1, 7) = first(2, 2) = first(3, 3) = 1;
  Matrix4x8 second = Matrix4x8::Zero();
  second(0, 0) = second(1, 1) = second(2, 4) = second(3, 5) = 1;
  second(0, 6) = second(1, 7) = -1;
  return {first, second};
}
const std::array<Matrix4x8, 2> section_map = section_maps();

/// Newton's method on the smoothed work Σ √(D² + ε²), with the sections' forces as unknowns of their own (Andersen,
/// Christiansen, Overton's way with sums of norms), which keeps the steps good where hinges are at rest.
class LeastWork {
public:
  LeastWork(const HingedFrame& frame, const Voigt& stress)
      : frame_(frame), joints_(frame.joints), unknowns_(6 * joints_ + 3), load_(stress) {
    for (const HingedStrut& strut : frame.struts) {
      rates_.push_back(strut_rates(frame, strut));
    }
    const std::size_t struts = frame.struts.size();
    motion_.setZero(static_cast<Eigen::Index>(6 * frame.nodes.size() + 6));
    share_.assign(struts, Eigen::Vector2d::Zero());
    forces_.assign(2 * struts, Eigen::Vector4d::Zero());
    chains_ = frame.has_middles() ? struts / 2 : struts;
  }

  CollapseMechanism solve(const MechanismOptions& options);

private:
  struct Condensed { ///< one strut of the cell, its own unknowns taken out
    Matrix18 stiffness;
    Vector18 slope;
    Matrix6 middle_inverse;
    Eigen::Matrix<double, 6, 18> middle_to_ends;
    Vector6 middle_slope;
  };
  struct Section { ///< of the smoothed work, at the present motion
    Eigen::Vector4d slope;
    Eigen::Matrix4d stiffness;
  };
  struct Local { ///< one hinged strut, the shares taken out
    Matrix8 stiffness;
    Vector8 slope;
    Eigen::Matrix2d share_inverse;
  };

  std::size_t from_of(std::size_t strut) const { return static_cast<std::size_t>(frame_.struts[strut].from); }
  std::size_t to_of(std::size_t strut) const { return static_cast<std::size_t>(frame_.struts[strut].to); }

  Vector18 motion_of(std::size_t strut, const Eigen::VectorXd& motion) const {
    Vector18 q;
    q << motion.segment<6>(static_cast<Eigen::Index>(6 * from_of(strut))),
        motion.segment<6>(static_cast<Eigen::Index>(6 * to_of(strut))), motion.tail<6>();
    return q;
  }
  Vector8 local_rates(std::size_t strut, const Eigen::VectorXd& motion,
                      const std::vector<Eigen::Vector2d>& share) const {
    Vector8 local;
    local << rates_[strut] * motion_of(strut, motion), share[strut];
    return local;
  }

  double smoothed_work(const Eigen::VectorXd& motion, const std::vector<Eigen::Vector2d>& share) const;
  double work() const;
  void linearise(bool with_forces);
  void condense(std::size_t chain);
  bool solve_step(Eigen::VectorXd& step, std::vector<Eigen::Vector2d>& share_step, double& slope_along);
  void take_forces(const Eigen::VectorXd& step, const std::vector<Eigen::Vector2d>& share_step);
  double step_along(bool with_forces);
  CollapseMechanism result() const;

  const HingedFrame& frame_;
  int joints_;
  Eigen::Index unknowns_; ///< of joints and strain, the first joint's velocity held
  Voigt load_;
  std::vector<StrutRates> rates_;
  std::size_t chains_ = 0;
  Eigen::VectorXd motion_;
  std::vector<Eigen::Vector2d> share_;
  std::vector<Eigen::Vector4d> forces_; ///< last guess, inside the yield surface
  std::vector<Section> sections_;
  std::vector<Local> local_;
  std::vector<Condensed> condensed_;
  double rest_ = 1;       ///< ε: work below which a hinge counts as at rest
  double evenness_ = 0;   ///< weight of ½ |rates|², picks one of equal motions
  double multiplier_ = 0; ///< load times volume that the last step's forces balance
  double lower_ = 0;
  std::vector<Eigen::Vector4d> best_forces_; ///< that belong to lower_
};

double LeastWork::smoothed_work(const Eigen::VectorXd& motion, const std::vector<Eigen::Vector2d>& share) const {
  double sum = 0;
  for (std::size_t strut = 0; strut < rates_.size(); ++strut) {
    const Vector8 local = local_rates(strut, motion, share);
    for (const Matrix4x8& map : section_map) {
      const Eigen::Vector4d rates = map * local;
      sum += std::hypot(hinge_work(rates).work, rest_) + 0.5 * evenness_ * rates.squaredNorm();
    }
  }
  return sum;
}

double LeastWork::work() const {
  double sum = 0;
  for (std::size_t strut = 0; strut < rates_.size(); ++strut) {
    const Vector8 local = local_rates(strut, motion_, share_);
    sum += hinge_work(section_map[0] * local).work + hinge_work(section_map[1] * local).work;
  }
  return sum;
}

void LeastWork::linearise(bool with_forces) {
  const std::size_t struts = rates_.size();
  sections_.resize(2 * struts);
  local_.resize(struts);
  for (std::size_t strut = 0; strut < struts; ++strut) {
    const Vector8 rates = local_rates(strut, motion_, share_);
    Local& local = local_[strut];
    local.stiffness.setZero();
    local.slope.setZero();
    for (std::size_t end = 0; end < 2; ++end) {
      const Eigen::Vector4d r = section_map[end] * rates;
      const HingeWork hinge = hinge_work(r);
      const double smooth = std::hypot(hinge.work, rest_);
      Section& section = sections_[2 * strut + end];
      const Eigen::Vector4d slope = hinge.slope / smooth;
      section.stiffness = hinge.bending;
      // Where the axial corner does the work turning costs nothing, but only up to a limit that a step must not miss.
      section.stiffness.diagonal().tail<2>().array() += with_forces ? 0.02 : 0.5;
      if (with_forces) {
        const Eigen::Vector4d& s = forces_[2 * strut + end];
        section.stiffness -= 0.5 * (s * slope.transpose() + slope * s.transpose());
      }
      section.stiffness /= smooth;
      section.stiffness.diagonal().array() += evenness_;
      section.slope = slope + evenness_ * r;
      local.stiffness += section_map[end].transpose() * section.stiffness * section_map[end];
      local.slope += section_map[end].transpose() * section.slope;
    }
    local.share_inverse = local.stiffness.bottomRightCorner<2, 2>().inverse();
  }
  condensed_.resize(chains_);
  for (std::size_t chain = 0; chain < chains_; ++chain) {
    condense(chain);
  }
}

void LeastWork::condense(std::size_t chain) {
  const bool split = frame_.has_middles();
  Matrix24 stiffness = Matrix24::Zero(); // from, to, strain, middle
  Vector24 slope = Vector24::Zero();
  const std::array<std::array<int, 3>, 2> place = split
                                                      ? std::array<std::array<int, 3>, 2>{{{0, 18, 12}, {18, 6, 12}}}
                                                      : std::array<std::array<int, 3>, 2>{{{0, 6, 12}, {0, 6, 12}}};
  for (std::size_t part = 0; part < (split ? 2U : 1U); ++part) {
    const std::size_t strut = split ? 2 * chain + part : chain;
    const Local& local = local_[strut];
    const Eigen::Matrix<double, 6, 2> to_share = local.stiffness.topRightCorner<6, 2>() * local.share_inverse;
    const Matrix6 k = local.stiffness.topLeftCorner<6, 6>() - to_share * local.stiffness.bottomLeftCorner<2, 6>();
    const Vector6 g = local.slope.head<6>() - to_share * local.slope.tail<2>();
    const Matrix18 full = rates_[strut].transpose() * k * rates_[strut];
    const Vector18 full_slope = rates_[strut].transpose() * g;
    for (int row = 0; row < 3; ++row) {
      const int at = place[part][static_cast<std::size_t>(row)];
      slope.segment<6>(at) += full_slope.segment<6>(6 * row);
      for (int column = 0; column < 3; ++column) {
        stiffness.block<6, 6>(at, place[part][static_cast<std::size_t>(column)]) +=
            full.block<6, 6>(6 * row, 6 * column);
      }
    }
  }
  Condensed& result = condensed_[chain];
  result.stiffness = stiffness.topLeftCorner<18, 18>();
  result.slope = slope.head<18>();
  if (split) {
    result.middle_inverse = stiffness.bottomRightCorner<6, 6>().llt().solve(Matrix6::Identity());
    result.middle_to_ends = stiffness.bottomLeftCorner<6, 18>();
    result.middle_slope = slope.tail<6>();
    result.stiffness -= result.middle_to_ends.transpose() * result.middle_inverse * result.middle_to_ends;
    result.slope -= result.middle_to_ends.transpose() * result.middle_inverse * result.middle_slope;
  }
}

bool LeastWork::solve_step(Eigen::VectorXd& step, std::vector<Eigen::Vector2d>& share_step, double& slope_along) {
  const Eigen::Index strain = 6 * joints_;
  Eigen::MatrixXd stiffness = Eigen::MatrixXd::Zero(strain + 6, strain + 6);
  Eigen::VectorXd slope = Eigen::VectorXd::Zero(strain + 6);
  const bool split = frame_.has_middles();
  for (std::size_t chain = 0; chain < chains_; ++chain) {
    const auto from = static_cast<Eigen::Index>(6 * from_of(split ? 2 * chain : chain));
    const auto to = static_cast<Eigen::Index>(6 * to_of(split ? 2 * chain + 1 : chain));
    const std::array<Eigen::Index, 3> at{from, to, strain};
    for (std::size_t row = 0; row < 3; ++row) {
      slope.segment<6>(at[row]) += condensed_[chain].slope.segment<6>(static_cast<Eigen::Index>(6 * row));
      for (std::size_t column = 0; column < 3; ++column) {
        stiffness.block<6, 6>(at[row], at[column]) += condensed_[chain].stiffness.block<6, 6>(
            static_cast<Eigen::Index>(6 * row), static_cast<Eigen::Index>(6 * column));
      }
    }
  }
  const Eigen::LLT<Eigen::MatrixXd> factor(stiffness.bottomRightCorner(unknowns_, unknowns_));
  if (factor.info() != Eigen::Success) {
    return false;
  }
  Eigen::VectorXd load = Eigen::VectorXd::Zero(unknowns_);
  load.tail<6>() = -load_;
  const Eigen::VectorXd by_slope = factor.solve(slope.tail(unknowns_));
  const Eigen::VectorXd by_load = factor.solve(load);
  // The motion keeps its unit of shortening: load · motion = 1 before, so load · step = 0.
  const double present = -load_.dot(motion_.tail<6>());
  const double multiplier = (1 - present + load.dot(by_slope)) / load.dot(by_load);
  const Eigen::VectorXd ends = multiplier * by_load - by_slope;
  if (!ends.allFinite()) {
    return false;
  }
  multiplier_ = multiplier;
  step.setZero(motion_.size());
  step.segment(3, strain - 3) = ends.head(strain - 3);
  step.tail<6>() = ends.tail<6>();
  if (split) {
    for (std::size_t chain = 0; chain < chains_; ++chain) {
      Vector18 q;
      q << step.segment<6>(static_cast<Eigen::Index>(6 * from_of(2 * chain))),
          step.segment<6>(static_cast<Eigen::Index>(6 * to_of(2 * chain + 1))), step.tail<6>();
      const Condensed& c = condensed_[chain];
      step.segment<6>(static_cast<Eigen::Index>(6 * to_of(2 * chain))) =
          -c.middle_inverse * (c.middle_slope + c.middle_to_ends * q);
    }
  }
  slope_along = 0;
  share_step.resize(rates_.size());
  for (std::size_t strut = 0; strut < rates_.size(); ++strut) {
    const Local& local = local_[strut];
    const Vector6 six = rates_[strut] * motion_of(strut, step);
    share_step[strut] =
        -local.share_inverse * (local.slope.tail<2>() + local.stiffness.bottomLeftCorner<2, 6>() * six);
    slope_along += local.slope.head<6>().dot(six) + local.slope.tail<2>().dot(share_step[strut]);
  }
  return true;
}

void LeastWork::take_forces(const Eigen::VectorXd& step, const std::vector<Eigen::Vector2d>& share_step) {
  double greatest = 0;
  std::vector<Eigen::Vector4d> balanced(forces_.size());
  for (std::size_t strut = 0; strut < rates_.size(); ++strut) {
    const Vector8 change = local_rates(strut, step, share_step);
    for (std::size_t end = 0; end < 2; ++end) {
      const Section& section = sections_[2 * strut + end];
      Eigen::Vector4d& s = balanced[2 * strut + end];
      s = section.slope + section.stiffness * (section_map[end] * change);
      const double gauge = section_gauge(s);
      greatest = std::max(greatest, gauge);
      forces_[2 * strut + end] = s / std::max(1.0, gauge * (1 + 1e-9));
    }
  }
  const double load = multiplier_ / (frame_.volume() * greatest);
  if (load > lower_) {
    lower_ = load;
    best_forces_ = balanced;
    for (Eigen::Vector4d& s : best_forces_) {
      s /= greatest;
    }
  }
}

double LeastWork::step_along(bool with_forces) {
  Eigen::VectorXd step;
  std::vector<Eigen::Vector2d> share_step;
  double slope_along = 0;
  linearise(with_forces);
  if (!solve_step(step, share_step, slope_along)) {
    return 0;
  }
  take_forces(step, share_step);
  const double before = smoothed_work(motion_, share_);
  for (double length = 1; length > 1e-3 && slope_along < 0; length *= 0.5) {
    const Eigen::VectorXd motion = motion_ + length * step;
    std::vector<Eigen::Vector2d> share = share_;
    for (std::size_t strut = 0; strut < share.size(); ++strut) {
      share[strut] += length * share_step[strut];
    }
    if (smoothed_work(motion, share) <= before + 1e-4 * length * slope_along) {
      motion_ = motion;
      share_ = share;
      return length;
    }
  }
  return 0;
}

CollapseMechanism LeastWork::solve(const MechanismOptions& options) {
  const auto sections = static_cast<double>(2 * rates_.size());
  // From rest every hinge is equally stiff, and the first step is that of an elastic frame.
  evenness_ = 1e-6;
  linearise(false);
  Eigen::VectorXd step;
  std::vector<Eigen::Vector2d> share_step;
  double slope_along = 0;
  if (!solve_step(step, share_step, slope_along)) {
    throw NoMechanism("a frame without stiffness has no collapse load");
  }
  motion_ += step;
  share_ = share_step;
  double calm = 0.3;
  int iteration = 1;
  for (; iteration <= options.most_iterations; ++iteration) {
    const double mean_work = work() / sections;
    rest_ = calm * mean_work;
    evenness_ = 1e-4 / mean_work;
    double length = step_along(true);
    if (length < 0.1) {
      // Stiffness without the forces' own change never leads uphill.
      length = std::max(length, step_along(false));
    }
    const double upper = work() / frame_.volume();
    if (upper - lower_ <= options.gap * lower_) {
      break;
    }
    calm = std::max(least_calm, 0.4 * calm);
  }
  CollapseMechanism found = result();
  found.iterations = iteration;
  return found;
}

CollapseMechanism LeastWork::result() const {
  CollapseMechanism found;
  for (std::size_t node = 0; node < frame_.nodes.size(); ++node) {
    found.velocity.emplace_back(motion_.segment<3>(static_cast<Eigen::Index>(6 * node)));
    found.spin.emplace_back(motion_.segment<3>(static_cast<Eigen::Index>(6 * node + 3)));
  }
  found.strain = motion_.tail<6>();
  for (std::size_t strut = 0; strut < rates_.size() && !best_forces_.empty(); ++strut) {
    const Eigen::Vector4d& first = best_forces_[2 * strut];
    const Eigen::Vector4d& second = best_forces_[2 * strut + 1];
    found.forces.push_back((Vector6() << first, second.tail<2>()).finished());
  }
  found.upper = work() / frame_.volume();
  found.lower = lower_;
  for (std::size_t strut = 0; strut < rates_.size(); ++strut) {
    const Vector6 six = rates_[strut] * motion_of(strut, motion_);
    const PlasticForces full = plastic_forces(frame_.struts[strut].radius);
    found.stretch.push_back(six[0] / full.axial);
    found.fastest_turn =
        std::max({found.fastest_turn, six.segment<2>(2).norm() / full.bending, six.tail<2>().norm() / full.bending});
  }
  return found;
}

} // namespace

CollapseMechanism collapse_mechanism(const HingedFrame& frame, const Voigt& stress, const MechanismOptions& options) {
  return LeastWork(frame, stress).solve(options);
}

} // namespace crushwright
