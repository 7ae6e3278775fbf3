#include "yaml_input/source_text.hpp"

#include "crushwright/errors.hpp"
#include "quantities/nearest_spelling.hpp"
#include "yaml_input/utf8.hpp"

#include <algorithm>
#include <fstream>
#include <system_error>
#include <utility>
#include <vector>

#include <fmt/format.h>

namespace crushwright {

namespace {

// Far above any case or catalogue entry, low enough that a wrong file is refused at once.
constexpr std::size_t largest_file = 4'000'000;
constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";
constexpr std::size_t letters_before_caret = 70;
constexpr std::size_t letters_behind_caret = 40;
constexpr std::string_view indent = "   ";

std::string indented(std::string_view lines) {
  std::string shown;
  std::size_t begin = 0;
  while (begin < lines.size()) {
    const std::size_t end = std::min(lines.find('\n', begin), lines.size());
    shown += fmt::format("\n{}{}", indent, lines.substr(begin, end - begin));
    begin = end + 1;
  }
  return shown;
}

std::string_view line_around(std::string_view text, std::size_t offset) {
  const std::size_t before = offset == 0 ? std::string_view::npos : text.rfind('\n', offset - 1);
  const std::size_t begin = before == std::string_view::npos ? 0 : before + 1;
  std::string_view line = text.substr(begin, std::min(text.find('\n', begin), text.size()) - begin);
  if (!line.empty() && line.back() == '\r') {
    line.remove_suffix(1);
  }
  return line;
}

struct CaretLine {
  std::string line;
  std::size_t letters_before; ///< letters of `line` before the caret
};

/// The line cut to a window around the caret. Tabs and other control letters are one blank wide, bad bytes a mark.
CaretLine around_caret(std::string_view line, std::size_t caret) {
  const std::vector<std::string> letters = shown_letters(line);
  const std::size_t at = shown_letters(line.substr(0, std::min(caret, line.size()))).size();
  const std::size_t begin = at > letters_before_caret ? at - letters_before_caret : 0;
  const std::size_t end = std::min(letters.size(), at + letters_behind_caret);
  CaretLine shown{begin > 0 ? "..." : "", at - begin + (begin > 0 ? 3 : 0)};
  for (std::size_t i = begin; i < end; ++i) {
    shown.line += letters[i];
  }
  shown.line += end < letters.size() ? "..." : "";
  return shown;
}

std::size_t onto_content(std::string_view text, std::size_t offset) {
  if (offset < text.size()) {
    return offset;
  }
  const std::size_t last = text.find_last_not_of(" \t\r\n");
  return last == std::string_view::npos ? 0 : last + 1;
}

[[noreturn]] void fail_file(const std::string& name, std::string_view what_is_wrong, std::string_view what_to_do) {
  throw InputError(fmt::format("{}: {}{}", name, what_is_wrong, indented(what_to_do)));
}

std::vector<std::string> file_names_beside(const std::filesystem::path& file) {
  std::vector<std::string> names;
  std::error_code error;
  const std::filesystem::path folder = file.has_parent_path() ? file.parent_path() : std::filesystem::path(".");
  for (std::filesystem::directory_iterator at(folder, error), end; !error && at != end; at.increment(error)) {
    names.push_back(at->path().filename().string());
  }
  std::sort(names.begin(), names.end());
  return names;
}

void refuse_absent(const std::filesystem::path& file) {
  const std::string name = file.generic_string();
  std::error_code error;
  const std::filesystem::file_status status = std::filesystem::status(file, error);
  if (std::filesystem::is_directory(status)) {
    fail_file(name, "this is a folder; a YAML file was expected", "Name a file inside the folder.");
  }
  if (!std::filesystem::exists(status)) {
    const auto meant = nearest_spelling(file.filename().string(), file_names_beside(file));
    fail_file(name, "there is no such file",
              meant ? fmt::format("Did you mean `{}`?\nCorrect the path.", *meant) : "Correct the path.");
  }
}

std::string read_bytes(const std::filesystem::path& file) {
  refuse_absent(file);
  std::ifstream stream(file, std::ios::binary);
  std::string bytes(largest_file + 1, '\0');
  if (!stream) {
    fail_file(file.generic_string(), "the file cannot be opened for reading", "Check its permissions.");
  }
  stream.read(bytes.data(), static_cast<std::streamsize>(bytes.size()));
  if (stream.bad()) {
    fail_file(file.generic_string(), "the file cannot be read to its end", "Check the disk or the connection to it.");
  }
  bytes.resize(static_cast<std::size_t>(stream.gcount()));
  return bytes;
}

bool is_stray_control(std::string_view text, std::size_t at) {
  const auto byte = static_cast<unsigned char>(text[at]);
  if (byte == '\r') {
    return at + 1 == text.size() || text[at + 1] != '\n';
  }
  return (byte < 0x20U && byte != '\t' && byte != '\n') || byte == 0x7FU;
}

} // namespace

SourceText::SourceText(std::string bytes, std::string shown_name)
    : bytes_(std::move(bytes)), shown_name_(std::move(shown_name)) {}

SourceText SourceText::from_file(const std::filesystem::path& file) {
  return from_bytes(read_bytes(file), file.generic_string());
}

SourceText SourceText::from_bytes(std::string bytes, std::string shown_name) {
  SourceText source(std::move(bytes), std::move(shown_name));
  source.check_bytes();
  return source;
}

void SourceText::check_bytes() const {
  if (bytes_.size() > largest_file) {
    fail_whole("the file is larger than 4 MB", "Case and catalogue files are text of a few pages: check that this is "
                                               "the right file.\nKeep long tables in a CSV file beside it.");
  }
  const std::size_t bad = first_bad_utf8(text());
  if (bad != std::string_view::npos) {
    fail_at(bad, fmt::format("byte 0x{:02X} is not UTF-8 text", static_cast<unsigned char>(text()[bad])),
            "Save the file as UTF-8.");
  }
  for (std::size_t at = 0; at < text().size(); ++at) {
    if (is_stray_control(text(), at)) {
      fail_at(at, fmt::format("control character 0x{:02X} in the text", static_cast<unsigned char>(text()[at])),
              "Delete it; line ends are LF or CR LF.");
    }
  }
}

std::string_view SourceText::text() const {
  const std::string_view all = bytes_;
  return all.substr(0, byte_order_mark.size()) == byte_order_mark ? all.substr(byte_order_mark.size()) : all;
}

void SourceText::fail_at(std::size_t offset, std::string_view what_is_wrong, std::string_view what_to_do) const {
  const std::size_t at = onto_content(text(), offset);
  const std::string_view line = line_around(text(), at);
  const auto line_begin = static_cast<std::size_t>(line.data() - text().data());
  const auto line_number = 1 + std::count(text().begin(), text().begin() + static_cast<std::ptrdiff_t>(at), '\n');
  const std::size_t column = 1 + shown_letters(line.substr(0, std::min(at - line_begin, line.size()))).size();
  const CaretLine shown = around_caret(line, at - line_begin);
  throw InputError(fmt::format("{}:{}:{}: {}\n{:>5} | {}\n{:5} | {:{}}^{}", shown_name_, line_number, column,
                               what_is_wrong, line_number, shown.line, "", "", shown.letters_before,
                               indented(what_to_do)));
}

void SourceText::fail_whole(std::string_view what_is_wrong, std::string_view what_to_do) const {
  fail_file(shown_name_, what_is_wrong, what_to_do);
}

} // namespace crushwright
