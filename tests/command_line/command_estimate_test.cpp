#include "command_line/program_run.hpp"
#include "result_file/channel_reader.hpp"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

using namespace crushwright;
using namespace program_run;
using nlohmann::json;

namespace {

json estimated(const TemporaryFolder& folder, std::vector<std::string> more = {}) {
  std::vector<std::string> words{"estimate", "block.yaml", "--json", "--no-pack"};
  words.insert(words.end(), more.begin(), more.end());
  const Ended ended = run(folder, words);
  INFO(ended.err);
  REQUIRE((ended.code == 0 || ended.code == 1));
  return json::parse(ended.out);
}

std::string digest(const json& document) {
  return document.at("input_hash").at("digest").get<std::string>();
}

double first_value(const json& document, const std::string& limit) {
  for (const json& check : document.at("verdict").at("checks"))
    if (check.at("limit").at("id") == limit)
      return check.at("combined").at("nominal").at("value").get<double>();
  throw std::logic_error("no check " + limit);
}

/// A catalogue file of the project with one piece exchanged.
std::string changed_entry(const std::string& name, const std::string& piece, const std::string& other) {
  std::string text = bytes_of(source / "lattices" / name);
  const std::size_t at = text.find(piece);
  if (at == std::string::npos)
    throw std::logic_error(name + " has no text: " + piece);
  return text.replace(at, piece.size(), other);
}

} // namespace

TEST_CASE("the review pack lies in the current folder under the name of the case unless another is given") {
  const TemporaryFolder folder("pack_place");
  folder.write("cases/block.yaml", block_case());
  const Ended here = run(folder, {"estimate", "cases/block.yaml"});
  CHECK(here.code == 0);
  CHECK(std::filesystem::exists(folder.path() / "block_pack/review.html"));
  CHECK(here.out.find("Review pack: block_pack/review.html\n") != std::string::npos);
  const Ended there = run(folder, {"estimate", "cases/block.yaml", "--pack", "reviews/first"});
  CHECK(std::filesystem::exists(folder.path() / "reviews/first/review.html"));
  CHECK(there.out.find("Review pack: reviews/first/review.html\n") != std::string::npos);
}

TEST_CASE("the printed document is the one in the pack") {
  const TemporaryFolder folder("same_document");
  folder.write("block.yaml", block_case());
  const Ended ended = run(folder, {"estimate", "block.yaml", "--json"});
  CHECK(ended.out == bytes_of(folder.path() / "block_pack/result.json"));
  CHECK(ended.err.empty());
}

TEST_CASE("the document has the keys that its page promises, and holds neither path nor time") {
  const TemporaryFolder folder("document_keys");
  folder.write("block.yaml", block_case());
  const json document = estimated(folder);
  const std::string page = bytes_of(source / "docs/result_format.md");
  CHECK(document.at("schema") == 1);
  CHECK(document.at("command") == "estimate");
  CHECK(document.at("verdict").at("word") == "pass");
  const json& verdict = document.at("verdict");
  for (const json* part : {&document, &verdict, &verdict.at("checks").at(0), &verdict.at("checks").at(0).at("limit"),
                           &document.at("case"), &document.at("inputs").at(0)})
    for (const auto& [key, value] : part->items()) {
      INFO(key);
      CHECK(page.find("`" + key + "`") != std::string::npos);
    }
  for (const char* promised : {"program", "version", "input_hash", "case", "level", "verdict", "other_verdicts",
                               "structures", "curves", "impacts", "inputs", "warnings"})
    CHECK(document.contains(promised));
  for (const std::string& outside : {source.string(), folder.path().string()})
    CHECK(document.dump().find(outside) == std::string::npos);
}

TEST_CASE("the same case gives the same bytes, from any folder and twice") {
  const TemporaryFolder folder("same_bytes"), other("same_bytes_elsewhere");
  folder.write("block.yaml", block_case());
  other.write("deeper/block.yaml", block_case());
  run(folder, {"estimate", "block.yaml", "--pack", "one"});
  run(folder, {"estimate", "block.yaml", "--pack", "two"});
  run(other, {"estimate", "deeper/block.yaml", "--pack", "three"});
  const auto one = files_below(folder.path() / "one");
  CHECK(one.size() > 3);
  CHECK((one == files_below(folder.path() / "two")));
  CHECK((one == files_below(other.path() / "three")));
}

