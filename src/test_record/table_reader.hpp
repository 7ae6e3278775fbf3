#pragma once
#include "crushwright/test_record.hpp"

#include <string>
#include <vector>

namespace crushwright {

/// One specimen's data, and by which name the file tells it from others.
struct LabelledRecord {
  std::string label;    ///< empty when the file holds one specimen without a name
  std::size_t line = 0; ///< of its first data, from 1
  TestRecord record;    ///< its specimen's facts still empty
};

/// All records of one text, in the order of their first lines.
///
/// @throws InputError as read_test_text.
std::vector<LabelledRecord> read_table(const std::string& text, const std::string& shown_name,
                                       const TableOptions& options);

/// Gives the records the facts, and ids made of a name and, where there are several, their labels.
std::vector<TestRecord> with_facts(std::vector<LabelledRecord> records, const SpecimenFacts& facts,
                                   const std::string& name);

/// "A1" of "tests/A1.csv".
std::string name_without_ending(const std::string& file_name);

} // namespace crushwright
