// Closed forms of beam theory as in any handbook of strength of materials (derived): P L^3 / 3 E I + P L / k G A,
// w L^4 / 8 E I + w L^2 / 2 k G A, and the integral of a taper.
#include "column_check/service_beam.hpp"

#include "column_check/service_samples.hpp"
#include "column_check/service_shear.hpp"
#include "crushwright/errors.hpp"

#include <catch2/catch.hpp>
#include <cmath>

using namespace service_samples;

namespace {

constexpr double length = 0.5, width = 0.08, height = 0.1;
const BeamMaterial lattice = made_up_lattice();

BeamColumn even_bar(std::size_t layers = 8) {
  return column_of(length, layers, [](double station) { return bare(station, width, height); });
}

BeamLoads force(const SpaceVector& size, double station = 0) {
  BeamLoads loads;
  loads.force = size;
  loads.station = station;
  return loads;
}

double bending(Bending axis) {
  return lattice.youngs_modulus *
         (axis == about_vertical ? height * std::pow(width, 3) : width * std::pow(height, 3)) / 12;
}

constexpr double shear_area = lattice_shear_coefficient * width * height;

} // namespace

TEST_CASE("a sideways force on the tip bends and shears an even bar as the handbook says") {
  const BeamResponse sideways = beam_response(even_bar(), force({0, 3000, 0}));
  const double shear = 3000 * length / (shear_area * lattice.shear_modulus);
  CHECK(sideways.tip_displacement[1] ==
        Approx(3000 * std::pow(length, 3) / (3 * bending(about_vertical)) + shear).epsilon(1e-12));
  CHECK(sideways.tip_displacement[0] == 0);
  CHECK(sideways.tip_displacement[2] == 0);
  const BeamResponse up = beam_response(even_bar(), force({0, 0, 3000}));
  CHECK(up.tip_displacement[2] ==
        Approx(3000 * std::pow(length, 3) / (3 * bending(about_lateral)) + shear).epsilon(1e-12));
  CHECK(up.cuts.back().load.moment[1] == Approx(3000 * length)); // r × F: a force up at a lesser x turns about +y
  CHECK(sideways.cuts.back().load.moment[2] == Approx(-3000 * length));
}

TEST_CASE("a force between tip and root leaves the part before it straight") {
  // Handbook: P b^2 (3 L - b) / 6 E I with b from the root to the force, and P b / k G A.
  const double station = 0.17, b = length - station;
  const BeamResponse response = beam_response(even_bar(), force({0, 0, 2000}, station));
  CHECK(response.tip_displacement[2] == Approx(2000 * b * b * (3 * length - b) / (6 * bending(about_lateral)) +
                                               2000 * b / (shear_area * lattice.shear_modulus))
                                            .epsilon(1e-12));
  CHECK(response.cuts.front().load.force[2] == 0);
  CHECK(response.cuts.back().load.moment[1] == Approx(2000 * b));
}

TEST_CASE("an even pressure bends an even bar as the handbook says") {
  BeamLoads loads;
  loads.pressure = 50e3;
  loads.pushes = {0, -1, 0};
  const double per_length = 50e3 * height; // a push along y works on the height
  const BeamResponse response = beam_response(even_bar(), loads);
  CHECK(-response.tip_displacement[1] ==
        Approx(per_length * std::pow(length, 4) / (8 * bending(about_vertical)) +
               per_length * length * length / (2 * shear_area * lattice.shear_modulus))
            .epsilon(1e-12)); // third order, so Simpson's rule is exact

  CHECK(response.cuts.back().load.force[1] == Approx(-per_length * length).epsilon(1e-12));
  CHECK(response.cuts.back().load.moment[2] == Approx(per_length * length * length / 2).epsilon(1e-12));
}

TEST_CASE("own mass under acceleration pulls the other way, with the tip's mass at the tip") {
  BeamLoads loads;
  loads.acceleration = {0, 0, 80};
  loads.tip_force = {0, 0, -1.5 * 80};
  const double mass = lattice.density * width * height * length;
  const BeamResponse response = beam_response(even_bar(), loads);
  CHECK(response.cuts.back().load.force[2] == Approx(-80 * (mass + 1.5)).epsilon(1e-12));
  CHECK(response.cuts.back().load.moment[1] == Approx(-80 * (0.5 * mass + 1.5) * length).epsilon(1e-12));
}

TEST_CASE("an axial force shortens an even bar by N L / E A and does not bend it") {
  const BeamResponse response = beam_response(even_bar(), force({-9000, 0, 0}));
  CHECK(response.tip_displacement[0] ==
        Approx(-9000 * length / (lattice.youngs_modulus * width * height)).epsilon(1e-12));
  CHECK(response.cuts.back().load.moment == SpaceVector{0, 0, 0});
}

