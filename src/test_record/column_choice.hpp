#pragma once
#include "test_record/table_layout.hpp"

namespace crushwright {

/// The number in "#2", as an index from 0; absent for anything else.
std::optional<std::size_t> column_by_number(const std::string& name);

/// True when a heading is the one that the options name.
bool is_named(const Heading& heading, const std::string& name);

/// Says which columns are whose, without their units.
///
/// @param line  of the headings, for messages.
/// @throws InputError when two columns could be meant, or none.
std::vector<RecordColumns> chosen_columns(const TableText& text, std::size_t line,
                                          const std::vector<Heading>& headings, const TableOptions& options);

std::optional<std::size_t> chosen_specimen_column(const TableText& text, std::size_t line,
                                                  const std::vector<Heading>& headings, const TableOptions& options);

} // namespace crushwright
