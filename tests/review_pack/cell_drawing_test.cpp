#include "crushwright/catalogue.hpp"
#include "crushwright/errors.hpp"
#include "review_pack/cell_drawing.hpp"
#include "review_pack/cell_raster.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <cstdint>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <numeric>
#include <string>
#include <vector>

#include <fmt/format.h>
#include <png.h>

using namespace crushwright;

namespace {

const std::filesystem::path source_dir = CRUSHWRIGHT_SOURCE_DIR;
const std::filesystem::path stored_drawings = source_dir / "docs" / "pictures" / "cells";

const Catalogue& catalogue() {
  static const Catalogue shipped({source_dir / "lattices"});
  return shipped;
}

std::string text_of(const std::filesystem::path& file) {
  std::ifstream stream(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(stream), {}};
}

std::string bytes_of_base64(const std::string& text) {
  const std::string digits = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
  std::string bytes;
  unsigned held = 0;
  int bits = 0;
  for (const char c : text) {
    const std::size_t digit = digits.find(c);
    if (digit == std::string::npos) {
      break;
    }
    held = held << 6 | static_cast<unsigned>(digit);
    bits += 6;
    if (bits >= 8) {
      bits -= 8;
      bytes += static_cast<char>(held >> bits & 0xFFU);
    }
  }
  return bytes;
}

/// Grey and alpha of the picture inside a drawing, read back by the PNG library; shape = (height, width, 2).
struct Picture {
  png_uint_32 width = 0, height = 0;
  std::vector<std::uint8_t> pixels;
};

Picture picture_in(const std::string& svg) {
  const std::string opening = "data:image/png;base64,";
  const std::size_t from = svg.find(opening);
  REQUIRE(from != std::string::npos);
  const std::string png = bytes_of_base64(svg.substr(from + opening.size(), svg.find('"', from) - from));
  png_image image{};
  image.version = PNG_IMAGE_VERSION;
  REQUIRE(png_image_begin_read_from_memory(&image, png.data(), png.size()) != 0);
  image.format = PNG_FORMAT_GA;
  Picture picture{image.width, image.height, std::vector<std::uint8_t>(PNG_IMAGE_SIZE(image))};
  REQUIRE(png_image_finish_read(&image, nullptr, picture.pixels.data(), 0, nullptr) != 0);
  return picture;
}

/// As the drawings of docs/cells.md are made: relative density 0.15, no arrows.
std::string documented_drawing(const std::string& id) {
  const UnitCell& cell = catalogue().cell(id);
  return cell_drawing_svg(cell, size_ratio(cell, 0.15));
}

/// Part of the picture that is metal.
double covered(const GreyImage& image) {
  const double sum = std::accumulate(image.coverage.begin(), image.coverage.end(), 0.0);
  return sum / 255 / static_cast<double>(image.coverage.size());
}

CellDrawingOptions small() {
  CellDrawingOptions options;
  options.samples = 32;
  options.pixels = 96;
  return options;
}

} // namespace

TEST_CASE("a cell drawn now looks like its stored drawing") {
  for (const char* id : {"octet", "gyroid_sheet"}) {
    INFO(id);
    const Picture stored = picture_in(text_of(stored_drawings / (std::string(id) + ".svg")));
    const Picture fresh = picture_in(documented_drawing(id));
    REQUIRE(fresh.width == stored.width);
    REQUIRE(fresh.height == stored.height);
    std::size_t different = 0;
    for (std::size_t i = 0; i < fresh.pixels.size(); ++i) {
      // Two steps of four grey levels, which rounding on another machine may give.
      different += std::abs(int(fresh.pixels[i]) - int(stored.pixels[i])) > 8 ? 1U : 0U;
    }
    CHECK(static_cast<double>(different) < 0.002 * static_cast<double>(fresh.pixels.size()));
  }
}