TEST_CASE("a taper bends by its closed form, with the square of the layers") {
  // Height h0 (1 + a s/L), width even: ∫ P s^2 / E I ds = 12 P L^3 / (E b h0^3 a^3) [ln u + 2/u - 1/(2 u^2)] from 1
  // to 1 + a, and ∫ P / k G A ds = P L ln(1 + a) / (k G b h0 a) (derived).
  const double h0 = 0.06, a = 1.5, p = 1000;
  const auto primitive = [](double u) { return std::log(u) + 2 / u - 1 / (2 * u * u); };
  const double exact =
      12 * p * std::pow(length, 3) / (lattice.youngs_modulus * width * std::pow(h0 * a, 3)) *
          (primitive(1 + a) - primitive(1)) +
      p * length * std::log(1 + a) / (lattice_shear_coefficient * lattice.shear_modulus * width * h0 * a);
  std::vector<double> errors;
  for (const std::size_t layers : {8U, 16U, 32U, 64U}) {
    const BeamColumn taper = column_of(
        length, layers, [&](double station) { return bare(station, width, h0 * (1 + a * station / length)); });
    errors.push_back(std::abs(beam_response(taper, force({0, 0, p})).tip_displacement[2] / exact - 1));
  }
  for (std::size_t i = 1; i < errors.size(); ++i)
    CHECK(std::log2(errors[i - 1] / errors[i]) == Approx(2).margin(0.15));
  CHECK(errors.back() < 3e-4);
}

TEST_CASE("loads put together displace and load as the sum of what each does alone") {
  const BeamColumn taper = column_of(length, 12, [](double station) {
    BeamSection section = box(station, 0.08 + 0.1 * station, 0.06 + 0.2 * station, 0.001);
    section.centroid = {0.03 * station, -0.05 * station};
    return section;
  });
  // At a section, so that all runs are cut at the same places.
  BeamLoads pull = force({-8000, 2000, 500}, taper.sections[2].station), flow, kerb, together = pull;
  flow.pressure = together.pressure = 6e3;
  flow.pushes = together.pushes = {0, -1, 0};
  kerb.acceleration = together.acceleration = {10, -30, 80};
  kerb.tip_force = together.tip_force = {-5, 15, -40};
  const BeamResponse all = beam_response(taper, together);
  const std::vector<BeamResponse> each = {beam_response(taper, pull), beam_response(taper, flow),
                                          beam_response(taper, kerb)};
  for (std::size_t i = 0; i < 3; ++i) {
    double displacement = 0, moment = 0, sum = 0;
    for (const BeamResponse& one : each) {
      displacement += one.tip_displacement[i];
      moment += one.cuts.back().load.moment[i];
      sum += one.cuts.back().load.force[i];
    }
    CHECK(all.tip_displacement[i] == Approx(displacement).epsilon(1e-10));
    CHECK(all.cuts.back().load.moment[i] == Approx(moment).epsilon(1e-10));
    CHECK(all.cuts.back().load.force[i] == Approx(sum).epsilon(1e-10));
  }
}

TEST_CASE("a pull works both ways: displacement along b under a force along a is that along a under b") {
  // Betti and Maxwell; the centroids drift sideways so that a pull bends too.
  const BeamColumn bent = column_of(length, 10, [](double station) {
    BeamSection section = box(station, 0.09, 0.07, 0.001);
    section.centroid = {0.1 * station, -0.06 * station};
    return section;
  });
  for (std::size_t i = 0; i < 3; ++i)
    for (std::size_t j = 0; j < i; ++j) {
      SpaceVector a{}, b{};
      a[i] = b[j] = 1000;
      const double there = beam_response(bent, force(a)).tip_displacement[j];
      CHECK(there == Approx(beam_response(bent, force(b)).tip_displacement[i]).epsilon(1e-10));
    }
  CHECK(beam_response(bent, force({-1000, 0, 0})).cuts.back().load.moment[2] == Approx(-0.1 * length * 1000));
}

TEST_CASE("skin and core share a bending moment by their stiffness") {
  const BeamSection section = box(0, 0.1, 0.1, 0.002);
  const double skin = section.skin.youngs_modulus * section.skin_second_moment[about_vertical];
  const double core = section.lattice.youngs_modulus * section.lattice_second_moment[about_vertical];
  CHECK(section.elastic_bending(about_vertical) == Approx(skin + core));
  const BeamColumn column = column_of(length, 4, [](double station) { return box(station, 0.1, 0.1, 0.002); });
  const double shear = 1000 * length / shear_stiffness(section, about_vertical);
  CHECK(beam_response(column, force({0, 1000, 0})).tip_displacement[1] ==
        Approx(1000 * std::pow(length, 3) / (3 * (skin + core)) + shear).epsilon(1e-12));
}

TEST_CASE("a force beyond the attachment and a section without stiffness are refused") {
  CHECK_THROWS_AS(beam_response(even_bar(), force({0, 1, 0}, length + 0.001)), crushwright::OutOfDomain);
  CHECK_THROWS_AS(beam_response(even_bar(), force({0, 1, 0}, -0.001)), crushwright::OutOfDomain);
  BeamColumn hollow = even_bar();
  hollow.sections[2].lattice_area = 0;
  CHECK_THROWS_AS(beam_response(hollow, force({0, 1, 0})), crushwright::OutOfDomain);
}