TEST_CASE("a pack that cannot be written is bad input, prints no result and leaves what was there") {
  const TemporaryFolder folder("unwritable");
  folder.write("block.yaml", block_case());
  folder.write("notes/keep.txt", "mine");
  folder.write("a_file", "mine");
  for (const char* target : {"notes", "a_file", "a_file/below", "/proc/pack", ""}) {
    INFO(target);
    const Ended ended = run(folder, {"estimate", "block.yaml", "--pack", target});
    CHECK(ended.code == 2);
    CHECK(ended.out.empty());
    CHECK(ended.err.find("review pack") != std::string::npos);
  }
  CHECK(bytes_of(folder.path() / "notes/keep.txt") == "mine");
  CHECK(bytes_of(folder.path() / "a_file") == "mine");
}

TEST_CASE("a pack is replaced whole, and stays when the new result cannot be had") {
  const TemporaryFolder folder("replaced");
  folder.write("block.yaml", block_case());
  run(folder, {"estimate", "block.yaml"});
  const auto first = files_below(folder.path() / "block_pack");
  std::string broken = block_case();
  folder.write("block.yaml", broken.replace(broken.find("wall: 0.5 mm"), 12, "wall: 90 mm "));
  CHECK(run(folder, {"estimate", "block.yaml"}).code == 2);
  CHECK((files_below(folder.path() / "block_pack") == first));
  std::string renamed = block_case();
  folder.write("block.yaml", renamed.replace(renamed.find("  drop:"), 7, "  fall:"));
  CHECK(run(folder, {"estimate", "block.yaml"}).code == 0);
  bool old_curve = false, new_curve = false;
  for (const auto& [name, bytes] : files_below(folder.path() / "block_pack")) {
    old_curve = old_curve || name.find("drop") != std::string::npos;
    new_curve = new_curve || name.find("fall") != std::string::npos;
  }
  CHECK_FALSE(old_curve);
  CHECK(new_curve);
}

TEST_CASE("a cell of one's own is used without code") {
  const TemporaryFolder folder("own_cell");
  std::string cell =
      changed_entry("unit_cells/honeycomb_uniform_wall.yaml", "id: honeycomb_uniform_wall", "id: own_comb");
  folder.write("own/unit_cells/own_comb.yaml", cell);
  std::string text = block_case();
  folder.write("block.yaml", text);
  const json built_in = estimated(folder);
  folder.write("block.yaml", text.replace(text.find("honeycomb_uniform_wall"), 22, "own_comb"));
  CHECK(run(folder, {"estimate", "block.yaml", "--no-pack"}).code == 2);
  const json own = estimated(folder, {"--catalogue", "own"});
  CHECK(own.at("structures").at(0).at("cell") == "own_comb");
  CHECK(first_value(own, "rig_force") == first_value(built_in, "rig_force"));
}

TEST_CASE("a material of the same name in one's own folder replaces the built-in one") {
  const TemporaryFolder folder("own_material");
  folder.write("block.yaml", block_case());
  const std::string name = "base_materials/AlSi10Mg-stress-relieved.yaml";
  const json built_in = estimated(folder);
  const double density = built_in.at("structures").at(0).at("mass").at("lattice").at("value").get<double>();
  folder.write("own/" + name, changed_entry(name, "value: 2670 kg/m^3", "value: 5340 kg/m^3"));
  const json own = estimated(folder, {"--catalogue", "own"});
  CHECK(own.at("structures").at(0).at("mass").at("lattice").at("value").get<double>() == Approx(2 * density));
  CHECK(digest(own) != digest(built_in));
  CHECK(own.dump().find("own/base_materials") == std::string::npos);
}

TEST_CASE("the input hash covers the case and the catalogue files in use, and no other") {
  const TemporaryFolder folder("hash");
  folder.write("block.yaml", block_case());
  const std::string plain = digest(estimated(folder));
  folder.write("unused/unit_cells/octet.yaml",
               changed_entry("unit_cells/octet.yaml", "schema: 1", "schema: 1 # mine"));
  CHECK(digest(estimated(folder, {"--catalogue", "unused"})) == plain);
  const std::string name = "unit_cells/honeycomb_uniform_wall.yaml";
  folder.write("used/" + name, changed_entry(name, "schema: 1", "schema: 1 # mine"));
  CHECK(digest(estimated(folder, {"--catalogue", "used"})) != plain);
  CHECK(digest(estimated(folder, {"--catalogue", "used", "--catalogue", "unused"})) ==
        digest(estimated(folder, {"--catalogue", "unused", "--catalogue", "used"})));
  folder.write("block.yaml", block_case() + "# a word more\n");
  CHECK(digest(estimated(folder)) != plain);
}

