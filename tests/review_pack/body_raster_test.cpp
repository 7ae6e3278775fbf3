#include "review_pack/body_raster.hpp"

#include "review_pack/drawn_bodies.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>
#include <numeric>

#include <tbb/global_control.h>

using namespace crushwright;

namespace {

constexpr double pi = std::numbers::pi;

const CellView square_on{{1, 0, 0}, {0, 0, 1}, {0, -1, 0}}; // seen from the right, x to the right, z up

/// Area that a picture's pixels cover [m²].
double covered(const BodyRaster& raster) {
  const double pixels = std::accumulate(raster.coverage.begin(), raster.coverage.end(), 0.0);
  return pixels * raster.frame.pixel * raster.frame.pixel;
}

/// Area of the pixels whose nearest is of one kind [m²].
double area_of(const BodyRaster& raster, Met met) {
  double pixels = 0;
  for (std::size_t i = 0; i < raster.met.size(); ++i) {
    pixels += raster.met[i] == met ? static_cast<double>(raster.coverage[i]) : 0;
  }
  return pixels * raster.frame.pixel * raster.frame.pixel;
}

BodyShape of_bars(const StrutBody& bars) {
  BodyShape shape;
  shape.struts = &bars;
  shape.cell_edge = 0.01;
  return shape;
}

std::size_t pixel_at(const BodyRaster& raster, const CellView& view, const ViewVector& point) {
  const auto x = static_cast<std::size_t>((dot(point, view.right) - raster.frame.left) / raster.frame.pixel);
  const auto y = static_cast<std::size_t>((raster.frame.top - dot(point, view.up)) / raster.frame.pixel);
  return y * static_cast<std::size_t>(raster.frame.width) + x;
}

} // namespace

TEST_CASE("the shadow of a ball is pi times its radius squared from every side") {
  const double radius = 0.04;
  const TriangleMesh ball = ball_mesh({0.1, 0.02, -0.03}, radius, 180);
  BodyShape shape;
  shape.surface = &ball;
  for (const double azimuth : {-35.0, 10.0, 100.0}) {
    const CellView view = cell_view(azimuth, 24);
    const BodyRaster raster = body_raster(shape, BodySight::outside, view, frame_about(shape, view, 400));
    CHECK(covered(raster) == Approx(pi * radius * radius).epsilon(0.002));
  }
}

TEST_CASE("the shadow of a bar is its diameter times its seen length and a disc of its ends") {
  const double radius = 0.003;
  const ViewVector way = {0.06, 0.02, 0.031}; // not along any row of pixels
  const StrutBody bar = one_bar({0.01, 0, 0}, {0.01 + way[0], way[1], way[2]}, radius, radius);
  for (const double azimuth : {0.0, -35.0, 60.0}) {
    const CellView view = cell_view(azimuth, 24);
    const BodyRaster raster =
        body_raster(of_bars(bar), BodySight::lattice, view, frame_about(of_bars(bar), view, 500));
    const double seen = std::hypot(dot(way, view.right), dot(way, view.up));
    CHECK(covered(raster) == Approx(2 * radius * seen + pi * radius * radius).epsilon(0.005));
  }
}

TEST_CASE("the shadow of a tapered bar is a trapezium between two half discs") {
  const double thick = 0.004, thin = 0.002, length = 0.08;
  const StrutBody bar = one_bar({0, 0, 0}, {0, 0, length}, thick, thin);
  const BodyRaster raster =
      body_raster(of_bars(bar), BodySight::lattice, square_on, frame_about(of_bars(bar), square_on, 600));
  const double expected = (thick + thin) * length + 0.5 * pi * (thick * thick + thin * thin);
  CHECK(covered(raster) == Approx(expected).epsilon(0.005));
}

TEST_CASE("a bar seen along its axis is a disc") {
  const StrutBody bar = one_bar({0, 0, 0}, {0, 0.05, 0}, 0.003, 0.003);
  const BodyRaster raster =
      body_raster(of_bars(bar), BodySight::lattice, square_on, frame_about(of_bars(bar), square_on, 200));
  CHECK(covered(raster) == Approx(pi * 9e-6).epsilon(0.005));
}

TEST_CASE("a bar thinner than a pixel is still drawn from end to end") {
  StrutBody bar = one_bar({0, 0, 0}, {0.1, 0, 0.037}, 1e-6, 1e-6);
  const BodyRaster raster =
      body_raster(of_bars(bar), BodySight::lattice, square_on, frame_about(of_bars(bar), square_on, 300));
  const auto width = static_cast<std::size_t>(raster.frame.width);
  for (std::size_t column = 2; column + 2 < width; ++column) {
    double covered_in_column = 0;
    for (std::size_t pixel = column; pixel < raster.coverage.size(); pixel += width) {
      covered_in_column += static_cast<double>(raster.coverage[pixel]);
    }
    INFO(column);
    CHECK(covered_in_column >= 0.5); // one of the two rays of each column of rays
    CHECK(covered_in_column <= 1);
  }
}

