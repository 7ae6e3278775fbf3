#include "quantities/message_of.hpp"
#include "yaml_input/mapping.hpp"

#include <cstdio>
#include <filesystem>
#include <fstream>
#include <unistd.h>

#include <catch2/catch.hpp>

using namespace crushwright;

namespace {

std::string refusal(const std::string& text) {
  return message_of([&] { Mapping::read_text(text, "cases/x.yaml"); });
}

/// A folder of its own that goes with the test.
class ScratchFolder {
public:
  ScratchFolder()
      : path_(std::filesystem::temp_directory_path() / ("crushwright_yaml_input_" + std::to_string(::getpid()))) {
    std::filesystem::create_directories(path_);
  }
  ~ScratchFolder() { std::filesystem::remove_all(path_); }
  ScratchFolder(const ScratchFolder&) = delete;
  ScratchFolder& operator=(const ScratchFolder&) = delete;

  std::filesystem::path write(const std::string& name, const std::string& bytes) const {
    std::ofstream(path_ / name, std::ios::binary) << bytes;
    return path_ / name;
  }
  std::filesystem::path path() const { return path_; }

private:
  std::filesystem::path path_;
};

const std::string indentation_advice =
    "   Give all keys of one mapping the same indentation, and put a space behind each colon.\n"
    "   Put a text that holds `: ` or ` #` in quotes.";
const std::string bracket_advice = "   Close every [ with ] and every { with }, and part the items with commas.";
const std::string reused_advice =
    "   Anchors (&name) and aliases (*name) are not read: write the values out where they are needed.";
const std::string tag_advice = "   Tags (!name) are not read: delete it and write the plain value.";

} // namespace

TEST_CASE("a file is read whole, its bytes and name kept") {
  const ScratchFolder folder;
  const std::string bytes = "\xEF\xBB\xBFschema: 1\r\ntitle: tip\r\n";
  const auto file = folder.write("tip.yaml", bytes);
  Mapping read = Mapping::read_file(file);
  read.allow({"title"});
  CHECK(read.text("title") == "tip");
  CHECK(read.bytes() == bytes);
  CHECK(read.file_name() == file.generic_string());
  CHECK(read.path().empty());
}

TEST_CASE("a missing file is reported with the nearest name beside it") {
  const ScratchFolder folder;
  folder.write("tip.yaml", "schema: 1\n");
  const std::string near = (folder.path() / "tipp.yaml").generic_string();
  CHECK(message_of([&] { Mapping::read_file(near); }) ==
        near + ": there is no such file\n   Did you mean `tip.yaml`?\n   Correct the path.");
  const std::string far = (folder.path() / "absent" / "x.yaml").generic_string();
  CHECK(message_of([&] { Mapping::read_file(far); }) == far + ": there is no such file\n   Correct the path.");
}

TEST_CASE("a folder in place of a file is refused") {
  const ScratchFolder folder;
  const std::string name = folder.path().generic_string();
  CHECK(message_of([&] { Mapping::read_file(name); }) ==
        name + ": this is a folder; a YAML file was expected\n   Name a file inside the folder.");
}

TEST_CASE("a file without read permission is refused") {
  const ScratchFolder folder;
  const auto file = folder.write("locked.yaml", "schema: 1\n");
  std::filesystem::permissions(file, std::filesystem::perms::none);
  const std::string message = message_of([&] { Mapping::read_file(file); });
  // The superuser may read every file.
  if (::geteuid() == 0) {
    CHECK(message == "accepted");
  } else {
    CHECK(message == file.generic_string() + ": the file cannot be opened for reading\n   Check its permissions.");
  }
}

