#include "review_pack/png_image.hpp"

#include <cstddef>
#include <stdexcept>

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
    std::string bytes;
    png_set_write_fn(png_, &bytes, append, nullptr);
    png_set_IHDR(png_, info_, static_cast<png_uint_32>(image.width), static_cast<png_uint_32>(image.height), 8,
                 PNG_COLOR_TYPE_GRAY_ALPHA, PNG_INTERLACE_NONE, PNG_COMPRESSION_TYPE_DEFAULT,
                 PNG_FILTER_TYPE_DEFAULT);
    png_set_compression_level(png_, 9);
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
    png_write_end(png_, nullptr);
    return bytes;
  }

private:
  png_structp png_ = nullptr;
  png_infop info_ = nullptr;
};

} // namespace

std::string png_bytes(const GreyImage& image) {
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
