#include "review_pack/bibliography.hpp"

#include <catch2/catch.hpp>

using namespace crushwright;

TEST_CASE("an entry of the bibliography becomes one line with authors, title, place and what was seen") {
  const auto entries =
      read_bibliography("% a remark\n\n@article{smith2001,\n  author = {Smith, A. and Jones, B.},\n"
                        "  title = {Crush of {BCC} cells},\n  journal = {J. Test.},\n  volume = {4},\n"
                        "  pages = {10--20},\n  year = {2001},\n  note = {read: Table 2}\n}\n"
                        "\n@misc{page,\n  title = {A page},\n  note = {memory}\n}\n");
  REQUIRE(entries.size() == 2);
  CHECK(entries.at("smith2001") ==
        "Smith, A.; Jones, B.: Crush of BCC cells, J. Test., 4, 10\u201320, 2001 (read: Table 2)");
  CHECK(entries.at("page") == "A page (memory)");
}

TEST_CASE("every entry of the project's bibliography has a key and says what was seen of it") {
  CHECK(bibliography().size() >= 50);
  for (const auto& [key, text] : bibliography()) {
    INFO(key);
    CHECK_FALSE(key.empty());
    CHECK(text.find(" (") != std::string::npos);
    CHECK(text.find_first_of("{}\n") == std::string::npos);
  }
}

TEST_CASE("keys in brackets are found in a source's text") {
  CHECK(cited_keys("[gibson1997cellular] ch. 5; [coluccia_graded_lattices] Table 8") ==
        std::vector<std::string>{"gibson1997cellular", "coluccia_graded_lattices"});
  CHECK(cited_keys("a drawing [unfinished").empty());
}
