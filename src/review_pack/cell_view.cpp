#include "review_pack/cell_view.hpp"

#include <cmath>
#include <numbers>

namespace crushwright {

CellView cell_view(double azimuth, double elevation) {
  const double a = azimuth * std::numbers::pi / 180, e = elevation * std::numbers::pi / 180;
  return {{std::cos(a), std::sin(a), 0},
          {-std::sin(a) * std::sin(e), std::cos(a) * std::sin(e), std::cos(e)},
          {std::sin(a) * std::cos(e), -std::cos(a) * std::cos(e), std::sin(e)}};
}

} // namespace crushwright
