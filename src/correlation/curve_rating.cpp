#include "correlation/curve_rating.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>
#include <utility>

namespace crushwright {

namespace {

using Series = std::vector<double>;

// Parameters of ISO/TS 18571 as found in public implementations of it.
constexpr double inner_corridor = 0.05, outer_corridor = 0.5;
constexpr double greatest_shift = 0.2;
constexpr double warping_band = 0.1;
constexpr double greatest_magnitude_error = 0.5;
constexpr double greatest_slope_error = 2.0;
constexpr double corridor_weight = 0.4, part_weight = 0.2;

double sum_of_sizes(const Series& series) {
  return std::accumulate(series.begin(), series.end(), 0.0,
                         [](double sum, double value) { return sum + std::abs(value); });
}

double sum_of_misses(const Series& a, const Series& b) {
  double sum = 0;
  for (std::size_t i = 0; i < a.size(); ++i) {
    sum += std::abs(a[i] - b[i]);
  }
  return sum;
}

/// Correlation coefficient of a[from_a...] and b[from_b...] over `count` samples; nothing to say for a flat one: -2.
double coefficient(const Series& a, std::size_t from_a, const Series& b, std::size_t from_b, std::size_t count) {
  double mean_a = 0, mean_b = 0;
  for (std::size_t i = 0; i < count; ++i) {
    mean_a += a[from_a + i];
    mean_b += b[from_b + i];
  }
  mean_a /= static_cast<double>(count);
  mean_b /= static_cast<double>(count);
  double aa = 0, bb = 0, ab = 0;
  for (std::size_t i = 0; i < count; ++i) {
    const double da = a[from_a + i] - mean_a, db = b[from_b + i] - mean_b;
    aa += da * da;
    bb += db * db;
    ab += da * db;
  }
  const double flat_a = 1e-24 * mean_a * mean_a * static_cast<double>(count);
  const double flat_b = 1e-24 * mean_b * mean_b * static_cast<double>(count);
  return aa > flat_a && bb > flat_b ? ab / std::sqrt(aa * bb) : -2.0;
}

double corridor_score(const Series& predicted, const Series& measured) {
  double greatest = 0;
  for (const double value : measured) {
    greatest = std::max(greatest, std::abs(value));
  }
  double sum = 0;
  for (std::size_t i = 0; i < measured.size(); ++i) {
    const double apart = std::abs(predicted[i] - measured[i]) / greatest;
    const double share = (outer_corridor - apart) / (outer_corridor - inner_corridor);
    sum += apart <= inner_corridor ? 1 : apart >= outer_corridor ? 0 : share * share;
  }
  return sum / static_cast<double>(measured.size());
}

std::pair<Series, Series> overlapping(const Series& predicted, const Series& measured, int shift) {
  const auto ahead = static_cast<std::ptrdiff_t>(std::abs(shift));
  if (shift >= 0) {
    return {Series(predicted.begin() + ahead, predicted.end()), Series(measured.begin(), measured.end() - ahead)};
  }
  return {Series(predicted.begin(), predicted.end() - ahead), Series(measured.begin() + ahead, measured.end())};
}

enum class Step : unsigned char { diagonal, predicted_on, measured_on };

/// Least sum of squared distances over all ways through both series that stay in the band.
class Warping {
public:
  Warping(const Series& predicted, const Series& measured)
      : predicted_(predicted), measured_(measured), count_(predicted.size()),
        band_(std::max<std::size_t>(
            1, static_cast<std::size_t>(std::ceil(warping_band * static_cast<double>(predicted.size()))))),
        steps_(count_ * (2 * band_ + 1), Step::diagonal) {
    march();
  }

  /// Σ|p - m| / Σ|m| along the best way.
  double relative_miss() const {
    double misses = 0, sizes = 0;
    std::size_t i = count_ - 1, j = count_ - 1;
    for (bool there = false; !there;) {
      misses += std::abs(predicted_[i] - measured_[j]);
      sizes += std::abs(measured_[j]);
      there = i == 0 && j == 0;
      if (!there) {
        const Step step = steps_[place(i, j)];
        i -= step == Step::measured_on ? 0 : 1;
        j -= step == Step::predicted_on ? 0 : 1;
      }
    }
    return sizes > 0 ? misses / sizes : misses > 0 ? std::numeric_limits<double>::infinity() : 0;
  }

private:
  std::size_t place(std::size_t i, std::size_t j) const { return i * (2 * band_ + 1) + (j + band_ - i); }