TEST_CASE("every cell with a shape has its drawing and its entry in the documents") {
  const std::string page = text_of(source_dir / "docs" / "cells.md");
  for (const std::string& id : catalogue().cell_ids()) {
    INFO(id);
    CHECK(page.find(fmt::format("`{}`", id)) != std::string::npos);
    const std::filesystem::path file = stored_drawings / (id + ".svg");
    if (!has_drawing(catalogue().cell(id))) {
      CHECK_FALSE(std::filesystem::exists(file));
      continue;
    }
    CHECK(page.find(fmt::format("pictures/cells/{}.svg", id)) != std::string::npos);
    REQUIRE(std::filesystem::exists(file));
    CHECK(std::filesystem::file_size(file) < 120'000);
  }
}

TEST_CASE("the same cell and size give the same bytes") {
  const UnitCell& cell = catalogue().cell("bcc");
  CHECK(cell_drawing_svg(cell, 0.2, small()) == cell_drawing_svg(cell, 0.2, small()));
}

TEST_CASE("thicker struts cover more of the picture") {
  const UnitCell& cell = catalogue().cell("octet");
  const auto metal = [&](double ratio) {
    return covered(cell_raster(drawn_solid(cell, ratio, 48, 1), cell_view(), 96).image);
  };
  CHECK(metal(0.06) < metal(0.10));
  CHECK(metal(0.10) < metal(0.16));
}

TEST_CASE("the shadow of one standing strut is its diameter times its length") {
  UnitCell cell = catalogue().cell("simple_cubic");
  cell.struts = {{{0.5, 0.5, 0}, {0.5, 0.5, 1}}};
  const double diameter = 0.2, elevation = 21 * 3.14159265358979 / 180;
  const CellRaster raster = cell_raster(drawn_solid(cell, diameter, 96, 1), cell_view(27, 21), 480);
  const double area =
      covered(raster.image) * raster.frame.width * raster.frame.height * raster.frame.pixel * raster.frame.pixel;
  // Round ends: the shadow of the axis, cos(elevation) long, and all points within a radius of it.
  const double expected = diameter * std::cos(elevation) + 3.14159265358979 * diameter * diameter / 4;
  CHECK(area == Approx(expected).epsilon(0.01));
}

TEST_CASE("metal hides a point behind it and not one before it") {
  UnitCell cell = catalogue().cell("simple_cubic");
  cell.struts = {{{0.5, 0.5, 0}, {0.5, 0.5, 1}}};
  const CellView view = cell_view();
  const CellRaster raster = cell_raster(drawn_solid(cell, 0.2, 48, 1), view, 240);
  const auto beside_middle = [&](double way) {
    return ViewVector{0.5 + way * view.toward[0], 0.5 + way * view.toward[1], 0.5 + way * view.toward[2]};
  };
  CHECK(raster.hides(view, beside_middle(-0.4)));
  CHECK_FALSE(raster.hides(view, beside_middle(0.4)));
}

TEST_CASE("arrows name the direction of crushing and are there only when asked for") {
  const UnitCell& cell = catalogue().cell("bcc");
  CellDrawingOptions options = small();
  CHECK(cell_drawing_svg(cell, 0.2, options).find("crush 001") == std::string::npos);
  options.crush_direction = "001";
  CHECK(cell_drawing_svg(cell, 0.2, options).find(">crush 001</text>") != std::string::npos);
  options.crush_direction = std::string("up");
  CHECK_THROWS_AS(cell_drawing_svg(cell, 0.2, options), OutOfDomain);
}

TEST_CASE("a drawing asks nothing of the network and keeps hostile names as text") {
  UnitCell cell = catalogue().cell("bcc");
  cell.name = "<script>alert(1)</script>";
  const std::string svg = cell_drawing_svg(cell, 0.2, small());
  CHECK(svg.find("<script") == std::string::npos);
  CHECK(svg.find("href=\"http") == std::string::npos);
  CHECK(svg.find("url(") == std::string::npos);
}

TEST_CASE("a foam has no drawing and says why") {
  const UnitCell& foam = catalogue().cell("metal_foam_closed");
  CHECK_FALSE(has_drawing(foam));
  CHECK_THROWS_WITH(drawn_solid(foam, 0.1, 32, 1),
                    "cell metal_foam_closed: a foam is stated by its density and has no shape to draw");
}
