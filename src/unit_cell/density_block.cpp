#include "unit_cell/density_block.hpp"

#include "crushwright/errors.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>
#include <optional>

namespace crushwright {
namespace {

struct Place {
  std::size_t begin;
  std::size_t end; ///< behind the block's last line
};

std::size_t line_end(const std::string& text, std::size_t begin) {
  const std::size_t newline = text.find('\n', begin);
  return newline == std::string::npos ? text.size() : newline + 1;
}

bool indented(const std::string& text, std::size_t begin, std::size_t end) {
  if (begin == end || (text[begin] != ' ' && text[begin] != '\t'))
    return false;
  return text.substr(begin, end - begin).find_first_not_of(" \t\r\n") != std::string::npos;
}

bool blank(const std::string& text, std::size_t begin, std::size_t end) {
  return begin != end && text.substr(begin, end - begin).find_first_not_of(" \t\r\n") == std::string::npos;
}

/// A top-level key with the indented lines below it; blank lines count only between indented ones.
std::optional<Place> find_block(const std::string& text, const std::string& key) {
  for (std::size_t begin = 0; begin < text.size(); begin = line_end(text, begin)) {
    if (text.compare(begin, key.size() + 1, key + ":") != 0)
      continue;
    std::size_t end = line_end(text, begin);
    for (std::size_t line = end; line < text.size(); line = line_end(text, line)) {
      const std::size_t next = line_end(text, line);
      if (indented(text, line, next))
        end = next;
      else if (!blank(text, line, next))
        break;
    }
    return Place{begin, end};
  }
  return std::nullopt;
}

/// Rounded up in its last digit, so that the stated error is never below the true one.
std::string rounded_up(double error) {
  return fmt::format("{:.4f}", std::max(0.0, std::ceil(error * 1e4 - 1e-9)) / 1e4);
}

} // namespace

std::string true_density_block(const DensityFit& fit) {
  std::vector<std::string> coefficients;
  coefficients.reserve(fit.coefficients.size());
  for (double coefficient : fit.coefficients)
    coefficients.push_back(fmt::format("{:.8g}", coefficient));
  const std::string constant = fit.constant == 0 ? "" : fmt::format("  constant: {:.8g}\n", fit.constant);
  return fmt::format("true_density:\n"
                     "{}"
                     "  coefficients: [{}]\n"
                     "  size_ratio_range: [{:.4g}, {:.4g}]\n"
                     "  largest_fit_error: {}\n"
                     "  source: \"{} (scripts/update_catalogue, docs/method/unit_cell.md)\"\n"
                     "  standing: derived\n",
                     constant, fmt::join(coefficients, ", "), fit.size_ratio_range.low, fit.size_ratio_range.high,
                     rounded_up(fit.largest_error), fit.method);
}

bool has_true_density(const std::string& entry) {
  return find_block(entry, "true_density").has_value();
}

std::string with_true_density(const std::string& entry, const std::string& block, const std::string& shown_name) {
  if (const auto place = find_block(entry, "true_density"))
    return entry.substr(0, place->begin) + block + entry.substr(place->end);
  auto nominal = find_block(entry, "nominal_density");
  if (!nominal)
    nominal = find_block(entry, "edge_name"); // skeletal cells have no nominal density
  if (!nominal)
    throw InputError(
        fmt::format("{}: expected nominal_density, edge_name or true_density at the left margin; found none. "
                    "Add nominal_density (docs/catalogue_format.md) and run again.",
                    shown_name));
  std::string before = entry.substr(0, nominal->end);
  if (before.back() != '\n')
    before += '\n';
  return before + block + entry.substr(nominal->end);
}

} // namespace crushwright
