#pragma once
#include "crushwright/quantity.hpp"

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

namespace crushwright {

/// What one specimen is, and how it was tested. A value that is absent was not stated.
struct SpecimenFacts {
  std::string id;                           ///< unique in a series
  std::optional<double> area;               ///< whole cross-section, across the load [m^2]
  std::optional<double> height;             ///< along the load, before the test [m]; of a bar its gauge length
  std::optional<double> width, depth;       ///< of a box-shaped specimen [m]; they give the area
  std::optional<double> diameter;           ///< of a round specimen [m]; it gives the area
  std::optional<double> mass;               ///< weighed [kg]
  std::optional<double> relative_density;   ///< as stated [-]; a mass, area and height give the weighed one
  std::optional<double> cells_across;       ///< fewest cells along any edge of the specimen [-]
  std::optional<double> speed;              ///< of the crosshead or striker [m/s]
  std::optional<double> strain_rate;        ///< as stated [1/s]; else speed over height
  std::optional<double> machine_compliance; ///< displacement of machine and platens per force [m/N]
  std::optional<double> temperature;        ///< [K]
};

/// One line of data, in SI, with where it stands in its file.
struct RecordPoint {
  double along = 0; ///< displacement [m] or strain [-], compression (for tension tests: stretching) positive
  double load = 0;  ///< force [N] or stress [Pa], the same sign
  double time = 0;  ///< [s]; only meaningful when the record has time
  std::size_t line = 0;
};

/// What a record's two columns are.
enum class RecordKind { force_displacement, stress_strain };

/// The data of one specimen as read: every usable line in the file's order, nothing sorted, cut or smoothed yet.
struct TestRecord {
  SpecimenFacts specimen;
  RecordKind kind = RecordKind::force_displacement;
  bool has_time = false;
  std::vector<RecordPoint> points;       ///< at least two, finite
  std::string file_name;                 ///< as shown to the user
  std::string along_column, load_column; ///< headings as found, with their units
  std::vector<std::string> remarks;      ///< what was handled on the way, each with its line: "line 7: ..."
};

/// What a data file needs to be read when its own header does not say it. An empty text means: find it.
struct TableOptions {
  std::string along_column, load_column, time_column, specimen_column; ///< headings, or "#2" for the second column
  std::string along_unit, load_unit, time_unit;                        ///< where the file states none
  std::optional<char> separator;                                       ///< ',', ';', '\t' or ' '; absent: found
  std::optional<char> decimal_mark;                                    ///< '.' or ','; absent: found
  bool compression_is_negative = false; ///< true turns both signs; absent data of one sign are turned with a remark
};

/// What is being tested.
enum class TestKind { lattice_compression, metal_compression, metal_tension };

/// A series of tests of one kind on one metal, and for lattices on one cell: what the YAML beside the files or the
/// options of the command say; docs/coupon_format.md.
struct TestSeries {
  std::string title;
  TestKind kind = TestKind::lattice_compression;
  std::string cell;      ///< catalogue id; lattices only, may be empty when no law is asked for
  std::string direction; ///< cell axes along the load, "100"
  std::string material;  ///< catalogue id; may be empty
  std::string process;
  Source source;
  std::vector<double> plateau_window; ///< two strains; empty: 0.20, 0.40
  std::vector<TestRecord> records;    ///< in the order of the files, and inside a file of their first line
  /// Name and bytes of every file read, the YAML first, for hashing into the evidence. A data file is named as the
  /// YAML names it.
  std::vector<std::pair<std::string, std::string>> files;
};

/// Reads the records of one data file: columns found by heading or named, units from headings, a line of units or the
/// options, BOM, comment lines (#, %, //), either decimal mark, several specimens (a specimen column, headings that
/// are repeated, or columns side by side). docs/coupon_format.md.
///
/// @param facts  of every specimen in this file. A given id stands for the file's name; several specimens have their
///               label behind it.
/// @throws InputError "file:line: ..." for anything that cannot be read with certainty: what was expected, what was
///         found, what to do. Nothing is guessed where two readings are possible ("1,234" with both marks possible).
std::vector<TestRecord> read_test_file(const std::filesystem::path& file, const TableOptions& options,
                                       const SpecimenFacts& facts);

/// The same from text in memory; `shown_name` stands for the file in messages.
std::vector<TestRecord> read_test_text(const std::string& text, const std::string& shown_name,
                                       const TableOptions& options, const SpecimenFacts& facts);

/// Reads a series from its YAML description, docs/coupon_format.md; data files are named relative to it.
/// @throws InputError for the description or any of its files.
TestSeries read_test_series(const std::filesystem::path& description);

std::string_view name_of(TestKind kind);

} // namespace crushwright
