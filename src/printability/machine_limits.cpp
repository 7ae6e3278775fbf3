#include "printability/machine_limits.hpp"

#include "quantities/units.hpp"

#include <fmt/format.h>

namespace crushwright {
namespace {

std::string shown(double length) {
  return show(length, Dimension::length);
}

} // namespace

std::string thin_feature_fault(const PrintMachine& machine, double thinnest, const std::string& name) {
  if (!machine.smallest_feature || thinnest >= machine.smallest_feature->value)
    return "";
  return fmt::format("The thinnest feature, {} ({}), is under the machine's smallest of {}.", shown(thinnest), name,
                     shown(machine.smallest_feature->value));
}

std::string span_fault(const PrintMachine& machine, double span) {
  if (!machine.longest_span || span <= machine.longest_span->value)
    return "";
  return fmt::format("The lattice spans {} without support; the machine bridges {}.", shown(span),
                     shown(machine.longest_span->value));
}

std::string opening_fault(const PrintMachine& machine, const PowderEscape& escape) {
  if (escape.closed)
    return fmt::format("Powder is trapped: {}.", escape.reason);
  if (!machine.smallest_opening || escape.at_least || escape.opening >= machine.smallest_opening->value)
    return "";
  return fmt::format("The way out for powder is {} wide ({}); {} is needed.", shown(escape.opening), escape.reason,
                     shown(machine.smallest_opening->value));
}

void add_fault(std::vector<std::string>& faults, const std::string& fault) {
  if (!fault.empty())
    faults.push_back(fault);
}

} // namespace crushwright