TEST_CASE("what is nearer hides what is farther, whichever comes first in the list") {
  const CellView from_struck_end = cell_view(-90, 0); // so that depth is the station
  const double radius = 0.003;
  for (const bool nearer_first : {true, false}) {
    const double first = nearer_first ? 0.02 : 0.08, second = nearer_first ? 0.08 : 0.02;
    StrutBody bars{{{first, -0.04, -0.04}, {first, 0.04, 0.04}, {second, -0.04, 0.04}, {second, 0.04, -0.04}},
                   {{0, 1, radius, radius}, {2, 3, radius, radius}}};
    const BodyRaster raster = body_raster(of_bars(bars), BodySight::lattice, from_struck_end,
                                          frame_about(of_bars(bars), from_struck_end, 301));
    const std::size_t crossing = pixel_at(raster, from_struck_end, {0, 0, 0});
    CHECK(static_cast<double>(raster.station[crossing]) == Approx(0.02 - radius).margin(2e-5));
  }
}

TEST_CASE("each pixel knows the station of what it shows") {
  const TriangleMesh box = box_mesh({0, -0.05, -0.04}, {0.3, 0.05, 0.04});
  BodyShape shape;
  shape.surface = &box;
  const CellView view = cell_view(-35, 24);
  const BodyRaster raster = body_raster(shape, BodySight::outside, view, frame_about(shape, view, 600));
  for (const double station : {0.02, 0.11, 0.29}) {
    const std::size_t pixel = pixel_at(raster, view, {station, 0.01, 0.04}); // on the upper face
    CHECK(static_cast<double>(raster.station[pixel]) == Approx(station).margin(0.001));
  }
  CHECK(static_cast<double>(raster.station[pixel_at(raster, view, {0, 0.01, -0.01})]) == Approx(0).margin(1e-6));
}

TEST_CASE("a cut of a box shows a frame of skin of the stated thickness") {
  const double skin = 0.004;
  const TriangleMesh box = box_mesh({0, -0.05, -0.04}, {0.2, 0.05, 0.04});
  BodyShape shape;
  shape.surface = &box;
  shape.skin_thickness = skin;
  const BodyRaster raster = body_raster(shape, BodySight::cut, square_on, frame_about(shape, square_on, 800), 0.0);
  CHECK(area_of(raster, Met::skin_cut) == Approx(0.2 * 0.08 - (0.2 - 2 * skin) * (0.08 - 2 * skin)).epsilon(0.01));
  CHECK(area_of(raster, Met::skin_inside) == Approx((0.2 - 2 * skin) * (0.08 - 2 * skin)).epsilon(0.01));
}

TEST_CASE("a skin cut beside the middle of a ball is thicker in the picture than in space") {
  // In a plane a distance q from the middle the outer circle has the radius √(R² - q²) and the inner √((R - t)² -
  // q²).
  const double radius = 0.05, skin = 0.003, beside = 0.03;
  const TriangleMesh ball = ball_mesh({0, 0, 0}, radius, 160);
  BodyShape shape;
  shape.surface = &ball;
  shape.skin_thickness = skin;
  const BodyRaster raster = body_raster(shape, BodySight::cut, square_on, frame_about(shape, square_on, 700), beside);
  const double expected = pi * (radius * radius - (radius - skin) * (radius - skin));
  CHECK(area_of(raster, Met::skin_cut) == Approx(expected).epsilon(0.01));
}

TEST_CASE("a plane cuts bars in ellipses and takes away what lies before it") {
  const double radius = 0.005, slope = 0.6;
  // Two bars: one through the plane at a slant, one wholly before it.
  StrutBody bars{{{-0.05 * slope, 0.05, 0}, {0.05 * slope, -0.05, 0}, {-0.03, -0.02, 0.03}, {0.03, -0.02, 0.03}},
                 {{0, 1, radius, radius}, {2, 3, radius, radius}}};
  const BodyRaster raster =
      body_raster(of_bars(bars), BodySight::cut, square_on, frame_about(of_bars(bars), square_on, 800), 0.0);
  // The section of a round bar at an angle to its axis: π r² over the cosine between axis and plane's normal.
  CHECK(area_of(raster, Met::lattice_cut) == Approx(pi * radius * radius * std::hypot(1, slope)).epsilon(0.01));
  CHECK(raster.coverage[pixel_at(raster, square_on, {0, 0, 0.03})] == 0);
}

TEST_CASE("a lattice of closed walls is cut flat") {
  const TriangleMesh block = box_mesh({0, -0.05, 0}, {0.08, 0.05, 0.03});
  BodyShape shape;
  shape.walls = &block;
  shape.cell_edge = 0.02;
  const BodyRaster raster = body_raster(shape, BodySight::cut, square_on, frame_about(shape, square_on, 500), 0.01);
  CHECK(area_of(raster, Met::lattice_cut) == Approx(0.08 * 0.03).epsilon(0.005));
}

TEST_CASE("any number of threads gives the same picture") {
  const StrutBody bars = centred_lattice({0, -0.03, -0.03}, {12, 6, 6}, 0.01, 0.0008);
  const TriangleMesh box = box_mesh({-0.002, -0.032, -0.032}, {0.122, 0.032, 0.032});
  BodyShape shape = of_bars(bars);
  shape.surface = &box;
  shape.skin_thickness = 0.001;
  const CellView view = cell_view(-35, 24);
  const auto draw = [&](std::size_t threads) {
    const tbb::global_control limit(tbb::global_control::max_allowed_parallelism, threads);
    return body_raster(shape, BodySight::lattice, view, frame_about(shape, view, 300));
  };
  const BodyRaster one = draw(1), four = draw(4);
  CHECK(one.tone == four.tone);
  CHECK(one.met == four.met);
  CHECK(one.station == four.station);
}
