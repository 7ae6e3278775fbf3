#pragma once
#include "crushwright/errors.hpp"
#include "crushwright/test_record.hpp"

#include <string>

/// Helpers of this room's tests.
namespace crushwright {

inline std::vector<TestRecord> read_all_records(const std::string& text, const TableOptions& options = {}) {
  return read_test_text(text, "press.csv", options, {});
}

/// The record of a text that holds one specimen.
inline TestRecord read_one(const std::string& text, const TableOptions& options = {}) {
  std::vector<TestRecord> records = read_all_records(text, options);
  if (records.size() != 1)
    throw std::logic_error("one record was expected, not " + std::to_string(records.size()));
  return records.front();
}

/// The message with which a text is refused; "(read)" when it is not.
inline std::string refusal(const std::string& text, const TableOptions& options = {}) {
  try {
    read_all_records(text, options);
  } catch (const InputError& error) {
    return error.what();
  }
  return "(read)";
}

} // namespace crushwright