TEST_CASE("a catalogue folder that is none is bad input") {
  const TemporaryFolder folder("no_catalogue");
  folder.write("block.yaml", block_case());
  folder.write("empty/readme.txt", "nothing");
  const Ended nowhere = run(folder, {"estimate", "block.yaml", "--catalogue", "nowhere"});
  CHECK(nowhere.code == 2);
  CHECK(nowhere.err == "nowhere: there is no such catalogue folder\n"
                       "   Name a folder that holds unit_cells/ or base_materials/.\n");
  CHECK(run(folder, {"estimate", "block.yaml", "--catalogue", "empty"}).code == 2);
}

TEST_CASE("an installed program finds the catalogue that lies beside it") {
  const TemporaryFolder folder("installed");
  std::filesystem::create_directories(folder.path() / "bin");
  const std::filesystem::path program = folder.path() / "bin/crushwright";
  std::filesystem::copy_file(CRUSHWRIGHT_PROGRAM, program);
  std::filesystem::create_directories(folder.path() / "share/crushwright");
  std::filesystem::copy(source / "lattices", folder.path() / "share/crushwright/lattices",
                        std::filesystem::copy_options::recursive);
  const std::string name = "base_materials/AlSi10Mg-stress-relieved.yaml";
  folder.write("share/crushwright/lattices/" + name, changed_entry(name, "value: 2670 kg/m^3", "value: 5340 kg/m^3"));
  folder.write("block.yaml", block_case());
  const Ended installed = run(folder, {"estimate", "block.yaml", "--json", "--no-pack"}, program);
  REQUIRE_FALSE(installed.out.empty());
  const auto mass = [](const json& document) {
    return document.at("structures").at(0).at("mass").at("lattice").at("value").get<double>();
  };
  CHECK(mass(json::parse(installed.out)) == Approx(2 * mass(estimated(folder))));
}

TEST_CASE("option --histories writes each impact's channels to a new folder and warns of codes with unknown parts") {
  const TemporaryFolder folder("histories");
  folder.write("block.yaml", block_case());
  const json document = estimated(folder, {"--histories", "deep/channels"});
  for (const json& impact : document.at("impacts")) {
    const std::string id = impact.at("id").get<std::string>();
    const ChannelFolder back = read_channel_folder(folder.path() / "deep/channels" / id);
    CHECK(back.title == id);
    CHECK(back.channels.back().name == "total force");
  }
  const Ended again = run(folder, {"estimate", "block.yaml", "--no-pack", "--histories", "second"});
  CHECK(again.out.find("Histories: second\n") != std::string::npos);
  CHECK(again.err.find("warning: the channel codes") != std::string::npos);
  CHECK(again.err.find(": total force\n") != std::string::npos);
  CHECK((files_below(folder.path() / "deep/channels") == files_below(folder.path() / "second")));
}

TEST_CASE("option --histories refuses a folder with something in it before the pack is written") {
  const TemporaryFolder folder("histories_foreign");
  folder.write("block.yaml", block_case());
  folder.write("mine/notes.txt", "mine");
  const Ended ended = run(folder, {"estimate", "block.yaml", "--histories", "mine"});
  CHECK(ended.code == 2);
  CHECK(ended.out.empty());
  CHECK(ended.err.find("mine: the histories cannot be written here: \"notes.txt\" in it is not part of") !=
        std::string::npos);
  CHECK(bytes_of(folder.path() / "mine/notes.txt") == "mine");
  CHECK(files_below(folder.path() / "mine").size() == 1);
  CHECK_FALSE(std::filesystem::exists(folder.path() / "block_pack"));
}

TEST_CASE("histories and review pack do not share a folder, since each replaces its own whole") {
  const TemporaryFolder folder("histories_in_pack");
  folder.write("block.yaml", block_case());
  for (const std::string place : {"block_pack", "block_pack/channels", ".", "./block_pack/"}) {
    const Ended ended = run(folder, {"estimate", "block.yaml", "--histories", place});
    INFO(place << ended.err);
    CHECK(ended.code == 2);
    CHECK(ended.err.find("the histories cannot be written here") != std::string::npos);
  }
  CHECK_FALSE(std::filesystem::exists(folder.path() / "block_pack"));
}

TEST_CASE("histories of an earlier estimate are replaced by those of the new one") {
  const TemporaryFolder folder("histories_again");
  const auto histories_of = [&](const std::string& mass) {
    std::string text = block_case();
    const std::size_t at = text.find("mass: ");
    REQUIRE(at != std::string::npos);
    folder.write("block.yaml", text.replace(at, text.find_first_of(",}\n", at) - at, "mass: " + mass));
    REQUIRE(run(folder, {"estimate", "block.yaml", "--no-pack", "--histories", "channels"}).code != 2);
    return files_below(folder.path() / "channels");
  };
  const auto first = histories_of("300 kg");
  const auto second = histories_of("250 kg");
  CHECK((first != second));
  CHECK((histories_of("300 kg") == first));
}
