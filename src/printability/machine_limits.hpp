#pragma once
#include "crushwright/printability.hpp"

#include <string>
#include <vector>

namespace crushwright {

// Sentences on what a machine's stated limits are not kept by; empty texts where they are, or where none is stated.
std::string thin_feature_fault(const PrintMachine& machine, double thinnest, const std::string& name);
std::string span_fault(const PrintMachine& machine, double span);
std::string opening_fault(const PrintMachine& machine, const PowderEscape& escape);

void add_fault(std::vector<std::string>& faults, const std::string& fault);

} // namespace crushwright