TEST_CASE("a file over 4 MB is refused, one of exactly 4 MB is read") {
  const std::string start = "schema: 1\n#";
  CHECK(refusal(start + std::string(4'000'000 - start.size(), '.')) == "accepted");
  const std::string message =
      ": the file is larger than 4 MB\n"
      "   Case and catalogue files are text of a few pages: check that this is the right file.\n"
      "   Keep long tables in a CSV file beside it.";
  const std::string large = start + std::string(4'000'001 - start.size(), '.');
  CHECK(refusal(large) == "cases/x.yaml" + message);
  const ScratchFolder folder;
  const auto file = folder.write("large.yaml", large + "more");
  CHECK(message_of([&] { Mapping::read_file(file); }) == file.generic_string() + message);
}

TEST_CASE("a byte that is not UTF-8 is pointed at") {
  CHECK(refusal("schema: 1\ntitle: caf\xE9 x\n") == "cases/x.yaml:2:11: byte 0xE9 is not UTF-8 text\n"
                                                    "    2 | title: caf? x\n"
                                                    "      |           ^\n"
                                                    "   Save the file as UTF-8.");
  const std::string overlong = "schema: 1\na: \xC0\xAF\n";
  const std::string surrogate = "schema: 1\na: \xED\xA0\x80\n";
  const std::string beyond = "schema: 1\na: \xF4\x90\x80\x80\n";
  const std::string cut = "schema: 1\na: \xE2\x82";
  for (const std::string& text : {overlong, surrogate, beyond, cut}) {
    CHECK(refusal(text).find("cases/x.yaml:2:4: byte 0x") == 0);
  }
  CHECK(refusal("schema: 1\na: \u00b5\u20ac\U0001F527\n") == "accepted");
}

TEST_CASE("control characters are refused, so that no library can take one for the end of the file") {
  CHECK(refusal(std::string("schema: 1\na: b\x04 c\n")) == "cases/x.yaml:2:5: control character 0x04 in the text\n"
                                                           "    2 | a: b  c\n"
                                                           "      |     ^\n"
                                                           "   Delete it; line ends are LF or CR LF.");
  CHECK(refusal("schema: 1\ra: b\n") == "cases/x.yaml:1:10: control character 0x0D in the text\n"
                                        "    1 | schema: 1 a: b\n"
                                        "      |          ^\n"
                                        "   Delete it; line ends are LF or CR LF.");
}

TEST_CASE("an empty file is refused") {
  for (const std::string text : {"", "\n\n", "# only a remark\n", "---\n"}) {
    CHECK(refusal(text) == "cases/x.yaml: the file is empty\n   Begin it with the line `schema: 1`.");
  }
}

TEST_CASE("a root that is not a mapping is refused") {
  const std::string advice =
      "\n   Begin the file with the line `schema: 1` and write its keys below it as `key: value`.";
  CHECK(refusal("- a\n") == "cases/x.yaml:1:1: the file holds a list; a mapping was expected\n"
                            "    1 | - a\n"
                            "      | ^" +
                                advice);
  CHECK(refusal("words") == "cases/x.yaml:1:1: the file holds a single value; a mapping was expected\n"
                            "    1 | words\n"
                            "      | ^" +
                                advice);
}

TEST_CASE("a file states the edition of its format") {
  CHECK(refusal("# remark\ntitle: a\n") == "cases/x.yaml:2:1: `schema` is missing at the top level\n"
                                           "    2 | title: a\n"
                                           "      | ^\n"
                                           "   Add the line `schema: 1` at the top of the file.");
  CHECK(refusal("title: a\nschema: 2\n") ==
        "cases/x.yaml:2:9: `schema` must be 1, the only edition of the format that this version reads\n"
        "    2 | schema: 2\n"
        "      |         ^\n"
        "   Bring the file to that edition and write `schema: 1`.");
  CHECK(refusal("schema:\n") ==
        "cases/x.yaml:1:1: `schema` must be 1, the only edition of the format that this version reads\n"
        "    1 | schema:\n"
        "      | ^\n"
        "   Bring the file to that edition and write `schema: 1`.");
}

