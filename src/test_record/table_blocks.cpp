#include "test_record/table_blocks.hpp"

#include "quantities/value_error.hpp"
#include "test_record/decimal_mark.hpp"

#include <algorithm>
#include <array>
#include <fmt/format.h>
#include <set>

namespace crushwright {

namespace {

constexpr std::array<std::string_view, 8> label_keys{"specimen", "specimen id", "specimen no", "specimen name",
                                                     "coupon",   "coupon id",   "test piece",  "specimen number"};

/// "A2" of "Specimen: A2"; empty for any other line.
std::string label_in(std::string_view line) {
  const std::string_view text = is_comment(line) ? without_comment_mark(line) : line;
  const std::size_t mark = text.find_first_of(":;=\t,");
  if (mark == std::string_view::npos)
    return {};
  const std::string key = plain_words(text.substr(0, mark));
  if (std::find(label_keys.begin(), label_keys.end(), key) == label_keys.end())
    return {};
  constexpr std::string_view around = " \t:;=,\"";
  const std::size_t begin = text.find_first_not_of(around, mark);
  if (begin == std::string_view::npos)
    return {};
  return std::string(text.substr(begin, text.find_last_not_of(around) + 1 - begin));
}

/// Digits, signs and marks, or a word that stands for a number that is none.
bool begins_like_number(const std::string& cell) {
  const std::string lower = lower_case(cell);
  return !cell.empty() && (std::string_view("0123456789+-.,").find(cell.front()) != std::string_view::npos ||
                           lower.substr(0, 3) == "nan" || lower.substr(0, 3) == "inf");
}

std::set<std::size_t> number_columns(const TableHead& head) {
  std::set<std::size_t> columns;
  for (const RecordColumns& record : head.records) {
    columns.insert(record.along.index);
    columns.insert(record.load.index);
    if (record.time)
      columns.insert(record.time->index);
  }
  return columns;
}

/// Walks over the lines of a file and says what each is.
class BlockWalk {
public:
  BlockWalk(const TableText& text, const TableOptions& options)
      : text_(text), options_(options), start_(find_table(text, options)) {}

  TableBlocks walk() {
    begin_block(start_.head, 0);
    for (std::size_t line = start_.head.data_begins; line < text_.lines().size(); ++line) {
      // A new block may begin behind its line of units.
      line = std::max(line, blocks_.back().head.data_begins);
      if (line < text_.lines().size())
        take(line);
    }
    if (!waiting_.empty())
      fail_text(waiting_.front());
    if (empty_count_ > 0)
      blocks_.back().head.remarks.push_back(
          fmt::format("line {}: skipped {} of empty cells from here on", first_empty_ + 1,
                      empty_count_ == 1 ? std::string("one line") : fmt::format("{} lines", empty_count_)));
    if (!text_.ends_with_line_end())
      blocks_.back().head.remarks.push_back(
          fmt::format("line {}: the file ends without a line end; if its writing was cut off, the last value may be "
                      "short",
                      text_.lines().size()));
    return {std::move(blocks_), start_.separator, decimal_mark_of(text_, marks_, start_.separator, options_)};
  }

private:
  void begin_block(const TableHead& head, std::size_t above_begins) {
    TableBlock block;
    block.head = head;
    columns_ = number_columns(head);
    const std::size_t above_ends = head.line.value_or(head.data_begins);
    std::vector<std::size_t> skipped;
    for (std::size_t line = above_begins; line < above_ends; ++line) {
      const std::string label = label_in(text_.lines()[line]);
      if (!label.empty())
        block.label = label;
      if (!is_blank_line(text_.lines()[line]) && !is_comment(text_.lines()[line]))
        skipped.push_back(line);
    }
    for (const std::size_t line : skipped)
      refuse_numbers_above(line);
    if (!skipped.empty())
      block.head.remarks.insert(block.head.remarks.begin(),
                                skipped.size() == 1
                                    ? fmt::format("line {}: skipped, text above the headings", skipped.front() + 1)
                                    : fmt::format("lines {} to {}: skipped, text above the headings",
                                                  skipped.front() + 1, skipped.back() + 1));
    blocks_.push_back(std::move(block));
    waiting_.clear();
    blank_.reset();
    behind_last_row_ = head.data_begins;
  }

