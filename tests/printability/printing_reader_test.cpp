#include "printability/printing_reader.hpp"

#include "printability/sample_subjects.hpp"

#include <catch2/catch.hpp>
#include <cmath>

using namespace crushwright;
using sample_subjects::degree;

namespace {

PrintingInput read(const std::string& block) {
  Mapping root = Mapping::read_text("schema: 1\nprinting:\n" + block, "part.yaml");
  root.allow({"printing"});
  return *read_printing(root);
}

std::string message(const std::string& block) {
  try {
    read(block);
  } catch (const InputError& error) {
    return error.what();
  }
  return "no error";
}

const std::string machine = "  machine: {build_volume: [250 mm, 250 mm, 300 mm]}\n";
const std::string direction = "  build_direction: \"-x\"\n";

} // namespace

TEST_CASE("a case without the block has no printing") {
  Mapping root = Mapping::read_text("schema: 1\n", "part.yaml");
  root.allow({"printing"});
  CHECK_FALSE(read_printing(root).has_value());
}

TEST_CASE("a build direction is a signed axis or three numbers of any length") {
  CHECK(read(direction + machine).build_direction == BuildDirection{-1, 0, 0});
  CHECK(read("  build_direction: +z\n" + machine).build_direction == BuildDirection{0, 0, 1});
  const BuildDirection leaning = read("  build_direction: [-3, 0, 4]\n" + machine).build_direction;
  CHECK(leaning[0] == Approx(-0.6).margin(1e-12));
  CHECK(leaning[2] == Approx(0.8).margin(1e-12));
}

TEST_CASE("without an angle of its own a machine has 45 degrees, by common practice") {
  const PrintMachine given = read(direction + machine).machine;
  CHECK(given.self_supporting_angle.value == Approx(45 * degree).margin(1e-12));
  CHECK(given.self_supporting_angle.source.standing == Standing::common_practice);
  CHECK(given.build_volume == std::array<double, 3>{0.25, 0.25, 0.3});
  CHECK_FALSE(given.smallest_feature.has_value());
}

TEST_CASE("rates are read in the units of the trade") {
  const PrintingInput input = read(direction + machine +
                                   "  rates:\n"
                                   "    layer_thickness: 60 um\n"
                                   "    recoat_time: 10 s\n"
                                   "    volume_rate: 36 cm^3/h\n"
                                   "    contour_rate: 3600 cm^2/h\n"
                                   "    currency: crowns\n"
                                   "    cost_per_hour: {value: 400, source: own offer, standing: read}\n"
                                   "    powder_loss: 5 %\n");
  REQUIRE(input.rates.has_value());
  CHECK(input.rates->layer_thickness.value == Approx(60e-6).epsilon(1e-12));
  CHECK(input.rates->volume_rate.value == Approx(1e-8).epsilon(1e-12));
  CHECK(input.rates->contour_rate->value == Approx(1e-4).epsilon(1e-12));
  CHECK(input.rates->cost_per_hour->value == 400);
  CHECK(input.rates->parts_per_build == 1);
}

TEST_CASE("a direction that is none is refused") {
  CHECK(message("  build_direction: up\n" + machine) == "part.yaml:3:20: printing.build_direction cannot be `up`\n"
                                                        "    3 |   build_direction: up\n"
                                                        "      |                    ^\n"
                                                        "   Write one of: -x, +x, -y, +y, -z, +z.");
  CHECK(message("  build_direction: [0, 0, 0]\n" + machine) ==
        "part.yaml:3:3: printing.build_direction: a direction of three zeros points nowhere\n"
        "    3 |   build_direction: [0, 0, 0]\n"
        "      |   ^\n"
        "   Give the direction in which the part grows, for instance `\"-x\"`.");
  CHECK(message("  build_direction: [1, 0]\n" + machine) ==
        "part.yaml:3:3: printing.build_direction: three numbers were expected; there are 2\n"
        "    3 |   build_direction: [1, 0]\n"
        "      |   ^\n"
        "   Give the direction along x (station), y (left) and z (up), for instance `[-1, 0, 1]`.");
}

TEST_CASE("a build volume has three sides") {
  CHECK(message(direction + "  machine: {build_volume: [250 mm, 300 mm]}\n") ==
        "part.yaml:4:13: printing.machine.build_volume: three lengths were expected; there are 2\n"
        "    4 |   machine: {build_volume: [250 mm, 300 mm]}\n"
        "      |             ^\n"
        "   Give the two sides of the platform and the height, for instance `[250 mm, 250 mm, 300 mm]`.");
}

TEST_CASE("prices and their currency come together") {
  const std::string rates = "  rates: {layer_thickness: 60 um, recoat_time: 10 s, volume_rate: 36 cm^3/h";
  CHECK(message(direction + machine + rates + ", cost_per_kg: 70}\n") ==
        "part.yaml:5:3: printing.rates: prices are stated without their currency\n"
        "    5 |   rates: {layer_thickness: 60 um, recoat_t...\n"
        "      |   ^\n"
        "   Add `currency:` with a word of your own.");
  CHECK(message(direction + machine + rates + ", currency: crowns}\n")
            .find("printing.rates.currency: a currency is stated, but no price in it") != std::string::npos);
}

TEST_CASE("a joint states its bolts") {
  CHECK(message(direction + machine +
                "  joint: {flange_thickness: 4 mm, bolts: 0, bolt_mass: 9 g, bolt_capacity: 9 kN}\n")
            .find("printing.joint.bolts must be a whole number from 1 to 1000, not `0`") != std::string::npos);
  const PrintJoint joint = *read(direction + machine +
                                 "  joint: {flange_thickness: 4 mm, bolts: 8, bolt_mass: 9 g, bolt_capacity: 9 kN}\n")
                                .joint;
  CHECK(joint.bolts == 8);
  CHECK(joint.bolt_capacity.value == Approx(9000).epsilon(1e-12));
}
