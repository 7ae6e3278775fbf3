#pragma once
#include "crushwright/unit_cell.hpp"

#include <string>
#include <utility>
#include <vector>

namespace crushwright {

/// Laws measured on one cell, by the catalogue's lists.
struct MeasuredLawLists {
  std::vector<PowerLaw> elastic_modulus;
  std::vector<PowerLaw> plateau_stress;
  std::vector<DensificationLaw> densification;
};

/// The files of a series with the SHA-256 of their bytes.
std::vector<TestedFile> tested_files(const std::vector<std::pair<std::string, std::string>>& name_and_bytes);

/// A cell's entry with these laws at the end of their lists; a law of the same id goes, every other byte is as it
/// was.
/// @param entry  text of a unit_cells/<id>.yaml that can be read.  @param shown_name  stands for the file in messages
/// @throws InputError when the entry cannot be read, or a list is written in one line.
std::string with_measured_laws(const std::string& entry, const MeasuredLawLists& laws, const std::string& shown_name);

/// One measured property of a base material.
struct MeasuredProperty {
  std::string key;       ///< "proof_stress"
  std::string value;     ///< "231.4 MPa"
  std::string low, high; ///< the same; empty for none
  std::optional<double> coefficient_of_variation;
  std::string source;
};

/// A material's entry with these properties in place of its own.
/// @throws InputError when the entry cannot be read, before or after.
std::string with_measured_properties(const std::string& entry, const std::vector<MeasuredProperty>& properties,
                                     const std::string& shown_name);

} // namespace crushwright
