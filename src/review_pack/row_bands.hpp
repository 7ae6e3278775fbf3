#pragma once
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <vector>

namespace crushwright {

/// Squares of a grid from a first to a last one; empty when the last lies before the first.
struct Span {
  std::size_t first = 1, last = 0;
};

/// The squares of `count` whose middles, 0.5, 1.5, ..., lie between two places.
inline Span span_of(double low, double high, std::size_t count) {
  if (!(high >= 0.5) || !(low <= static_cast<double>(count) - 0.5)) {
    return {};
  }
  return {static_cast<std::size_t>(std::max(0.0, std::ceil(low - 0.5))),
          static_cast<std::size_t>(std::min(static_cast<double>(count) - 1, std::floor(high - 0.5)))};
}

/// Which items touch which band of rows, each band's items in their own order, so that bands may be drawn at the same
/// time and the picture does not depend on how many are.
class RowBands {
public:
  static constexpr std::size_t rows_a_band = 16;

  /// @param rows_of  the rows that an item of a given place touches, a Span
  template <class RowsOf>
  RowBands(std::size_t items, std::size_t rows, const RowsOf& rows_of) {
    starts_.assign((rows + rows_a_band - 1) / rows_a_band + 1, 0);
    for (std::size_t i = 0; i < items; ++i) {
      each_band(rows_of(i), [&](std::size_t band) { ++starts_[band + 1]; });
    }
    for (std::size_t band = 1; band < starts_.size(); ++band) {
      starts_[band] += starts_[band - 1];
    }
    members_.resize(starts_.back());
    std::vector<std::size_t> next(starts_.begin(), starts_.end() - 1);
    for (std::size_t i = 0; i < items; ++i) {
      each_band(rows_of(i), [&](std::size_t band) { members_[next[band]++] = static_cast<std::uint32_t>(i); });
    }
  }

  std::size_t count() const { return starts_.size() - 1; }

  template <class Draw>
  void each_item(std::size_t band, const Draw& draw) const {
    for (std::size_t i = starts_[band]; i < starts_[band + 1]; ++i) {
      draw(members_[i]);
    }
  }

  static Span inside(const Span& rows, std::size_t band) {
    return {std::max(rows.first, band * rows_a_band), std::min(rows.last, (band + 1) * rows_a_band - 1)};
  }

private:
  std::vector<std::size_t> starts_;
  std::vector<std::uint32_t> members_;

  template <class Take>
  static void each_band(const Span& rows, const Take& take) {
    for (std::size_t band = rows.first / rows_a_band; rows.first <= rows.last && band <= rows.last / rows_a_band;
         ++band) {
      take(band);
    }
  }
};

} // namespace crushwright
