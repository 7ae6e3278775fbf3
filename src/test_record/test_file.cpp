#include "crushwright/errors.hpp"
#include "crushwright/test_record.hpp"
#include "test_record/table_reader.hpp"
#include "test_record/table_text.hpp"

#include <fmt/format.h>
#include <utility>

namespace crushwright {

std::vector<TestRecord> read_test_text(const std::string& text, const std::string& shown_name,
                                       const TableOptions& options, const SpecimenFacts& facts) {
  std::vector<LabelledRecord> records = read_table(text, shown_name, options);
  if (facts.mass && records.size() > 1)
    throw InputError(fmt::format("{}: the file holds {} specimens, and one mass cannot be that of all\n   State the "
                                 "masses in a description of the series, docs/coupon_format.md.",
                                 shown_name, records.size()));
  return with_facts(std::move(records), facts, name_without_ending(shown_name));
}

std::vector<TestRecord> read_test_file(const std::filesystem::path& file, const TableOptions& options,
                                       const SpecimenFacts& facts) {
  return read_test_text(read_data_file(file), file.generic_string(), options, facts);
}

} // namespace crushwright
