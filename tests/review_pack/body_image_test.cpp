#include "review_pack/body_image.hpp"

#include "crushwright/errors.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <cstdint>
#include <vector>

#include <png.h>

using namespace crushwright;

namespace {

/// Red, green, blue, alpha of a PNG file read back by the PNG library; shape = (height, width, 4).
std::vector<std::uint8_t> read_back(const std::string& bytes, png_uint_32& width, png_uint_32& height) {
  png_image image{};
  image.version = PNG_IMAGE_VERSION;
  REQUIRE(png_image_begin_read_from_memory(&image, bytes.data(), bytes.size()) != 0);
  image.format = PNG_FORMAT_RGBA;
  width = image.width;
  height = image.height;
  std::vector<std::uint8_t> pixels(PNG_IMAGE_SIZE(image));
  REQUIRE(png_image_finish_read(&image, nullptr, pixels.data(), 0, nullptr) != 0);
  return pixels;
}

/// A row of pixels of lattice, fully covered and fully lit, at rising stations.
BodyRaster row_of(const std::vector<float>& stations) {
  BodyRaster raster;
  raster.frame.width = static_cast<int>(stations.size());
  raster.frame.height = 1;
  raster.met.assign(stations.size(), Met::lattice);
  raster.station = stations;
  raster.tone.assign(stations.size(), 1);
  raster.coverage.assign(stations.size(), 1);
  raster.ghost.assign(stations.size(), 0);
  return raster;
}

std::array<std::uint8_t, 4> shown(const PaletteImage& image, std::size_t pixel) {
  return image.palette.at(image.places.at(pixel));
}

} // namespace

TEST_CASE("a picture with a palette is read back as it was written") {
  PaletteImage image;
  image.width = 3;
  image.height = 2;
  image.palette = {{0, 0, 0, 0}, {29, 79, 124, 255}, {200, 100, 50, 128}};
  image.places = {0, 1, 2, 2, 1, 0};
  png_uint_32 width = 0, height = 0;
  const std::vector<std::uint8_t> pixels = read_back(png_bytes(image), width, height);
  REQUIRE(width == 3);
  REQUIRE(height == 2);
  for (std::size_t i = 0; i < 6; ++i) {
    for (std::size_t k = 0; k < 4; ++k) {
      CHECK(int(pixels[4 * i + k]) == int(image.palette[image.places[i]][k]));
    }
  }
}

TEST_CASE("a picture without colours or with more than 256 is refused") {
  PaletteImage image;
  image.width = image.height = 1;
  image.places = {0};
  CHECK_THROWS_AS(png_bytes(image), OutOfDomain);
  image.palette.resize(257);
  CHECK_THROWS_WITH(png_bytes(image), "a picture has 1 to 256 colours in its palette, not 257");
}

TEST_CASE("in full light a station shows the colour of its range, as in the scale") {
  const StationColours colours{{0.1, 0.2}, {{210, 230, 250}, {30, 60, 120}}};
  const PaletteImage image = body_image(row_of({-0.01F, 0.05F, 0.15F, 0.3F}), colours);
  for (std::size_t pixel = 0; pixel < 4; ++pixel) {
    const Colour& expected = colours.colours[pixel < 2 ? 0 : 1];
    CHECK(shown(image, pixel) == std::array<std::uint8_t, 4>{expected.red, expected.green, expected.blue, 255});
  }
}

TEST_CASE("less light is darker and half coverage is half clear") {
  const StationColours colours{{1}, {{200, 180, 160}}};
  BodyRaster raster = row_of({0, 0, 0});
  raster.tone = {1, 0.5F, 1};
  raster.coverage[2] = 0.5F;
  const PaletteImage image = body_image(raster, colours);
  CHECK(int(shown(image, 1)[0]) == Approx(100).margin(2));
  CHECK(int(shown(image, 0)[3]) == 255);
  CHECK(int(shown(image, 2)[3]) == Approx(128).margin(1));
}

TEST_CASE("in grey the lit steps of a scale keep their order with even spacing") {
  const ValueScale scale = density_scale(0.08, 0.24);
  StationColours colours{{}, scale.colours};
  std::vector<float> stations;
  for (std::size_t i = 0; i < scale.colours.size(); ++i) {
    colours.ends.push_back(0.01 * static_cast<double>(i + 1));
    stations.push_back(0.01F * (static_cast<float>(i) + 0.5F));
  }
  const PaletteImage image = body_image(row_of(stations), colours);
  const auto light = [&](std::size_t pixel) {
    const auto& [red, green, blue, alpha] = shown(image, pixel);
    return lightness({red, green, blue});
  };
  const double even = (light(0) - light(stations.size() - 1)) / static_cast<double>(stations.size() - 1);
  CHECK(even > 7);
  for (std::size_t i = 1; i < stations.size(); ++i) {
    CHECK(light(i - 1) - light(i) == Approx(even).margin(0.5));
  }
}

TEST_CASE("a picture of many ranges takes fewer levels of light, and too many ranges are refused") {
  BodyRaster raster;
  StationColours colours;
  std::vector<float> stations;
  for (int range = 0; range < 300; ++range) {
    colours.ends.push_back(range + 1);
    colours.colours.push_back({static_cast<std::uint8_t>(range % 250), static_cast<std::uint8_t>(range / 250), 0});
    stations.push_back(static_cast<float>(range) + 0.5F);
  }
  CHECK_THROWS_AS(body_image(row_of(stations), colours), OutOfDomain);
  raster = row_of(stations);
  for (std::size_t i = 0; i < raster.station.size(); ++i) {
    raster.station[i] = static_cast<float>(i % 8);
    raster.tone[i] = static_cast<float>(i) / 300;
  }
  colours.ends.resize(8);
  colours.colours.resize(8);
  CHECK(body_image(raster, colours).palette.size() <= 256);
}
