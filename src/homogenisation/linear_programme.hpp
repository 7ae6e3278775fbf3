#pragma once
#include <memory>
#include <utility>
#include <vector>

namespace crushwright {

/// Maximise c · x under linear equations, inequalities and bounds. Rows may be added after a solve; the next one
/// starts from where the last ended. Make, use and drop it on one thread: the library behind it keeps its state by
/// thread where it can, and is locked where it cannot.
class LinearProgramme {
public:
  using Row = std::vector<std::pair<int, double>>; ///< column, coefficient; each column at most once

  explicit LinearProgramme(int columns);
  ~LinearProgramme();
  LinearProgramme(const LinearProgramme&) = delete;
  LinearProgramme& operator=(const LinearProgramme&) = delete;

  void bound(int column, double low, double high); ///< columns are free until bounded
  void reward(int column, double coefficient);     ///< c, zero until set
  void require_equal(const Row& row, double value);
  void require_at_most(const Row& row, double value);

  /// @return  c · x at the optimum
  /// @throws std::runtime_error when there is none (infeasible, unbounded or the solver gives up); the message says
  ///         which.
  double maximise();
  double value(int column) const; ///< of x at the optimum

private:
  struct Library;
  std::unique_ptr<Library> library_;
};

} // namespace crushwright
