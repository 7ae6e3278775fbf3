#include "test_record/table_reader.hpp"

#include "crushwright/errors.hpp"
#include "quantities/value_error.hpp"
#include "test_record/column_choice.hpp"
#include "test_record/load_sign.hpp"
#include "test_record/number_cell.hpp"
#include "test_record/table_blocks.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <map>

namespace crushwright {

namespace {

/// A record while its lines are being read.
struct GrowingRecord {
  LabelledRecord labelled;
  std::size_t ended = 0;    ///< line where its cells became empty, from 1; 0 while it goes on
  std::size_t last_row = 0; ///< count of its block's lines of data when it was last met
  bool interrupted = false;
  bool time_fell = false;
};

/// Reads the lines of one block into records.
class BlockReader {
public:
  BlockReader(const TableText& text, const TableBlocks& table, const TableBlock& block)
      : text_(text), table_(table), block_(block) {}

  std::vector<LabelledRecord> read() {
    if (block_.rows.empty())
      text_.fail_at(block_.head.line.value_or(0), "no line of data follows these headings; two or more were expected",
                    "Delete the headings, or export the data again.");
    for (const std::size_t line : block_.rows)
      read_row(line);
    std::vector<LabelledRecord> read;
    for (GrowingRecord& record : records_)
      read.push_back(finished(record));
    return read;
  }

private:
  void read_row(std::size_t line) {
    ++row_;
    cut_line(text_.lines()[line], table_.separator, cells_);
    check_width(line);
    for (std::size_t i = 0; i < block_.head.records.size(); ++i) {
      const RecordColumns& columns = block_.head.records[i];
      GrowingRecord& record = record_of(columns, line);
      if (block_.head.records.size() > 1 && is_past_its_end(record, columns, line))
        continue;
      add_point(record, columns, line);
    }
  }

  void check_width(std::size_t line) {
    const std::size_t width = block_.head.width;
    while (cells_.size() > width && cells_.back().text.empty())
      cells_.pop_back();
    if (cells_.size() > width)
      text_.fail_at(
          line,
          fmt::format("this line has {} cells parted by {}; {} were expected, one for each heading", cells_.size(),
                      separator_name(table_.separator), width),
          table_.separator == ','
              ? "Where commas stand before decimals, part the cells by semicolons or put quotes round them."
              : "Give every column a heading, without a blank inside or in quotes, or correct `separator`.");
    if (cells_.size() == width)
      return;
    if (block_.head.records.size() > 1)
      cells_.resize(width);
    else
      text_.fail_at(line,
                    fmt::format("this line has {} {} parted by {}; {} were expected, one for each heading",
                                cells_.size(), cells_.size() == 1 ? "cell" : "cells",
                                separator_name(table_.separator), width),
                    "Complete the line or delete it. Was the file cut off while it was written?");
  }

  GrowingRecord& record_of(const RecordColumns& columns, std::size_t line) {
    std::string label = columns.label;
    if (block_.head.specimen_column) {
      const std::string& cell = cells_[*block_.head.specimen_column].text;
      if (cell.empty())
        text_.fail_at(line, "the cell that names the specimen is empty; a name was expected",
                      "Repeat the specimen's name on every line.");
      label = label.empty() ? cell : cell + "-" + label;
    }
    const auto [at, is_new] = by_label_.emplace(label, records_.size());
    if (is_new)
      records_.push_back(begun(columns, label, line));
    GrowingRecord& record = records_[at->second];
    note_return(record, line);
    return record;
  }

  GrowingRecord begun(const RecordColumns& columns, const std::string& label, std::size_t line) const {
    GrowingRecord record;
    record.labelled.label = label;
    record.labelled.line = line + 1;
    TestRecord& data = record.labelled.record;
    data.kind = columns.load.role == ColumnRole::force ? RecordKind::force_displacement : RecordKind::stress_strain;
    data.has_time = columns.time.has_value();
    data.file_name = text_.shown_name();
    data.along_column = columns.along.heading;
    data.load_column = columns.load.heading;
    data.remarks = block_.head.remarks;
    record.last_row = row_;
    return record;
  }

  void note_return(GrowingRecord& record, std::size_t line) {
    if (record.last_row + 1 < row_ && !record.interrupted) {
      record.interrupted = true;
      record.labelled.record.remarks.push_back(
          fmt::format("line {}: the specimen {} goes on behind lines of another", line + 1, record.labelled.label));
    }
    record.last_row = row_;
  }

  /// Of specimens side by side the shorter ones end in empty cells.
  bool is_past_its_end(GrowingRecord& record, const RecordColumns& columns, std::size_t line) {
    const bool empty = cells_[columns.along.index].text.empty() && cells_[columns.load.index].text.empty();
    if (!empty && record.ended != 0)
      text_.fail_at(line,
                    fmt::format("the data under `{}` go on here, but their cells were empty on line {}; no gap was "
                                "expected",
                                columns.load.heading, record.ended),
                    "Fill or delete the empty cells.");
    if (empty && record.ended == 0)
      record.ended = line + 1;
    return empty;
  }

  void add_point(GrowingRecord& record, const RecordColumns& columns, std::size_t line) {
    RecordPoint point;
    point.line = line + 1;
    point.along = value(columns.along, line);
    point.load = value(columns.load, line);
    std::vector<RecordPoint>& points = record.labelled.record.points;
    if (columns.time) {
      point.time = value(*columns.time, line);
      if (!points.empty() && point.time < points.back().time && !record.time_fell) {
        record.time_fell = true;
        record.labelled.record.remarks.push_back(fmt::format("line {}: the time runs backwards", line + 1));
      }
    }
    points.push_back(point);
  }