TEST_CASE("a second document is refused, one framed document is read") {
  CHECK(refusal("schema: 1\n---\nschema: 1\n") ==
        "cases/x.yaml:2:1: a second document begins here; a file holds one\n"
        "    2 | ---\n"
        "      | ^\n"
        "   Delete what follows, or move it to a file of its own.");
  CHECK(refusal("---\nschema: 1\n...\n") == "accepted");
}

TEST_CASE("tags are refused on every kind of node") {
  CHECK(refusal("schema: 1\na: !!str 5\n") == "cases/x.yaml:2:4: a tag\n"
                                              "    2 | a: !!str 5\n"
                                              "      |    ^\n" +
                                                  tag_advice);
  for (const std::string value : {"!x 5", "! 5", "!x", "!x [1]", "!x {b: 1}", "!<x> 5"}) {
    INFO(value);
    CHECK(refusal("schema: 1\na: " + value + "\n") ==
          "cases/x.yaml:2:4: a tag\n    2 | a: " + value + "\n      |    ^\n" + tag_advice);
  }
  CHECK(refusal("schema: 1\na: '!x'\n") == "accepted");
}

TEST_CASE("anchors and aliases are refused, so no small file can unfold into a large one") {
  CHECK(refusal("schema: 1\na: &k [1, 2]\nb: [*k, *k]\n") == "cases/x.yaml:2:4: an anchor, `&k`\n"
                                                             "    2 | a: &k [1, 2]\n"
                                                             "      |    ^\n" +
                                                                 reused_advice);
  CHECK(refusal("schema: 1\nb: [1, *k]\n") == "cases/x.yaml:2:8: an alias\n"
                                              "    2 | b: [1, *k]\n"
                                              "      |        ^\n" +
                                                  reused_advice);
}

TEST_CASE("a key that stands twice is refused at every level") {
  CHECK(refusal("schema: 1\na: 1\na: 2\n") == "cases/x.yaml:3:1: the key `a` stands twice in one mapping\n"
                                              "    3 | a: 2\n"
                                              "      | ^\n"
                                              "   It was first given in line 2. Delete one of the two.");
  CHECK(refusal("schema: 1\nb:\n  - {c: 1, d: 2, c: 3}\n") ==
        "cases/x.yaml:3:18: the key `c` stands twice in one mapping\n"
        "    3 |   - {c: 1, d: 2, c: 3}\n"
        "      |                  ^\n"
        "   It was first given in line 3. Delete one of the two.");
  CHECK(refusal("schema: 1\na: {c: 1}\nb: {c: 1}\n") == "accepted");
}

TEST_CASE("a key is one word") {
  const std::string what = ": a key is a list or a mapping; a word was expected\n";
  const std::string advice = "   Write `key: value` with a plain word as the key.";
  CHECK(refusal("schema: 1\n? [a, b]\n: 2\n") ==
        "cases/x.yaml:2:3" + what + "    2 | ? [a, b]\n      |   ^\n" + advice);
  CHECK(refusal("schema: 1\n{a: 1}: 2\n") == "cases/x.yaml:2:1" + what + "    2 | {a: 1}: 2\n      | ^\n" + advice);
  CHECK(refusal("schema: 1\n: 2\n") == "cases/x.yaml:2:1: a key is empty\n"
                                       "    2 | : 2\n"
                                       "      | ^\n"
                                       "   Write a word before the colon.");
}

