#include "test_record/table_text.hpp"

#include "crushwright/errors.hpp"
#include "quantities/nearest_spelling.hpp"
#include "yaml_input/utf8.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <fstream>
#include <system_error>

namespace crushwright {

namespace {

// An hour at 100 samples a second is some 10 MB. What is far larger is another kind of file.
constexpr std::size_t largest_file = 200'000'000;
constexpr std::size_t longest_shown_line = 110;
constexpr std::string_view save_as_text = "Export the data as plain text (CSV), in UTF-8.";

std::string shown_line(std::string_view line) {
  const std::vector<std::string> letters = shown_letters(line.substr(0, 4 * longest_shown_line));
  std::string shown;
  for (std::size_t i = 0; i < std::min(letters.size(), longest_shown_line); ++i)
    shown += letters[i];
  return shown + (letters.size() > longest_shown_line ? "..." : "");
}

[[noreturn]] void fail_file(const std::string& name, std::string_view what, std::string_view what_to_do) {
  throw InputError(fmt::format("{}: {}\n   {}", name, what, what_to_do));
}

std::vector<std::string> names_beside(const std::filesystem::path& file) {
  std::vector<std::string> names;
  std::error_code error;
  const std::filesystem::path folder = file.has_parent_path() ? file.parent_path() : std::filesystem::path(".");
  for (std::filesystem::directory_iterator at(folder, error), end; !error && at != end; at.increment(error))
    names.push_back(at->path().filename().string());
  std::sort(names.begin(), names.end());
  return names;
}

void refuse_absent(const std::filesystem::path& file) {
  const std::string name = file.generic_string();
  std::error_code error;
  const std::filesystem::file_status status = std::filesystem::status(file, error);
  if (!std::filesystem::exists(status)) {
    const auto meant = nearest_spelling(file.filename().string(), names_beside(file));
    fail_file(name, "there is no such file; a file with the data of a test was expected",
              meant ? fmt::format("Did you mean `{}`? Correct the path.", *meant) : "Correct the path.");
  }
  if (std::filesystem::is_directory(status))
    fail_file(name, "this is a folder; a file with the data of a test was expected",
              "Name a file inside the folder.");
  if (!std::filesystem::is_regular_file(status))
    fail_file(name, "this is not a plain file; a file with the data of a test was expected", "Name a plain file.");
}

bool begins_with(std::string_view bytes, std::string_view beginning) {
  return bytes.substr(0, beginning.size()) == beginning;
}

} // namespace

TableText::TableText(std::string_view bytes, std::string shown_name) : shown_name_(std::move(shown_name)) {
  if (bytes.size() > largest_file)
    fail_whole("the file is larger than 200 MB; the data of one test were expected",
               "Check that this is the right file, and keep fewer samples a second.");
  refuse_known_formats(bytes);
  const std::string_view text = begins_with(bytes, "\xEF\xBB\xBF") ? bytes.substr(3) : bytes;
  cut_into_lines(text);
  check_letters(text);
  if (text.find_first_not_of(" \t\r\n") == std::string_view::npos)
    fail_whole("the file is empty; a line of headings and lines of data were expected",
               "Check the path, and export the test again.");
}

void TableText::refuse_known_formats(std::string_view bytes) const {
  if (begins_with(bytes, "\xFF\xFE") || begins_with(bytes, "\xFE\xFF"))
    fail_whole("the file is UTF-16 text; UTF-8 was expected", "Save it again as UTF-8.");
  if (begins_with(bytes, "PK\x03\x04") || begins_with(bytes, "\xD0\xCF\x11\xE0"))
    fail_whole("the file is a packed document or a spreadsheet, not text", save_as_text);
  if (begins_with(bytes, "%PDF"))
    fail_whole("the file is a page for printing, not text", save_as_text);
}

void TableText::cut_into_lines(std::string_view text) {
  std::size_t begin = 0;
  while (begin < text.size()) {
    const std::size_t end = std::min(text.find('\n', begin), text.size());
    std::string_view line = text.substr(begin, end - begin);
    ends_with_line_end_ = end < text.size();
    if (!line.empty() && line.back() == '\r')
      line.remove_suffix(1);
    lines_.push_back(line);
    begin = end + 1;
  }
}

void TableText::check_letters(std::string_view text) const {
  for (std::size_t i = 0; i < lines_.size(); ++i) {
    for (const char letter : lines_[i]) {
      const auto byte = static_cast<unsigned char>(letter);
      if (byte == 0)
        fail_at(i, "the file is binary: it holds a byte of value zero; text was expected", save_as_text);
      if (byte == '\r')
        fail_at(i, "a carriage return stands inside a line; line ends are LF or CR LF",
                "Save the file with one of these line ends.");
      if ((byte < 0x20U && byte != '\t') || byte == 0x7FU)
        fail_at(i, fmt::format("the control character 0x{:02X} stands in the text", byte), save_as_text);
    }
  }
  const std::size_t bad = first_bad_utf8(text);
  if (bad == std::string_view::npos)
    return;
  const auto index = std::count(text.begin(), text.begin() + static_cast<std::ptrdiff_t>(bad), '\n');
  fail_at(static_cast<std::size_t>(index),
          fmt::format("byte 0x{:02X} is not UTF-8 text", static_cast<unsigned char>(text[bad])),
          "Save the file as UTF-8. Letters such as \u00b5, \u00b0 and \u00b2 are the usual cause.");
}

void TableText::fail_at(std::size_t index, std::string_view what, std::string_view what_to_do) const {
  const std::string_view line = index < lines_.size() ? lines_[index] : std::string_view();
  throw InputError(fmt::format("{}:{}: {}\n{:>5} | {}\n   {}", shown_name_, index + 1, what, index + 1,
                               shown_line(line), what_to_do));
}

void TableText::fail_whole(std::string_view what, std::string_view what_to_do) const {
  fail_file(shown_name_, what, what_to_do);
}

std::string read_data_file(const std::filesystem::path& file) {
  refuse_absent(file);
  const std::string name = file.generic_string();
  std::error_code error;
  const std::uintmax_t size = std::filesystem::file_size(file, error);
  if (!error && size > largest_file)
    fail_file(name, "the file is larger than 200 MB; the data of one test were expected",
              "Check that this is the right file, and keep fewer samples a second.");
  std::ifstream stream(file, std::ios::binary);
  if (error || !stream)
    fail_file(name, "the file cannot be opened for reading", "Check its permissions.");
  std::string bytes(static_cast<std::size_t>(size), '\0');
  stream.read(bytes.data(), static_cast<std::streamsize>(bytes.size()));
  if (stream.gcount() != static_cast<std::streamsize>(bytes.size()))
    fail_file(name, "the file cannot be read to its end", "Check the disk or the connection to it.");
  return bytes;
}

} // namespace crushwright