  double value(const RecordColumns::Column& column, std::size_t line) const {
    const std::string& cell = cells_[column.index].text;
    const std::optional<double> number = number_in(cell, table_.decimal_mark);
    if (!number)
      fail_cell(column, cell, line);
    const double si_value = column_value(*number, column.unit, column.role).value();
    if (!std::isfinite(si_value))
      text_.fail_at(line, fmt::format("{} under `{}` is too large a number", in_quotes(cell), column.heading),
                    "Check the exponent.");
    return si_value;
  }

  [[noreturn]] void fail_cell(const RecordColumns::Column& column, const std::string& cell, std::size_t line) const {
    if (cell.empty())
      text_.fail_at(line, fmt::format("the cell under `{}` is empty; a number was expected", column.heading),
                    "Fill it, or delete the line.");
    const std::string lower = lower_case(cell);
    if (lower.find("nan") != std::string::npos || lower.find("inf") != std::string::npos)
      text_.fail_at(
          line, fmt::format("{} under `{}` is not finite; a number was expected", in_quotes(cell), column.heading),
          "Delete the line when the sample is missing.");
    if (form_of(cell) != NumberForm::none)
      text_.fail_at(line,
                    fmt::format("{} under `{}` is too large or too small for a number of double precision",
                                in_quotes(cell), column.heading),
                    "Check the exponent.");
    text_.fail_at(line,
                  fmt::format("{} under `{}` is not a number; digits with a decimal {} were expected",
                              in_quotes(cell), column.heading, table_.decimal_mark == '.' ? "point" : "comma"),
                  "Correct the cell, or delete the line. Units stand in the heading, not in the cells.");
  }

  LabelledRecord finished(GrowingRecord& record) const {
    const std::size_t count = record.labelled.record.points.size();
    if (count < 2)
      text_.fail_at(record.labelled.line - 1,
                    fmt::format("{} {} of data; two or more were expected",
                                record.labelled.label.empty() ? std::string("there is")
                                                              : fmt::format("`{}` has", record.labelled.label),
                                count == 0 ? "no line" : "one line"),
                    "Check that the file is whole, and that the specimen's column names specimens.");
    return std::move(record.labelled);
  }

  const TableText& text_;
  const TableBlocks& table_;
  const TableBlock& block_;
  std::vector<Cell> cells_;
  std::vector<GrowingRecord> records_;
  std::map<std::string, std::size_t> by_label_;
  std::size_t row_ = 0;
};

void check_options(const std::string& shown_name, const TableOptions& options) {
  if (options.separator && std::string_view(",;\t ").find(*options.separator) == std::string_view::npos)
    throw InputError(fmt::format("{}: `separator` cannot be `{}`; a comma, semicolon, tab or blank was expected\n   "
                                 "Correct it, or leave it out to have it found.",
                                 shown_name, *options.separator));
  if (options.decimal_mark && *options.decimal_mark != '.' && *options.decimal_mark != ',')
    throw InputError(
        fmt::format("{}: `decimal_mark` cannot be `{}`; a point or a comma was expected\n   Correct it, or "
                    "leave it out to have it found.",
                    shown_name, *options.decimal_mark));
  for (const std::string* name :
       {&options.along_column, &options.load_column, &options.time_column, &options.specimen_column})
    if (!name->empty() && name->front() == '#' && !column_by_number(*name))
      throw InputError(fmt::format("{}: the column `{}` is no column's number; # and a number from 1 were "
                                   "expected\n   Write for instance #2 for the second column.",
                                   shown_name, *name));
}

std::string joined(const std::string& block, const std::string& label) {
  return block.empty() || label.empty() ? block + label : block + "-" + label;
}

/// Labels tell specimens apart: those of a file differ.
void check_labels(const TableText& text, const std::vector<LabelledRecord>& records) {
  std::map<std::string, std::size_t> lines;
  for (const LabelledRecord& record : records) {
    const auto [at, is_new] = lines.emplace(record.label, record.line);
    if (!is_new)
      text.fail_at(record.line - 1,
                   fmt::format("the data of the specimen `{}` begin here, but it already has data from line {} on; "
                               "every specimen was expected once",
                               record.label, at->second),
                   "Give each specimen a name of its own, or delete the headings between its data.");
  }
}

} // namespace

std::vector<LabelledRecord> read_table(const std::string& bytes, const std::string& shown_name,
                                       const TableOptions& options) {
  check_options(shown_name, options);
  const TableText text(bytes, shown_name);
  const TableBlocks table = find_blocks(text, options);
  std::vector<LabelledRecord> records;
  for (std::size_t i = 0; i < table.blocks.size(); ++i) {
    const TableBlock& block = table.blocks[i];
    const bool by_column = block.head.specimen_column.has_value();
    const bool numbered = block.label.empty() && table.blocks.size() > 1 && !by_column;
    const std::string of_block = numbered ? fmt::format("{}", i + 1) : by_column ? std::string() : block.label;
    for (LabelledRecord& record : BlockReader(text, table, block).read()) {
      record.label = joined(of_block, record.label);
      turn_signs(text, options.compression_is_negative, record.record);
      records.push_back(std::move(record));
    }
  }
  check_labels(text, records);
  return records;
}

std::vector<TestRecord> with_facts(std::vector<LabelledRecord> records, const SpecimenFacts& facts,
                                   const std::string& name) {
  std::vector<TestRecord> read;
  const std::string id = facts.id.empty() ? name : facts.id;
  for (LabelledRecord& record : records) {
    record.record.specimen = facts;
    record.record.specimen.id = records.size() == 1 ? id : joined(id, record.label);
    read.push_back(std::move(record.record));
  }
  return read;
}

std::string name_without_ending(const std::string& file_name) {
  return std::filesystem::path(file_name).stem().string();
}

} // namespace crushwright
