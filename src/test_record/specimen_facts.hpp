#pragma once
#include "crushwright/test_record.hpp"
#include "yaml_input/mapping.hpp"

#include <string>
#include <vector>

namespace crushwright {

/// One fact without a spread, which nothing would use.
std::optional<double> plain_fact(const Mapping& holder, std::string_view key, Dimension dimension,
                                 const Bounds& bounds);

/// The keys that read_facts reads.
const std::vector<std::string>& fact_keys();

/// Facts of a specimen; those that it does not state are taken from `common`. A specimen that states any size across
/// the load states them all: none of its `common` ones is mixed in.
///
/// @param kind  of a metal refuses what only a lattice has.
/// @throws InputError for values out of bounds and for sizes that contradict each other.
SpecimenFacts read_facts(const Mapping& specimen, const SpecimenFacts& common, TestKind kind);

/// Checks facts that are complete: mass against volume, rate against speed.
void check_facts(const Mapping& specimen, const SpecimenFacts& facts, TestKind kind);

/// How a data file is to be read, from `columns`, `units`, `separator`, `decimal_mark`, `compression_is_negative`;
/// what is not stated is taken from `common`.
const std::vector<std::string>& table_keys();
TableOptions read_table_options(const Mapping& specimen, const TableOptions& common);

} // namespace crushwright
