#include "crash_case/sample_case.hpp"

#include <catch2/catch.hpp>

using namespace crushwright;
using namespace sample_case;

namespace {

const std::string printing = "printing:\n  build_direction: \"-x\"\n  machine: {smallest_feature: 0.4 mm}\n";
const std::string rates = "  rates: {layer_thickness: 60 um, recoat_time: 10 s, volume_rate: 36 cm^3/h, currency: "
                          "crowns, cost_per_kg: 9}\n";
const std::string sizing = "size: {cell_edges: [10 mm], smallest: 1 mm, largest: 2 mm";

} // namespace

TEST_CASE("a limit on printing needs the block that it comes from") {
  CHECK(message(with_limit("{quantity: build_height, at_most: 300 mm}")) ==
        "boxes.yaml:33:20: limits.peak.quantity: build_height needs the block `printing`\n"
        "   33 |   peak: {quantity: build_height, at_most: 300 mm}\n"
        "      |                    ^\n"
        "   Add for instance `printing: {build_direction: \"-x\", machine: {build_volume: [250 mm, 250 mm, 300 "
        "mm]}}`.");
  CHECK(message(with_limit("{quantity: build_height, at_most: 300 mm}") + printing) == "no error");
}

TEST_CASE("limits on time and cost need rates and prices, one on pieces a build volume") {
  CHECK(message(with_limit("{quantity: build_time, at_most: 30 h}") + printing) ==
        "boxes.yaml:33:20: limits.peak.quantity: build_time needs `printing.rates`\n"
        "   33 |   peak: {quantity: build_time, at_most: 30 h}\n"
        "      |                    ^\n"
        "   Add the machine's layer_thickness, recoat_time and volume_rate.");
  CHECK(message(with_limit("{quantity: build_pieces, at_most: 1}") + printing)
            .find("build_pieces needs `printing.machine.build_volume`") != std::string::npos);
  CHECK(message(with_limit("{quantity: build_cost, at_most: 900}") + printing + rates) == "no error");
}

TEST_CASE("a search for the shortest build needs rates") {
  CHECK(message(text + sizing + ", objective: build_time}\n")
            .find("size.objective: build_time needs the block `printing`") != std::string::npos);
  CHECK(message(text + sizing + ", objective: build_time}\n" + printing + rates) == "no error");
  CHECK(read(text + sizing + ", objective: build_cost}\n" + printing + rates).sizing->objective ==
        Objective::build_cost);
  CHECK(read(text + sizing + "}\n").sizing->objective == Objective::mass);
}

TEST_CASE("a limit on printing belongs to no impact") {
  CHECK(message(with_limit("{impact: full, quantity: escape_opening, at_least: 1 mm}") + printing)
            .find("escape_opening does not depend on an impact") != std::string::npos);
}
