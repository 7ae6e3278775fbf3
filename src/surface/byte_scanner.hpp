#pragma once
#include <bit>
#include <cstddef>
#include <cstdint>
#include <string_view>
#include <type_traits>

namespace crushwright {

/// Numbers from bytes in either order, on any machine; the caller has made sure that enough bytes are there.
class ByteScanner {
public:
  explicit ByteScanner(std::string_view bytes, bool lowest_first = true)
      : bytes_(bytes), lowest_first_(lowest_first) {}

  std::size_t left() const { return bytes_.size() - at_; }
  void pass(std::size_t count) { at_ += count; }

  template <class Number>
  Number take() {
    using Bits =
        std::conditional_t<sizeof(Number) == 8, std::uint64_t,
                           std::conditional_t<sizeof(Number) == 4, std::uint32_t,
                                              std::conditional_t<sizeof(Number) == 2, std::uint16_t, std::uint8_t>>>;
    std::uint64_t bits = 0;
    for (std::size_t i = 0; i < sizeof(Number); ++i) {
      const std::size_t place = lowest_first_ ? at_ + sizeof(Number) - 1 - i : at_ + i;
      bits = bits << 8 | static_cast<unsigned char>(bytes_[place]);
    }
    at_ += sizeof(Number);
    return std::bit_cast<Number>(static_cast<Bits>(bits));
  }

private:
  std::string_view bytes_;
  std::size_t at_ = 0;
  bool lowest_first_;
};

} // namespace crushwright
