#include "crushwright/errors.hpp"
#include "result_file/file_set.hpp"

#include <catch2/catch.hpp>

#include <cstdlib>
#include <fstream>
#include <iterator>

using namespace crushwright;
namespace fs = std::filesystem;

namespace {

class Scratch {
public:
  Scratch() {
    std::string name = (fs::temp_directory_path() / "crushwright-pack-XXXXXX").string();
    REQUIRE(mkdtemp(name.data()) != nullptr);
    path_ = name;
  }
  ~Scratch() { fs::remove_all(path_); }
  fs::path operator/(const std::string& name) const { return path_ / name; }
  std::ptrdiff_t entries() const { return std::distance(fs::directory_iterator(path_), fs::directory_iterator()); }

private:
  fs::path path_;
};

std::string bytes_of(const fs::path& file) {
  std::ifstream stream(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(stream), {}};
}

void put(const fs::path& file, const std::string& bytes) {
  fs::create_directories(file.parent_path());
  std::ofstream(file, std::ios::binary) << bytes;
}

std::vector<PackFile> pack(const std::string& mark) {
  return {{"result.json", "{\n  \"schema\": 1,\n  \"program\": \"crushwright\",\n  \"mark\": \"" + mark + "\"\n}\n"},
          {"review.html", mark},
          {"curves/a.csv", mark}};
}

std::string message(const fs::path& folder) {
  try {
    write_pack_folder(folder, pack("new"));
  } catch (const InputError& error) {
    return error.what();
  }
  return "written";
}

} // namespace

TEST_CASE("a pack is written with its folders and leaves nothing beside it") {
  const Scratch scratch;
  write_pack_folder(scratch / "deep/er/pack", pack("one"));
  CHECK(bytes_of(scratch / "deep/er/pack/curves/a.csv") == "one");
  CHECK(bytes_of(scratch / "deep/er/pack/review.html") == "one");
  CHECK(std::distance(fs::directory_iterator(scratch / "deep/er"), fs::directory_iterator()) == 1);
}

TEST_CASE("an existing pack is replaced whole") {
  const Scratch scratch;
  std::vector<PackFile> first = pack("one");
  first.push_back({"curves/only_in_the_first.csv", "x"});
  write_pack_folder(scratch / "pack", first);
  write_pack_folder(scratch / "pack", pack("two"));
  CHECK(bytes_of(scratch / "pack/review.html") == "two");
  CHECK_FALSE(fs::exists(scratch / "pack/curves/only_in_the_first.csv"));
  CHECK(scratch.entries() == 1);
}

TEST_CASE("a folder that is not a pack is refused and left as it was") {
  const Scratch scratch;
  put(scratch / "thesis/chapter.txt", "years of work");
  CHECK(message(scratch / "thesis") ==
        (scratch / "thesis").string() +
            ": the review pack cannot be written here: the folder is not empty and holds no result.json of this "
            "program, so it is not a review pack.\nName another folder, or empty this one.");
  CHECK(bytes_of(scratch / "thesis/chapter.txt") == "years of work");
  CHECK(scratch.entries() == 1);
}

TEST_CASE("a pack that holds a file of the user's is refused, naming it") {
  const Scratch scratch;
  write_pack_folder(scratch / "pack", pack("one"));
  put(scratch / "pack/notes.txt", "mine");
  CHECK(message(scratch / "pack") ==
        (scratch / "pack").string() + ": the review pack cannot be written here: \"notes.txt\" in it is not part of "
                                      "a review pack and would be lost.\nMove that file elsewhere, or name another "
                                      "folder.");
  CHECK(bytes_of(scratch / "pack/review.html") == "one");
}

TEST_CASE("an empty folder is taken, a file is refused") {
  const Scratch scratch;
  fs::create_directories(scratch / "empty");
  CHECK(message(scratch / "empty") == "written");
  put(scratch / "file", "x");
  CHECK(message(scratch / "file").find("there is a file of that name.") != std::string::npos);
}

TEST_CASE("when a file cannot be written the old pack stays and no half-written folder is left") {
  const Scratch scratch;
  write_pack_folder(scratch / "pack", pack("one"));
  std::vector<PackFile> broken = pack("two");
  // A file where a folder has to be: the fourth write fails after three have succeeded.
  broken.push_back({"review.html/inside.csv", "x"});
  CHECK_THROWS_AS(write_pack_folder(scratch / "pack", broken), InputError);
  CHECK(bytes_of(scratch / "pack/review.html") == "one");
  CHECK(bytes_of(scratch / "pack/curves/a.csv") == "one");
  CHECK(scratch.entries() == 1);
}

TEST_CASE("a link to a pack is followed, not replaced") {
  const Scratch scratch;
  write_pack_folder(scratch / "real", pack("one"));
  fs::create_directory_symlink(scratch / "real", scratch / "link");
  write_pack_folder(scratch / "link", pack("two"));
  CHECK(fs::is_symlink(scratch / "link"));
  CHECK(bytes_of(scratch / "real/review.html") == "two");
}
