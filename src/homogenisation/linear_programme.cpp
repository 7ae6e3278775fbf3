#include "homogenisation/linear_programme.hpp"

#include <fmt/format.h>
#include <glpk.h>

#include <mutex>
#include <stdexcept>

namespace crushwright {
namespace {

/// Holds the library's state where all threads share one.
std::unique_lock<std::mutex> lock_of_library() {
  static std::mutex shared_state;
  static const bool state_by_thread = glp_config("TLS") != nullptr;
  return state_by_thread ? std::unique_lock<std::mutex>() : std::unique_lock<std::mutex>(shared_state);
}

const char* words_of(int status) {
  switch (status) {
  case GLP_INFEAS:
  case GLP_NOFEAS:
    return "no state meets all conditions";
  case GLP_UNBND:
    return "nothing limits the load";
  default:
    return "the solver gave up";
  }
}

} // namespace

struct LinearProgramme::Library {
  glp_prob* problem = nullptr;
  std::vector<int> columns;
  std::vector<double> coefficients;

  int add_row(const Row& row) {
    columns.assign(1, 0);
    coefficients.assign(1, 0.0);
    for (const auto& [column, coefficient] : row) {
      if (coefficient != 0) {
        columns.push_back(column + 1);
        coefficients.push_back(coefficient);
      }
    }
    const int place = glp_add_rows(problem, 1);
    glp_set_mat_row(problem, place, static_cast<int>(columns.size()) - 1, columns.data(), coefficients.data());
    return place;
  }

  int run(int method) {
    glp_smcp settings;
    glp_init_smcp(&settings);
    settings.msg_lev = GLP_MSG_OFF;
    settings.meth = method;
    // The shortest way on a degenerate optimum depends on ties; the library's own order of them is fixed.
    settings.it_lim = 200000;
    return glp_simplex(problem, &settings);
  }
};

LinearProgramme::LinearProgramme(int columns) : library_(std::make_unique<Library>()) {
  const auto lock = lock_of_library();
  glp_term_out(GLP_OFF);
  library_->problem = glp_create_prob();
  glp_set_obj_dir(library_->problem, GLP_MAX);
  glp_add_cols(library_->problem, columns);
  for (int column = 1; column <= columns; ++column) {
    glp_set_col_bnds(library_->problem, column, GLP_FR, 0, 0);
  }
}

LinearProgramme::~LinearProgramme() {
  const auto lock = lock_of_library();
  glp_delete_prob(library_->problem);
}

void LinearProgramme::bound(int column, double low, double high) {
  const auto lock = lock_of_library();
  glp_set_col_bnds(library_->problem, column + 1, low < high ? GLP_DB : GLP_FX, low, high);
}

void LinearProgramme::reward(int column, double coefficient) {
  const auto lock = lock_of_library();
  glp_set_obj_coef(library_->problem, column + 1, coefficient);
}

void LinearProgramme::require_equal(const Row& row, double value) {
  const auto lock = lock_of_library();
  glp_set_row_bnds(library_->problem, library_->add_row(row), GLP_FX, value, value);
}

void LinearProgramme::require_at_most(const Row& row, double value) {
  const auto lock = lock_of_library();
  glp_set_row_bnds(library_->problem, library_->add_row(row), GLP_UP, 0, value);
}

double LinearProgramme::maximise() {
  const auto lock = lock_of_library();
  // After new rows the last optimum still prices right, so the dual method goes on from it; the primal one is the way
  // out when that one stops early.
  int fault = library_->run(GLP_DUALP);
  if (fault != 0) {
    glp_adv_basis(library_->problem, 0);
    fault = library_->run(GLP_PRIMAL);
  }
  const int status = glp_get_status(library_->problem);
  if (fault != 0 || status != GLP_OPT) {
    throw std::runtime_error(fmt::format("linear programme without optimum: {} (columns {}, rows {})",
                                         words_of(status), glp_get_num_cols(library_->problem),
                                         glp_get_num_rows(library_->problem)));
  }
  return glp_get_obj_val(library_->problem);
}

double LinearProgramme::value(int column) const {
  const auto lock = lock_of_library();
  return glp_get_col_prim(library_->problem, column + 1);
}

} // namespace crushwright
