#include "review_pack/png_image.hpp"

#include "crushwright/errors.hpp"

#include <cstddef>
#include <stdexcept>
#include <utility>

#include <fmt/format.h>
#include <png.h>

namespace crushwright {

namespace {

[[noreturn]] void fail(png_structp, png_const_charp words) {
  throw std::runtime_error(std::string("the PNG library refused a drawing: ") + words);
}

void append(png_structp writer, png_bytep bytes, std::size_t count) {
  static_cast<std::string*>(png_get_io_ptr(writer))->append(reinterpret_cast<const char*>(bytes), count);
}

/// Owns the library's two records.
class Writer {
public:
  Writer() : png_(png_create_write_struct(PNG_LIBPNG_VER_STRING, nullptr, fail, nullptr)) {
    info_ = png_ == nullptr ? nullptr : png_create_info_struct(png_);
    if (info_ == nullptr) {
      throw std::runtime_error("the PNG library could not start");
    }
  }
  ~Writer() { png_destroy_write_struct(&png_, &info_); }
  Writer(const Writer&) = delete;
  Writer& operator=(const Writer&) = delete;

  std::string write(const GreyImage& image) {
    begin(image.width, image.height, PNG_COLOR_TYPE_GRAY_ALPHA);
    png_set_filter(png_, 0, PNG_ALL_FILTERS);
    png_write_info(png_, info_);
    const std::size_t width = static_cast<std::size_t>(image.width);
    std::vector<png_byte> row(2 * width);
    for (std::size_t y = 0; y < static_cast<std::size_t>(image.height); ++y) {
      for (std::size_t x = 0; x < width; ++x) {
        row[2 * x] = image.grey[y * width + x];
        row[2 * x + 1] = image.coverage[y * width + x];
      }
      png_write_row(png_, row.data());
    }
    return end();
  }

  std::string write(const PaletteImage& image) {
    begin(image.width, image.height, PNG_COLOR_TYPE_PALETTE);
    png_set_filter(png_, 0, PNG_FILTER_NONE); // neighbours in a palette are not neighbours in colour
    std::vector<png_color> colours;
    std::vector<png_byte> opacity;
    for (const auto& [red, green, blue, opaque] : image.palette) {
      colours.push_back({red, green, blue});
      opacity.push_back(opaque);
    }
    png_set_PLTE(png_, info_, colours.data(), static_cast<int>(colours.size()));
    png_set_tRNS(png_, info_, opacity.data(), static_cast<int>(opacity.size()), nullptr);
    png_write_info(png_, info_);
    const std::size_t width = static_cast<std::size_t>(image.width);
    for (std::size_t y = 0; y < static_cast<std::size_t>(image.height); ++y) {
      png_write_row(png_, image.places.data() + y * width);
    }
    return end();
  }

private:
  png_structp png_ = nullptr;
  png_infop info_ = nullptr;
  std::string bytes_;

  void begin(int width, int height, int colour_type) {
    png_set_write_fn(png_, &bytes_, append, nullptr);
    png_set_IHDR(png_, info_, static_cast<png_uint_32>(width), static_cast<png_uint_32>(height), 8, colour_type,
                 PNG_INTERLACE_NONE, PNG_COMPRESSION_TYPE_DEFAULT, PNG_FILTER_TYPE_DEFAULT);
    png_set_compression_level(png_, 9);
  }

  std::string end() {
    png_write_end(png_, nullptr);
    return std::move(bytes_);
  }
};

} // namespace

std::string png_bytes(const GreyImage& image) {
  return Writer().write(image);
}

std::string png_bytes(const PaletteImage& image) {
  if (image.palette.empty() || image.palette.size() > 256) {
    throw OutOfDomain(fmt::format("a picture has 1 to 256 colours in its palette, not {}", image.palette.size()));
  }
  return Writer().write(image);
}

std::string base64(std::string_view bytes) {
  constexpr char digits[] = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
  std::string text;
  text.reserve((bytes.size() + 2) / 3 * 4);
  for (std::size_t i = 0; i < bytes.size(); i += 3) {
    const std::size_t held = bytes.size() - i < 3 ? bytes.size() - i : 3;
    std::uint32_t group = 0;
    for (std::size_t k = 0; k < 3; ++k) {
      group = group << 8 | (k < held ? static_cast<unsigned char>(bytes[i + k]) : 0U);
    }
    for (std::size_t k = 0; k < 4; ++k) {
      text += k <= held ? digits[group >> (18 - 6 * k) & 63U] : '=';
    }
  }
  return text;
}

} // namespace crushwright
