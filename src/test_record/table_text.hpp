#pragma once
#include <cstddef>
#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

namespace crushwright {

/// The lines of one data file, and the one layout of messages that point at them.
class TableText {
public:
  /// @param bytes  kept by the caller as long as this lives.
  /// @throws InputError when the bytes are none, too many, not plain UTF-8 text, or a known binary format.
  TableText(std::string_view bytes, std::string shown_name);

  /// Lines without their ends; the first is line 1 and stands at index 0.
  const std::vector<std::string_view>& lines() const { return lines_; }
  const std::string& shown_name() const { return shown_name_; }
  /// False when the last line has no end: the writing may have been cut off.
  bool ends_with_line_end() const { return ends_with_line_end_; }

  /// Throws InputError "file:line: what", the line, and below it what to do.
  ///
  /// @param index  of the line, from 0.
  [[noreturn]] void fail_at(std::size_t index, std::string_view what, std::string_view what_to_do) const;
  [[noreturn]] void fail_whole(std::string_view what, std::string_view what_to_do) const;

private:
  void refuse_known_formats(std::string_view bytes) const;
  void cut_into_lines(std::string_view text);
  void check_letters(std::string_view text) const;
  std::string shown_name_;
  std::vector<std::string_view> lines_;
  bool ends_with_line_end_ = false;
};

/// The bytes of a data file.
///
/// @throws InputError when it is missing, not a plain file, unreadable, or over the size limit.
std::string read_data_file(const std::filesystem::path& file);

} // namespace crushwright
