#include "crushwright/errors.hpp"
#include "yaml_input/mapping.hpp"

#include <random>
#include <stdexcept>

#include <catch2/catch.hpp>

using namespace crushwright;

namespace {

const std::string sound = R"(schema: 1
title: "Two tapered bodies, invented"   # a remark
structures:
  left:
    lattice: {cell: bcc, strut: 1.2 mm, edge: {value: 8 mm, low: 7.9 mm, source: drawing, standing: read}}
    corners: [[0 mm, 10 mm], [5 mm, -3 mm]]
speeds: [35 km/h, 9.7 m/s]
limits:
  - {kind: force, value: 80 kN}
  - kind: acceleration
    value: 20 g
note: >
  folded text
  of two lines
count: 6
share: 50 %
)";

void read_lattice(Mapping lattice) {
  lattice.allow({"cell", "strut", "edge"});
  lattice.choice("cell", {"bcc", "fcc"});
  lattice.quantity("strut", Dimension::length, Bounds::positive());
  lattice.quantity("edge", Dimension::length, Bounds::positive());
}

void read_limits(const Mapping& root) {
  for (Mapping limit : root.list("limits")) {
    limit.allow({"kind", "value"});
    const bool force = limit.choice("kind", {"force", "acceleration"}) == "force";
    limit.quantity("value", force ? Dimension::force : Dimension::acceleration);
  }
}

void read_all(const std::string& text) {
  Mapping root = Mapping::read_text(text, "cases/x.yaml");
  root.allow({"title", "structures", "speeds", "limits", "note", "count", "share"});
  root.text("title");
  root.text("note");
  root.integer("count", 1, 9);
  root.quantity("share", Dimension::fraction, Bounds::closed(0, 1));
  root.quantity_list("speeds", Dimension::speed);
  for (auto& [id, structure] : root.entries("structures")) {
    structure.allow({"lattice", "corners"});
    structure.quantity_rows("corners", 2, Dimension::length);
    read_lattice(structure.mapping("lattice"));
  }
  read_limits(root);
}

/// 1 when the text was refused, else 0. Anything but an InputError in our layout leaves this function and fails the
/// test.
std::size_t refused(const std::string& text) {
  try {
    read_all(text);
  } catch (const InputError& error) {
    const std::string message = error.what();
    if (message.find("cases/x.yaml:") != 0 || message.find("\n   ") == std::string::npos) {
      throw std::logic_error("a message without place or advice: " + message);
    }
    return 1;
  }
  return 0;
}

constexpr char trouble[] = "\0\x04\t\n\r \"'#%&*,-.:?@[]{|}!>0a~\x7F\x80\xC3\xFF";

} // namespace

TEST_CASE("a sound file is read whole") {
  REQUIRE_NOTHROW(read_all(sound));
}

TEST_CASE("a file with one byte changed is read or refused by a message, never anything else") {
  const std::string bytes_of_trouble(trouble, sizeof trouble - 1);
  std::size_t refusals = 0;
  for (std::size_t at = 0; at < sound.size(); ++at) {
    for (char byte : bytes_of_trouble) {
      std::string damaged = sound;
      damaged[at] = byte;
      CAPTURE(at, static_cast<int>(byte));
      REQUIRE_NOTHROW(refusals += refused(damaged));
    }
  }
  // Most places matter to the meaning: a reader that refused little would read nonsense.
  CHECK(refusals > sound.size() * bytes_of_trouble.size() / 2);
}

TEST_CASE("a file cut short anywhere, or with one byte more or fewer, is read or refused by a message") {
  for (std::size_t at = 0; at < sound.size(); ++at) {
    CAPTURE(at);
    REQUIRE_NOTHROW(refused(sound.substr(0, at)));
    REQUIRE_NOTHROW(refused(sound.substr(0, at) + sound.substr(at + 1)));
    for (char byte : std::string("\n :[{\"'-&*!")) {
      REQUIRE_NOTHROW(refused(sound.substr(0, at) + byte + sound.substr(at)));
    }
  }
}

TEST_CASE("a file with many bytes shuffled is read or refused by a message") {
  std::mt19937 random(20240);
  // Raw engine output, because distributions may differ between standard libraries.
  for (int round = 0; round < 2000; ++round) {
    std::string damaged = sound;
    const std::size_t changes = 2 + random() % 20;
    for (std::size_t i = 0; i < changes; ++i) {
      std::swap(damaged[random() % damaged.size()], damaged[random() % damaged.size()]);
    }
    CAPTURE(round);
    REQUIRE_NOTHROW(refused(damaged));
  }
}
