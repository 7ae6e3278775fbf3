#include "homogenisation/limit_analysis.hpp"

#include "homogenisation/collapse_mechanism.hpp"
#include "homogenisation/linear_programme.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <stdexcept>

namespace crushwright {
namespace {

constexpr std::array<std::array<int, 4>, 2> section_entries{{{0, 1, 2, 3}, {0, 1, 4, 5}}};
constexpr int most_rounds = 200;

using Forces = std::vector<Eigen::Matrix<double, 6, 1>>;

Eigen::Vector4d at_section(const Eigen::Matrix<double, 6, 1>& forces, int section) {
  const auto& entry = section_entries[static_cast<std::size_t>(section)];
  return {forces[entry[0]], forces[entry[1]], forces[entry[2]], forces[entry[3]]};
}

double greatest_gauge(const Forces& forces, SectionYield yield) {
  double greatest = 0;
  for (const auto& strut : forces) {
    for (int section = 0; section < 2; ++section) {
      greatest = std::max(greatest, section_gauge(at_section(strut, section), yield));
    }
  }
  return greatest;
}

/// Scales a balanced state until it is safe, and keeps it where it carries more than the best so far.
void keep_if_better(const Forces& state, double load, SectionYield yield, LimitLoad& best) {
  const double gauge = greatest_gauge(state, yield);
  if (load / gauge > best.lower) {
    best.lower = load / gauge;
    best.forces = state;
    for (auto& forces : best.forces) {
      forces /= gauge;
    }
  }
}

/// The frame's programme: columns are six forces per strut, then the load.
class StaticProgramme {
public:
  StaticProgramme(const HingedFrame& frame, const Voigt& stress, const LimitOptions& options)
      : struts_(static_cast<int>(frame.struts.size())), options_(options), programme_(6 * struts_ + 1) {
    add_balance(frame, stress);
    for (int column = 0; column < 6 * struts_; ++column) {
      if (column % 6 != 0 || options.yield == SectionYield::all) {
        programme_.bound(column, -1, 1);
      }
    }
    programme_.reward(6 * struts_, 1);
  }

  double maximise() { return programme_.maximise() * load_unit_; }

  Forces forces() const {
    Forces result(static_cast<std::size_t>(struts_));
    for (int column = 0; column < 6 * struts_; ++column) {
      result[static_cast<std::size_t>(column / 6)][column % 6] = programme_.value(column);
    }
    return result;
  }

  /// The greatest load that a state which balances but for rounding stands for; 0 when it does not balance.
  double balanced_load(const Forces& state, double load) const {
    Eigen::VectorXd x(6 * struts_ + 1);
    for (int k = 0; k < struts_; ++k) {
      x.segment<6>(6 * k) = state[static_cast<std::size_t>(k)];
    }
    x[6 * struts_] = load / load_unit_;
    return (balance_ * x).cwiseAbs().maxCoeff() < 1e-9 ? load : 0;
  }

  /// Tangent planes at the rays of those sections of a state that are loaded beyond `least`.
  int cut(const Forces& state, double least) {
    int added = 0;
    for (int strut = 0; strut < struts_; ++strut) {
      for (int section = 0; section < 2; ++section) {
        const Eigen::Vector4d forces = at_section(state[static_cast<std::size_t>(strut)], section);
        if (section_gauge(forces, options_.yield) > least) {
          add_plane(strut, section, section_tangent(forces, options_.yield));
          ++added;
        }
      }
    }
    return added;
  }

