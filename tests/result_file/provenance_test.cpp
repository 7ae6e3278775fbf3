#include "result_file/provenance.hpp"

#include <catch2/catch.hpp>
#include <memory>

using namespace crushwright;

// The examples for "abc" and the empty message of FIPS 180-4, from memory; checked against the sha256sum command.
TEST_CASE("the digest of known messages is the published one") {
  CHECK(sha256("abc") == "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
  CHECK(sha256("") == "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
}

TEST_CASE("the input hash follows the case and the catalogue files, not their order or the case's name") {
  CrashCase crash_case;
  crash_case.bytes = "schema: 1\n";
  const std::string hash = input_hash(crash_case, {{"unit_cells/a.yaml", "one"}, {"unit_cells/b.yaml", "two"}});
  CHECK(hash.size() == 64);
  CHECK(input_hash(crash_case, {{"unit_cells/b.yaml", "two"}, {"unit_cells/a.yaml", "one"}}) == hash);
  CHECK(input_hash(crash_case, {{"unit_cells/a.yaml", "on"}, {"unit_cells/b.yaml", "etwo"}}) != hash);
  CHECK(input_hash(crash_case, {{"unit_cells/a.yaml", "one"}}) != hash);
  CrashCase renamed = crash_case;
  renamed.id = "another";
  CHECK(input_hash(renamed, {{"unit_cells/a.yaml", "one"}, {"unit_cells/b.yaml", "two"}}) == hash);
  CrashCase edited = crash_case;
  edited.bytes += " ";
  CHECK(input_hash(edited, {{"unit_cells/a.yaml", "one"}, {"unit_cells/b.yaml", "two"}}) != hash);
}

TEST_CASE("the input hash follows the surfaces that a case names, once for a structure and its mirror") {
  CrashCase crash_case;
  crash_case.bytes = "schema: 1\n";
  const std::string without = input_hash(crash_case, {});
  const auto with_surface = [&](const std::string& name, const std::string& bytes, bool mirrored) {
    CrashCase one = crash_case;
    StructureInput structure;
    structure.id = "left";
    structure.envelope.file =
        std::make_shared<const GeometryFile>(GeometryFile{name, std::make_shared<const std::string>(bytes)});
    one.structures.push_back(structure);
    if (mirrored) {
      structure.id = "right";
      structure.mirror_of = "left";
      one.structures.push_back(structure);
    }
    return input_hash(one, {});
  };
  const std::string hash = with_surface("cone.ply", "points", false);
  CHECK(hash != without);
  CHECK(with_surface("cone.ply", "points", true) == hash);
  CHECK(with_surface("cone.ply", "point", false) != hash);
  CHECK(with_surface("cone2.ply", "points", false) != hash);
}
