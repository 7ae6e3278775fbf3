#include "crushwright/errors.hpp"
#include "printability/direction_search.hpp"
#include "printability/sample_subjects.hpp"
#include "printability/vector.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

using namespace crushwright;
using namespace sample_subjects;

namespace {

PrintSubject skin_alone(const Envelope& envelope) {
  PrintSubject subject;
  subject.envelope = &envelope;
  subject.skin_thickness = 1e-3;
  subject.volume = 100e-6;
  subject.mass = 0.267;
  subject.density = 2670;
  return subject;
}

StrutBody columns_along(const Vector& way) {
  StrutBody body;
  for (int i = 0; i < 4; ++i) {
    const Vector from{0.01 * i, 0.02 * i, 0};
    body.nodes.push_back(from);
    body.nodes.push_back({from[0] + way[0], from[1] + way[1], from[2] + way[2]});
    body.struts.push_back({2 * i, 2 * i + 1, 5e-4, 5e-4});
  }
  return body;
}

} // namespace

TEST_CASE("with every simple direction its opposite is tried, and axes come first") {
  const std::vector<BuildDirection> directions = simple_directions();
  CHECK(directions.size() == 290);
  CHECK(direction_text(directions[0]) == "-x");
  CHECK(direction_text(directions[1]) == "+x");
  for (std::size_t i = 2; i < 6; ++i)
    CHECK(direction_text(directions[i]).size() == 2);
  for (const BuildDirection& direction : directions) {
    CHECK(norm(direction) == Approx(1).margin(1e-12));
    CHECK(std::any_of(directions.begin(), directions.end(), [&](const BuildDirection& other) {
      return norm(Vector{direction[0] + other[0], direction[1] + other[1], direction[2] + other[2]}) < 1e-12;
    }));
  }
}

TEST_CASE("where all directions are alike the simplest is taken") {
  CHECK(direction_text(least_trouble([](const BuildDirection&) { return DirectionTrouble{}; }).direction) == "-x");
}

TEST_CASE("the search finds a lone good direction between the simple ones to about a degree") {
  const Vector best = scaled({0.31, -0.52, 0.79}, 1 / norm({0.31, -0.52, 0.79}));
  const BestDirection found = least_trouble([&](const BuildDirection& direction) {
    return DirectionTrouble{1, 1 - dot(best, direction), true, 1};
  });
  CHECK(std::acos(dot(best, found.direction)) < 6 * degree); // 1 - cos 5.7 degrees is one step of half a per cent
}

TEST_CASE("fewer pieces weigh more than any overhang, and overhang more than time") {
  const BestDirection pieces = least_trouble([](const BuildDirection& direction) {
    return direction[2] > 0.9999 ? DirectionTrouble{1, 0.9, true, 9} : DirectionTrouble{2, 0.1, true, 1};
  });
  CHECK(direction_text(pieces.direction) == "+z");
  const BestDirection overhang = least_trouble([](const BuildDirection& direction) {
    return direction[1] > 0.9999 ? DirectionTrouble{1, 0.1, true, 9} : DirectionTrouble{1, 0.2, true, 1};
  });
  CHECK(direction_text(overhang.direction) == "+y");
}

TEST_CASE("an open tube is best built upright, though on its edge all of it would stand and be lower") {
  const Envelope tube = box(0.4, 0.1, 0.1);
  const BestDirection best = best_direction(skin_alone(tube), printing({0, 0, 1}));
  CHECK(direction_text(best.direction) == "-x");
  CHECK(best.trouble.unsupported == 0);
}

TEST_CASE("a tube longer than the machine is high is laid where it then fits whole") {
  const Envelope tube = box(0.4, 0.1, 0.1);
  PrintingInput input = printing();
  input.machine.build_volume = {0.45, 0.45, 0.2};
  const BestDirection best = best_direction(skin_alone(tube), input);
  CHECK(best.trouble.pieces == 1);
  CHECK(std::abs(best.direction[0]) < 0.5);
}

TEST_CASE("a flaring cone is best built with its wide end down") {
  // Its sides lean by atan(0.15 / 0.1) = 56 degrees from upright: wide end up they hang over outside, wide end down
  // they are a roof inside; the skin has no ends. Both are as bad; on an edge half of it stands.
  Envelope flare = box(0.1, 0.1, 0.1);
  flare.sections.back().width = flare.sections.back().height = 0.4;
  const BestDirection best = best_direction(skin_alone(flare), printing());
  CHECK(best.trouble.unsupported < 0.5);
}

TEST_CASE("the same search twice gives the same direction to the last digit") {
  const Envelope cone = [] {
    Envelope made = box(0.3, 0.1, 0.14);
    made.sections.back().width = 0.2;
    return made;
  }();
  PrintSubject subject = skin_alone(cone);
  subject.cell = &cell("diamond");
  subject.cell_edge = 0.01;
  subject.smallest_size = subject.largest_size = 1e-3;
  const BestDirection first = best_direction(subject, printing()), second = best_direction(subject, printing());
  CHECK(first.direction == second.direction);
  CHECK(first.tried == second.tried);
}

TEST_CASE("columns are built along themselves, wherever they lean") {
  const StrutBody upright = columns_along({0, 0, 0.05});
  PrintedBody body;
  body.struts = &upright;
  CHECK(print_figures(body, printing({0, 0, 1})).lattice.share() == 0);
  CHECK(best_direction(body, printing()).trouble.unsupported == 0);
  const StrutBody leaning = columns_along({0.03, 0.02, 0.04});
  body.struts = &leaning;
  CHECK(best_direction(body, printing()).trouble.unsupported == 0);
}

TEST_CASE("a body's height reaches over the balls at the ends of its struts") {
  const StrutBody upright = columns_along({0, 0, 0.05});
  PrintedBody body;
  body.struts = &upright;
  const BodyPrintFigures figures = print_figures(body, printing({0, 0, 1}));
  CHECK(figures.build_height == Approx(0.05 + 2 * 5e-4).margin(1e-12));
  CHECK(figures.thinnest_strut == Approx(1e-3).margin(1e-12));
  CHECK(figures.lattice.nodes_without_base == 0);
  CHECK(figures.fits);
}

TEST_CASE("a body that does not fit the machine is said not to") {
  const StrutBody upright = columns_along({0, 0, 0.05});
  PrintedBody body;
  body.struts = &upright;
  PrintingInput input = printing({0, 0, 1});
  input.machine.build_volume = {0.2, 0.2, 0.04};
  CHECK(print_figures(body, input).faults == std::vector<std::string>{"Built along +z it does not fit the machine."});
  const BestDirection best = best_direction(body, input);
  CHECK(best.trouble.pieces == 1);
}

TEST_CASE("a body of nothing has no figures") {
  CHECK_THROWS_WITH(print_figures(PrintedBody{}, printing()),
                    "a body without a strut and without a triangle has no build direction to judge");
}

TEST_CASE("the outermost points of a large set reach nearly as far as all of them") {
  std::vector<Vector> ball;
  for (int i = 0; i < 20000; ++i) {
    const double z = -1 + (2.0 * i + 1) / 20000, around = 2.399963 * i, flat = std::sqrt(1 - z * z);
    ball.push_back({flat * std::cos(around), flat * std::sin(around), z});
  }
  const std::vector<Vector> outer = outermost(ball);
  CHECK(outer.size() < 2500);
  for (const BuildDirection& direction : simple_directions()) {
    double reach = -2;
    for (const Vector& point : outer)
      reach = std::max(reach, dot(point, direction));
    CHECK(reach > 0.999);
  }
}
