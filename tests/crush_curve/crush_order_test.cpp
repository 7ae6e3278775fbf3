#include "crush_curve/crush_order.hpp"

#include <catch2/catch.hpp>

using namespace crushwright;

TEST_CASE("the weakest layer is the first to crush, wherever it lies, and of equals the one nearer the struck end") {
  std::vector<Layer> layers(4);
  layers[0].lattice_force = 50e3;
  layers[1].skin_force = 40e3;
  layers[2].lattice_force = 25e3;
  layers[2].skin_force = 25e3;
  layers[3].lattice_force = 60e3;
  CHECK(crush_order(layers) == std::vector<int>{2, 1, 3, 4});
}