  void march() {
    const double endless = std::numeric_limits<double>::infinity();
    Series before(count_, endless), now(count_, endless);
    for (std::size_t i = 0; i < count_; ++i) {
      std::fill(now.begin(), now.end(), endless);
      const std::size_t first = i > band_ ? i - band_ : 0, last = std::min(count_ - 1, i + band_);
      for (std::size_t j = first; j <= last; ++j) {
        const double apart = predicted_[i] - measured_[j];
        const double diagonal = i > 0 && j > 0 ? before[j - 1] : endless;
        const double along = i > 0 ? before[j] : endless;
        const double up = j > 0 ? now[j - 1] : endless;
        const double least = std::min({diagonal, along, up});
        now[j] = apart * apart + (i == 0 && j == 0 ? 0 : least);
        steps_[place(i, j)] = diagonal == least ? Step::diagonal
                              : along == least  ? Step::predicted_on
                                                : Step::measured_on;
      }
      std::swap(before, now);
    }
  }

  const Series& predicted_;
  const Series& measured_;
  std::size_t count_;
  std::size_t band_;
  std::vector<Step> steps_;
};

double magnitude_score(const Series& predicted, const Series& measured) {
  const double miss = Warping(predicted, measured).relative_miss();
  return std::max(0.0, 1 - miss / greatest_magnitude_error);
}

/// Central differences (one-sided at the ends) a sample, then the mean over up to nine samples that stay inside.
Series mean_slopes(const Series& series) {
  const std::size_t count = series.size();
  Series slopes(count), means(count);
  for (std::size_t i = 0; i < count; ++i) {
    const std::size_t low = i > 0 ? i - 1 : 0, high = std::min(count - 1, i + 1);
    slopes[i] = (series[high] - series[low]) / static_cast<double>(high - low);
  }
  for (std::size_t i = 0; i < count; ++i) {
    const std::size_t half = std::min({std::size_t{4}, i, count - 1 - i});
    double sum = 0;
    for (std::size_t k = i - half; k <= i + half; ++k) {
      sum += slopes[k];
    }
    means[i] = sum / static_cast<double>(2 * half + 1);
  }
  return means;
}

double slope_score(const Series& predicted, const Series& measured) {
  const Series p = mean_slopes(predicted), m = mean_slopes(measured);
  const double sizes = sum_of_sizes(m), misses = sum_of_misses(p, m);
  if (!(sizes > 0)) {
    return misses > 0 ? 0 : 1;
  }
  return std::max(0.0, 1 - misses / sizes / greatest_slope_error);
}

std::string word_of(double overall) {
  return overall > 0.94 ? "excellent" : overall > 0.80 ? "good" : overall > 0.58 ? "fair" : "poor";
}

} // namespace

BestShift best_shift(const std::vector<double>& predicted, const std::vector<double>& measured) {
  const std::size_t count = measured.size();
  BestShift best;
  best.correlation = coefficient(predicted, 0, measured, 0, count);
  const auto furthest = static_cast<std::size_t>(std::floor(greatest_shift * static_cast<double>(count)));
  for (std::size_t shift = 1; shift <= furthest; ++shift) {
    const std::size_t left = count - shift;
    if (const double later = coefficient(predicted, shift, measured, 0, left); later > best.correlation) {
      best = {static_cast<int>(shift), later};
    }
    if (const double sooner = coefficient(predicted, 0, measured, shift, left); sooner > best.correlation) {
      best = {-static_cast<int>(shift), sooner};
    }
  }
  if (best.correlation < -1) {
    best = {0, 1};
  }
  return best;
}

CurveRating curve_rating(const std::vector<double>& predicted, const std::vector<double>& measured) {
  CurveRating rating;
  rating.corridor = corridor_score(predicted, measured);
  const BestShift best = best_shift(predicted, measured);
  const double furthest = greatest_shift * static_cast<double>(measured.size());
  rating.phase = std::max(0.0, 1 - std::abs(best.samples) / furthest);
  const auto [p, m] = overlapping(predicted, measured, best.samples);
  rating.magnitude = magnitude_score(p, m);
  rating.slope = slope_score(p, m);
  rating.overall = corridor_weight * rating.corridor + part_weight * (rating.phase + rating.magnitude + rating.slope);
  rating.word = word_of(rating.overall);
  return rating;
}

} // namespace crushwright
