#include "verdict/print_measure.hpp"

#include <algorithm>

namespace crushwright {
namespace {

/// One structure's value; absent where it fits the machine in no number of pieces.
std::optional<double> print_value(LimitedQuantity quantity, const PrintFigures& printing) {
  switch (quantity) {
  case LimitedQuantity::build_height:
    return printing.build_height;
  case LimitedQuantity::build_time:
    return printing.time;
  case LimitedQuantity::build_cost:
    return printing.cost;
  case LimitedQuantity::build_pieces:
    return printing.pieces.empty() ? std::nullopt
                                   : std::optional<double>(static_cast<double>(printing.pieces.size()));
  case LimitedQuantity::unsupported_share:
    return printing.lattice.share();
  case LimitedQuantity::unsupported_span:
    return printing.longest_span;
  case LimitedQuantity::overhang_area:
    return printing.overhang.outside + printing.overhang.inside;
  case LimitedQuantity::escape_opening:
    return printing.escape.opening;
  default:
    return std::nullopt;
  }
}

} // namespace

std::optional<double> print_measure(const Limit& limit, const std::vector<const StructureView*>& structures) {
  const bool adds = limit.quantity == LimitedQuantity::build_time || limit.quantity == LimitedQuantity::build_cost;
  const bool smallest_counts = limit.quantity == LimitedQuantity::escape_opening;
  std::optional<double> found;
  for (const StructureView* each : structures) {
    const std::optional<double> value =
        each->printing == nullptr ? std::nullopt : print_value(limit.quantity, *each->printing);
    if (!value)
      return std::nullopt;
    if (!found)
      found = value;
    else
      found = adds ? *found + *value : smallest_counts ? std::min(*found, *value) : std::max(*found, *value);
  }
  return found;
}

} // namespace crushwright
