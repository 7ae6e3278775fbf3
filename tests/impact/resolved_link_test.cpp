#include "crush_curve/test_layers.hpp"
#include "crushwright/errors.hpp"
#include "impact/resolved_link.hpp"

#include <catch2/catch.hpp>

using crushwright::CrushLink;
using crushwright::Layer;
using crushwright::OutOfDomain;

namespace {

/// 100 mm, 10 kN flat to 60 % strain from a rise of 2 %; elastic at 1 MN per unit strain, 10 MN/m.
Layer flat_layer() {
  return test_layers::layer(0, 0.1, 10e3, test_layers::rigid_plastic_locking(0.6, 0.02), 0.4);
}

} // namespace

TEST_CASE("a link loads along its layer's curve and unloads and reloads along the elastic line") {
  CrushLink link(flat_layer(), 1, 1);
  link.shorten_to(0.001); // half of the rise, 5 MN/m
  CHECK(link.force() == Approx(5e3));
  CHECK_FALSE(link.collapsed());
  link.shorten_to(0.02);
  CHECK(link.force() == Approx(10e3));
  CHECK(link.collapsed());
  CHECK(link.stored() == Approx(5)); // F² / 2k
  link.shorten_to(0.0195);
  CHECK(link.force() == Approx(5e3));
  CHECK_FALSE(link.loading());
  link.shorten_to(0.0198);
  CHECK(link.force() == Approx(8e3));
  link.shorten_to(0.03);
  CHECK(link.force() == Approx(10e3));
}

TEST_CASE("a link yields in tension at its collapse force and keeps what it had crushed") {
  CrushLink link(flat_layer(), 1, 1);
  link.shorten_to(0.02);
  link.shorten_to(0.0185); // 0.5 mm beyond where its force has gone
  CHECK(link.force() == Approx(-5e3));
  link.shorten_to(0.017); // 1 mm of yielding
  CHECK(link.force() == Approx(-10e3));
  link.shorten_to(0.018);
  CHECK(link.force() == Approx(0).margin(1e-6));
  link.shorten_to(0.0189);
  CHECK(link.force() == Approx(9e3));
  CHECK_FALSE(link.loading());
  link.shorten_to(0.02);
  CHECK(link.force() == Approx(10e3));
  CHECK(link.loading());
}

TEST_CASE("factors scale a link's force and shortening") {
  CrushLink link(flat_layer(), 1.2, 0.5);
  link.shorten_to(0.0005);
  CHECK(link.force() == Approx(6e3));
  CHECK(link.elastic_stiffness() == Approx(24e6));
}

TEST_CASE(
    "a curve that starts with a force rises with the elastic slope, and a lock is no stiffer than solid metal") {
  CrushLink link(test_layers::layer(0, 0.1, 10e3, test_layers::rigid_plastic_locking(0.6), 0.4), 1, 1);
  link.shorten_to(0.0005);
  CHECK(link.force() == Approx(5e3));
  link.shorten_to(0.061 + 1e-6); // the flat ends 60 mm after the rise of 1 mm
  CHECK(link.force() == Approx(10e3 + 1e9 * 1e-6));
}

TEST_CASE("a layer without strength or without any stiffness is refused as a link") {
  Layer layer = test_layers::layer(0, 0.1, 10e3, test_layers::rigid_plastic_locking(0.6), 0.4);
  layer.elastic_force = 0;
  CHECK_THROWS_AS(CrushLink(layer, 1, 1), OutOfDomain);
  layer.lattice_force = 0;
  CHECK_THROWS_AS(CrushLink(layer, 1, 1), OutOfDomain);
  layer.height = 0;
  CHECK_THROWS_AS(CrushLink(layer, 1, 1), OutOfDomain);
}
