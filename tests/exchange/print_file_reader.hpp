#pragma once
#include <array>
#include <string>
#include <vector>

/// A 3MF file as lib3mf, a general-purpose library of the 3MF consortium, reads it.
namespace crushwright::print_file_reader {

struct ReadBeam {
  std::array<unsigned, 2> nodes{};
  std::array<double, 2> radii{}; ///< [mm]
  bool ball_ends = false;
};

struct ReadObject {
  std::string name;
  std::vector<std::array<double, 3>> points; ///< [mm]
  std::size_t triangles = 0;
  std::vector<ReadBeam> beams;
};

struct ReadFile {
  unsigned warnings = 0;
  bool in_millimetres = false;
  std::size_t build_items = 0;
  std::vector<ReadObject> objects;
};

/// @throws std::runtime_error when the library refuses the bytes.
ReadFile read_print_file(const std::string& bytes);

} // namespace crushwright::print_file_reader