  void add_plane(int strut, int section, const Eigen::Vector4d& plane) {
    LinearProgramme::Row row;
    for (int k = 0; k < 4; ++k) {
      row.emplace_back(6 * strut + section_entries[static_cast<std::size_t>(section)][static_cast<std::size_t>(k)],
                       plane[k]);
    }
    programme_.require_at_most(row, 1);
  }

private:
  void add_balance(const HingedFrame& frame, const Voigt& stress) {
    const auto nodes = static_cast<Eigen::Index>(frame.nodes.size());
    const Eigen::Matrix<double, 6, Eigen::Dynamic>& strains = options_.free_strains;
    const Eigen::Index macroscopic = strains.cols();
    Eigen::MatrixXd balance = Eigen::MatrixXd::Zero(6 * nodes + macroscopic, 6 * struts_ + 1);
    double axial = 0;
    double bending = 0;
    for (int k = 0; k < struts_; ++k) {
      const HingedStrut& strut = frame.struts[static_cast<std::size_t>(k)];
      const Eigen::Matrix<double, 18, 6> rates = strut_rates(frame, strut).transpose();
      balance.block<6, 6>(6 * strut.from, 6 * k) += rates.topRows<6>();
      balance.block<6, 6>(6 * strut.to, 6 * k) += rates.middleRows<6>(6);
      balance.block(6 * nodes, 6 * k, macroscopic, 6) += strains.transpose() * rates.bottomRows<6>();
      const PlasticForces full = plastic_forces(strut.radius);
      axial = std::max(axial, full.axial);
      bending = std::max(bending, full.bending);
    }
    load_unit_ = axial / (frame.volume() * stress.cwiseAbs().maxCoeff());
    balance.block(6 * nodes, 6 * struts_, macroscopic, 1) =
        load_unit_ * frame.volume() * strains.transpose() * stress;
    // Forces on the first node follow from those on the others.
    for (Eigen::Index row = 0; row < balance.rows(); ++row) {
      const bool is_moment = row < 6 * nodes && row % 6 >= 3;
      balance.row(row) /= is_moment ? bending : axial;
      if (row >= 3) {
        add_equation(balance.row(row));
      }
    }
    balance_ = balance;
  }

  void add_equation(const Eigen::RowVectorXd& coefficients) {
    LinearProgramme::Row row;
    const double noise = 1e-14 * coefficients.cwiseAbs().maxCoeff();
    for (Eigen::Index column = 0; column < coefficients.size(); ++column) {
      if (std::abs(coefficients[column]) > noise) {
        row.emplace_back(static_cast<int>(column), coefficients[column]);
      }
    }
    programme_.require_equal(row, 0);
  }

  int struts_;
  LimitOptions options_;
  LinearProgramme programme_;
  double load_unit_ = 1;
  Eigen::MatrixXd balance_; ///< times (forces, load over load_unit_) is zero; rows over Np and Mp
};

} // namespace

LimitLoad limit_load(const HingedFrame& frame, const Voigt& stress, const LimitOptions& options) {
  StaticProgramme programme(frame, stress, options);
  LimitLoad best;
  if (options.start_from_mechanism && options.yield == SectionYield::all) {
    const CollapseMechanism mechanism = collapse_mechanism(frame, stress, {.gap = 0.2 * options.gap});
    if (mechanism.lower > 0) {
      keep_if_better(mechanism.forces, programme.balanced_load(mechanism.forces, mechanism.lower), options.yield,
                     best);
      best.cuts += programme.cut(mechanism.forces, 0.5);
    }
  }
  for (best.rounds = 1; best.rounds <= most_rounds; ++best.rounds) {
    best.upper = programme.maximise();
    const Forces state = programme.forces();
    keep_if_better(state, best.upper, options.yield, best);
    if (best.upper - best.lower <= options.gap * best.lower) {
      return best;
    }
    best.cuts += programme.cut(state, 1 + 0.2 * options.gap);
  }
  throw std::runtime_error(fmt::format("limit load between {} and {} after {} rounds of cutting planes", best.lower,
                                       best.upper, most_rounds));
}

Voigt axial_stress(const Eigen::Vector3d& direction, double axial, double lateral) {
  const Eigen::Vector3d d = direction.normalized();
  const Eigen::Matrix3d stress = lateral * Eigen::Matrix3d::Identity() + (axial - lateral) * d * d.transpose();
  Voigt flat;
  flat << stress(0, 0), stress(1, 1), stress(2, 2), stress(1, 2), stress(0, 2), stress(0, 1);
  return flat;
}

} // namespace crushwright
