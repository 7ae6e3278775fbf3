#pragma once
#include <cstddef>
#include <filesystem>
#include <string>
#include <string_view>

namespace crushwright {

/// The bytes of one YAML file, and the one layout of messages that point into it.
class SourceText {
public:
  /// @throws InputError when the file is missing, a folder, unreadable, over the size limit, or not plain UTF-8 text.
  static SourceText from_file(const std::filesystem::path& file);
  /// @throws InputError when the bytes are over the size limit or not plain UTF-8 text.
  static SourceText from_bytes(std::string bytes, std::string shown_name);

  const std::string& shown_name() const { return shown_name_; }
  const std::string& bytes() const { return bytes_; }
  std::string_view text() const; ///< the bytes behind a byte-order mark

  /// Throws InputError: file, line and column of the byte `offset` of text(), what is wrong, the line with a caret,
  /// and below it what to do. Lines of `what_to_do` are parted by '\n'.
  [[noreturn]] void fail_at(std::size_t offset, std::string_view what_is_wrong, std::string_view what_to_do) const;
  /// Throws InputError about the file as a whole.
  [[noreturn]] void fail_whole(std::string_view what_is_wrong, std::string_view what_to_do) const;

private:
  SourceText(std::string bytes, std::string shown_name);
  void check_bytes() const;
  std::string bytes_;
  std::string shown_name_;
};

} // namespace crushwright