  void refuse_numbers_above(std::size_t line) {
    std::vector<Cell> cells;
    if (has_words(text_.lines()[line]) || !cut_line(text_.lines()[line], start_.separator, cells) || cells.size() < 2)
      return;
    if (std::all_of(cells.begin(), cells.end(),
                    [](const Cell& cell) { return cell.text.empty() || form_of(cell.text) != NumberForm::none; }) &&
        form_of(cells.front().text) != NumberForm::none)
      text_.fail_at(line, "numbers stand above the line of headings; they were expected below it",
                    "Move the headings above the data, or put # before this line when it does not count.");
  }

  bool repeats_headings(std::size_t line) const {
    const TableHead& head = blocks_.front().head;
    if (!head.line)
      return false;
    if (text_.lines()[line] == text_.lines()[*head.line])
      return true;
    const bool by_number = !options_.along_column.empty() && options_.along_column.front() == '#' &&
                           !options_.load_column.empty() && options_.load_column.front() == '#';
    return !by_number && !headings_on(text_, line, start_.separator, options_).empty();
  }

  void take(std::size_t line) {
    const std::string_view content = text_.lines()[line];
    if (is_blank_line(content)) {
      if (!blank_)
        blank_ = line;
      return;
    }
    const bool comment = is_comment(content);
    if (comment && !blocks_.front().head.in_comment)
      return;
    if (has_words(content) && repeats_headings(line)) {
      const auto headings = headings_on(text_, line, start_.separator, options_);
      begin_block(read_head(text_, line, headings, start_.separator, options_), behind_last_row_);
      return;
    }
    if (!comment)
      take_row_or_text(line);
  }

  void take_row_or_text(std::size_t line) {
    if (!cut_line(text_.lines()[line], start_.separator, cells_))
      text_.fail_at(line, "a double quote does not open and close a whole cell; balanced quotes were expected",
                    "Close the quote, or delete it.");
    if (std::all_of(cells_.begin(), cells_.end(), [](const Cell& cell) { return cell.text.empty(); })) {
      if (empty_count_++ == 0)
        first_empty_ = line;
      if (!blank_)
        blank_ = line;
      return;
    }
    if (is_data())
      take_row(line);
    else
      waiting_.push_back(line);
  }

  bool number_seen() const {
    return std::any_of(columns_.begin(), columns_.end(), [&](std::size_t column) {
      return column < cells_.size() && begins_like_number(cells_[column].text);
    });
  }

  /// A line counts as data as soon as one cell where a number belongs looks like one; it is read strictly later. A
  /// word where the first number belongs makes it text: "Height; 20 mm" above the next specimen.
  bool is_data() const {
    const std::string& first = cells_.front().text;
    if (begins_like_number(first))
      return true;
    return number_seen() && (columns_.count(0) == 0 || first.empty());
  }

  void take_row(std::size_t line) {
    TableBlock& block = blocks_.back();
    if (!waiting_.empty())
      fail_text(waiting_.front());
    if (blank_ && !block.rows.empty())
      text_.fail_at(line,
                    fmt::format("data go on behind the blank line {}; a line of headings was expected here, as above "
                                "every specimen",
                                *blank_ + 1),
                    "Write the headings above each specimen, or delete the blank line when it is all one specimen.");
    for (const std::size_t column : columns_)
      if (column < cells_.size())
        marks_.see(cells_[column].text, line);
    block.rows.push_back(line);
    blank_.reset();
    behind_last_row_ = line + 1;
  }

  [[noreturn]] void fail_text(std::size_t line) {
    cut_line(text_.lines()[line], start_.separator, cells_);
    text_.fail_at(line,
                  number_seen() ? fmt::format("{} stands where a number was expected", in_quotes(cells_.front().text))
                                : std::string("this line is neither data nor headings; data were expected"),
                  "Correct it, delete it, or put # before it to have it skipped.");
  }

  const TableText& text_;
  const TableOptions& options_;
  TableStart start_;
  std::vector<TableBlock> blocks_;
  std::set<std::size_t> columns_;
  std::vector<Cell> cells_;
  std::vector<std::size_t> waiting_; ///< lines of text since the last data, which may stand above further headings
  std::optional<std::size_t> blank_; ///< the first blank line since the last data
  std::size_t behind_last_row_ = 0;
  std::size_t first_empty_ = 0, empty_count_ = 0; ///< lines of empty cells
  DecimalMarkSearch marks_;
};

} // namespace

TableBlocks find_blocks(const TableText& text, const TableOptions& options) {
  return BlockWalk(text, options).walk();
}

std::string_view separator_name(char separator) {
  switch (separator) {
  case ',':
    return "comma";
  case ';':
    return "semicolon";
  case '\t':
    return "tab";
  default:
    return "blank";
  }
}

} // namespace crushwright