TEST_CASE("nesting deeper than 32 levels is refused, 32 levels are read") {
  const auto nested = [](std::size_t lists) {
    return "schema: 1\na: " + std::string(lists, '[') + std::string(lists, ']') + "\n";
  };
  CHECK(refusal(nested(31)) == "accepted");
  CHECK(refusal(nested(32)) == "cases/x.yaml:2:35: nested deeper than 32 levels\n"
                               "    2 | a: [[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]\n"
                               "      |                                   ^\n"
                               "   Check the brackets and the indentation.");
  CHECK(refusal(nested(20'000)).find("cases/x.yaml:2:35: nested deeper than 32 levels\n") == 0);
}

TEST_CASE("wrong indentation is explained") {
  CHECK(refusal("schema: 1\na:\n  b: 1\n c: 2\n") == "cases/x.yaml:4:2: the mapping ends unexpectedly here\n"
                                                     "    4 |  c: 2\n"
                                                     "      |  ^\n" +
                                                         indentation_advice);
  CHECK(refusal("schema: 1\na: b: c\n") == "cases/x.yaml:2:5: a `: ` stands where no key and value can be\n"
                                           "    2 | a: b: c\n"
                                           "      |     ^\n" +
                                               indentation_advice);
  CHECK(refusal("schema: 1\na:\n\tb: 1\n") == "cases/x.yaml:3:1: a tab in the indentation\n"
                                              "    3 |  b: 1\n"
                                              "      | ^\n"
                                              "   Indent with spaces.");
}

TEST_CASE("open brackets and quotes are explained") {
  CHECK(refusal("schema: 1\na: {b: 1\n") == "cases/x.yaml:2:9: a { is not closed\n"
                                            "    2 | a: {b: 1\n"
                                            "      |         ^\n" +
                                                bracket_advice);
  CHECK(refusal("schema: 1\na: [1, 2\n") == "cases/x.yaml:2:9: a [ is not closed\n"
                                            "    2 | a: [1, 2\n"
                                            "      |         ^\n" +
                                                bracket_advice);
  CHECK(refusal("schema: 1\n]\n") == "cases/x.yaml:2:1: a closing bracket without an opening one\n"
                                     "    2 | ]\n"
                                     "      | ^\n" +
                                         bracket_advice);
  for (const std::string value : {"\"b", "'b", "'it''s", "\"b\\\""}) {
    INFO(value);
    CHECK(refusal("schema: 1\na: " + value + "\n") == "cases/x.yaml:2:4: a quoted text is not closed\n"
                                                      "    2 | a: " +
                                                          value +
                                                          "\n"
                                                          "      |    ^\n"
                                                          "   Close the quotes on the same line.");
  }
  CHECK(refusal("schema: 1\na: \"\\q\"\n") ==
        "cases/x.yaml:2:7: a bad escape in a quoted text\n"
        "    2 | a: \"\\q\"\n"
        "      |       ^\n"
        "   Close the quotes, and use only escapes that YAML knows (\\n, \\t, \\\", \\\\).");
}

TEST_CASE("a character reserved by YAML is explained") {
  CHECK(refusal("schema: 1\na: @x\n") == "cases/x.yaml:2:4: a character that cannot begin a value\n"
                                         "    2 | a: @x\n"
                                         "      |    ^\n"
                                         "   Put the value in quotes.");
  CHECK(refusal("schema: 1\na: |x\n  b\n") == "cases/x.yaml:2:5: a bad indentation mark of a text block\n"
                                              "    2 | a: |x\n"
                                              "      |     ^\n"
                                              "   Write only | or > behind the colon.");
  CHECK(refusal("%YAML 3.0\n---\nschema: 1\n") == "cases/x.yaml:1:1: a bad directive\n"
                                                  "    1 | %YAML 3.0\n"
                                                  "      | ^\n"
                                                  "   Delete the line that begins with %: no directive is needed.");
}

TEST_CASE("the caret counts letters, not bytes, and long lines are cut around it") {
  CHECK(refusal("schema: 1\nmü: {µ: 1, µ: 2}\n") == "cases/x.yaml:2:12: the key `µ` stands twice in one mapping\n"
                                                    "    2 | mü: {µ: 1, µ: 2}\n"
                                                    "      |            ^\n"
                                                    "   It was first given in line 2. Delete one of the two.");
  const std::string row = std::string(200, 'x');
  CHECK(refusal("schema: 1\na: [" + row + ", !t " + row + "]\n") ==
        "cases/x.yaml:2:207: a tag\n    2 | ..." + std::string(68, 'x') + ", !t " + std::string(37, 'x') +
            "...\n      |    " + std::string(71, ' ').substr(1) + "^\n" + tag_advice);
}
