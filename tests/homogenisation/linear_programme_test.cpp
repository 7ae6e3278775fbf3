#include "homogenisation/linear_programme.hpp"

#include <catch2/catch.hpp>
#include <stdexcept>
#include <thread>
#include <vector>

using namespace crushwright;

namespace {

/// Greatest x + y within |x|, |y| <= 1 and x + 2y <= limit.
double greatest_sum(double limit) {
  LinearProgramme programme(2);
  programme.bound(0, -1, 1);
  programme.bound(1, -1, 1);
  programme.reward(0, 1);
  programme.reward(1, 1);
  programme.require_at_most({{0, 1}, {1, 2}}, limit);
  return programme.maximise();
}

} // namespace

TEST_CASE("the optimum of a small programme is at the corner that arithmetic gives, also after a further row") {
  LinearProgramme programme(2);
  programme.bound(0, 0, 10);
  programme.bound(1, 0, 10);
  programme.reward(0, 3);
  programme.reward(1, 2);
  programme.require_at_most({{0, 1}, {1, 1}}, 4);
  CHECK(programme.maximise() == Approx(12));
  programme.require_at_most({{0, 1}}, 1);
  CHECK(programme.maximise() == Approx(9));
  CHECK(programme.value(0) == Approx(1));
  CHECK(programme.value(1) == Approx(3));
  programme.require_equal({{0, 1}, {1, -1}}, 0);
  CHECK(programme.maximise() == Approx(5));
}

TEST_CASE("a programme without optimum says why") {
  LinearProgramme free(1);
  free.reward(0, 1);
  CHECK_THROWS_AS(free.maximise(), std::runtime_error);
  LinearProgramme empty(1);
  empty.bound(0, 0, 1);
  empty.reward(0, 1);
  empty.require_equal({{0, 1}}, 2);
  CHECK_THROWS_AS(empty.maximise(), std::runtime_error);
}

TEST_CASE("programmes on several threads do not disturb each other") {
  std::vector<double> found(8);
  std::vector<std::thread> threads;
  for (std::size_t k = 0; k < found.size(); ++k) {
    threads.emplace_back([&found, k] {
      for (int repeat = 0; repeat < 50; ++repeat) {
        found[k] = greatest_sum(0.25 * static_cast<double>(k));
      }
    });
  }
  for (std::thread& thread : threads) {
    thread.join();
  }
  for (std::size_t k = 0; k < found.size(); ++k) {
    // x = 1 and y = (limit − 1) / 2
    CHECK(found[k] == Approx(1 + 0.5 * (0.25 * static_cast<double>(k) - 1)));
  }
}
