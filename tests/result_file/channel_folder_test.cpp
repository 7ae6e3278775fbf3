#include "crushwright/errors.hpp"
#include "result_file/channel_code.hpp"
#include "result_file/channel_reader.hpp"
#include "result_file/curve_files.hpp"
#include "review_pack/sample_estimate.hpp"
#include "unit_cell/catalogue_folder.hpp"

#include <catch2/catch.hpp>

#include <bit>
#include <fstream>
#include <iterator>
#include <limits>

#include <fmt/format.h>

using namespace crushwright;
namespace fs = std::filesystem;

namespace {

ChannelFolder small() {
  return {"wall",
          "wall",
          {"sled", "wall"},
          1e-3,
          {{1, "speed sled: left", channel_code(ChannelDimension::speed), "m/s", {8, 0.1, -0.0}},
           {0, "total force", channel_code(ChannelDimension::force), "N", {0, 1.0 / 3, 6.02214076e23}}}};
}

fs::path written(const TemporaryFolder& place, const ChannelFolder& folder) {
  write_histories_folder(place.path() / "histories", channel_files(folder));
  return place.path() / "histories" / folder.name;
}

std::string bytes_of(const fs::path& file) {
  std::ifstream stream(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(stream), {}};
}

/// Message of the reader after one piece of one file was exchanged, without the folder in front.
std::string message_with(const std::string& file, const std::string& piece, const std::string& other) {
  const TemporaryFolder place("channel_fault");
  const fs::path folder = written(place, small());
  std::string text = bytes_of(folder / file);
  const std::size_t at = text.find(piece);
  REQUIRE(at != std::string::npos);
  std::ofstream(folder / file, std::ios::binary) << text.replace(at, piece.size(), other);
  try {
    read_channel_folder(folder);
  } catch (const InputError& error) {
    const std::string message = error.what();
    REQUIRE(message.rfind(folder.string() + "/", 0) == 0);
    return message.substr(folder.string().size() + 1);
  }
  return "read";
}

} // namespace

// Length and order of the parts against a code of a measured channel that public files of this format carry: mobile
// barrier, left, middle, upper, acceleration, X.
TEST_CASE("a code has dimension, direction and filter class where a published code has them") {
  const std::string published = "M0MBARLEMIUPACXP";
  const std::string ours = channel_code(ChannelDimension::acceleration);
  CHECK(ours.size() == published.size());
  CHECK(ours.substr(12, 3) == published.substr(12, 3));
  CHECK_FALSE(is_sure(ours));
  CHECK(is_sure(published));
}

TEST_CASE("every impact's histories read back are the same bit for bit") {
  const TemporaryFolder place("channels");
  const std::vector<ChannelFolder> folders = channel_folders(hand_made::estimate());
  REQUIRE(folders.size() == 3);
  std::vector<PackFile> files;
  for (const ChannelFolder& folder : folders) {
    for (PackFile& file : channel_files(folder)) {
      files.push_back(std::move(file));
    }
  }
  write_histories_folder(place.path() / "all", files);
  for (const ChannelFolder& folder : folders) {
    const ChannelFolder back = read_channel_folder(place.path() / "all" / folder.name);
    CHECK(back == folder);
  }
}

TEST_CASE("a folder's channels are those of the sampled motion") {
  const Estimate estimate = hand_made::estimate();
  for (const ImpactOutcome& impact : estimate.deciding.impacts) {
    const ImpactMotion& motion = impact.motion;
    const ImpactHistory history = sample(motion, history_step(motion));
    const ChannelFolder folder = channel_folder(impact);
    const std::size_t free = (motion.striker.held ? 0u : 1u) + (motion.struck.held ? 0u : 1u);
    REQUIRE(folder.channels.size() == 2 * (free + motion.columns.size() + motion.elements.size()) + 1);
    CHECK(folder.channels.back().samples == history.force);
    CHECK(folder.channels[2 * free].samples == history.column_crush[0]);
    CHECK(folder.channels[2 * free].unit == "m");
    CHECK(folder.channels[2 * free + 1].samples == history.column_force[0]);
    CHECK(folder.interval == history.step);
    for (std::size_t i = 0; i < history.time.size(); ++i) {
      REQUIRE(static_cast<double>(i) * folder.interval == history.time[i]);
    }
  }
}

TEST_CASE("an element in series has its crush and its force") {
  ImpactOutcome impact = hand_made::estimate().deciding.impacts[0];
  ElementMotion rail;
  rail.id = "rail";
  rail.pieces = impact.motion.columns[0].pieces;
  impact.motion.elements = {rail};
  const ChannelFolder folder = channel_folder(impact);
  const Channel& force = folder.channels[folder.channels.size() - 2];
  CHECK(folder.channels[folder.channels.size() - 3].name == "crush rail");
  CHECK(force.name == "force rail");
  CHECK(force.samples == sample(impact.motion, folder.interval).element_force[0]);
}

TEST_CASE("a negative zero and the smallest and largest numbers survive") {
  const TemporaryFolder place("channel_extremes");
  ChannelFolder folder = small();
  folder.channels[0].samples = {-0.0, std::numeric_limits<double>::min(), std::numeric_limits<double>::max()};
  const std::vector<double> back = read_channel_folder(written(place, folder)).channels[0].samples;
  for (std::size_t i = 0; i < 3; ++i) {
    CHECK(std::bit_cast<std::uint64_t>(back[i]) == std::bit_cast<std::uint64_t>(folder.channels[0].samples[i]));
  }
}

TEST_CASE("headers have their colon in column 29 and no date") {
  for (const PackFile& file : channel_files(small())) {
    const std::string first_line = file.bytes.substr(0, file.bytes.find('\n'));
    CHECK(first_line.find(':') == 28);
  }
  CHECK(channel_files(small())[0].bytes.find("Timestamp                   :NOVALUE\n") != std::string::npos);
}

TEST_CASE("a broken folder is refused with file, line and what is wrong") {
  CHECK(message_with("Channel/wall.chn", "Name of channel 002 ", "Name of channel 003 ") ==
        "Channel/wall.chn:4: the header ends here without a line \"Name of channel 002\"; add it");
  CHECK(message_with("Channel/wall.002", "\n0\n", "\n") ==
        "Channel/wall.002:17: the header promises 3 samples, the file has 2");
  CHECK(message_with("Channel/wall.001", "\n0.1\n", "\nfast\n") ==
        "Channel/wall.001:17: a sample must be a number, not \"fast\"");
  CHECK(message_with("Channel/wall.001", "\n0.1\n", "\nnan\n") ==
        "Channel/wall.001:17: a sample must be a number, not \"nan\"");
  CHECK(message_with("Channel/wall.001", "Unit ", "Units") ==
        "Channel/wall.001:15: the header ends here without a line \"Unit\"; add it");
  CHECK(message_with("Channel/wall.001", "speed sled: left", "speed") ==
        "Channel/wall.chn:3: the index says \"????????????VEX0 / speed sled: left\", the file wall.001 says "
        "\"????????????VEX0 / speed\"");
  CHECK(message_with("Channel/wall.001", "????VEX0", "VEX0") ==
        "Channel/wall.001:5: a channel code has 16 characters, \"????????VEX0\" has 12");
  CHECK(message_with("Channel/wall.001", ":0.001", ":-0.001") ==
        "Channel/wall.001:14: the sampling interval must be above 0 s");
  CHECK(message_with("Channel/wall.002", ":0.001", ":0.002") ==
        "Channel/wall.002:14: all channels of a folder must have one sampling interval; the first has 0.001 s");
  CHECK(message_with("Channel/wall.chn", "channels          :2", "channels          :3") ==
        "Channel/wall.chn:4: the header ends here without a line \"Name of channel 003\"; add it");
  CHECK(message_with("wall.mme", "Title", "Titel") ==
        "wall.mme:11: the header ends here without a line \"Title\"; add it");
}

TEST_CASE("a missing channel file is named") {
  const TemporaryFolder place("channel_missing");
  const fs::path folder = written(place, small());
  fs::remove(folder / "Channel/wall.002");
  CHECK_THROWS_WITH(read_channel_folder(folder), Catch::Contains("Channel/wall.002: the file is missing"));
}

TEST_CASE("a sample that is not finite is not written") {
  ChannelFolder folder = small();
  folder.channels[1].samples[1] = std::numeric_limits<double>::quiet_NaN();
  CHECK_THROWS_WITH(channel_files(folder), Catch::Contains("\"total force\": a sample is nan"));
}

TEST_CASE("earlier histories are replaced whole, an impact that is no more goes with them") {
  const TemporaryFolder place("channel_again");
  ChannelFolder other = small();
  other.name = "pole";
  std::vector<PackFile> two = channel_files(small());
  for (const PackFile& file : channel_files(other))
    two.push_back(file);
  write_histories_folder(place.path() / "histories", two);
  ChannelFolder again = small();
  again.channels[1].samples[1] = 7;
  CHECK(read_channel_folder(written(place, again)) == again);
  CHECK_FALSE(fs::exists(place.path() / "histories/pole"));
  CHECK(std::distance(fs::directory_iterator(place.path()), fs::directory_iterator()) == 1);
}

TEST_CASE("a folder with anything but histories of this program is refused, naming it, and left as it was") {
  const TemporaryFolder place("channel_foreign");
  const fs::path impact = written(place, small()), folder = impact.parent_path();
  const auto refused_for = [&](const fs::path& foreign) {
    const auto names_it = Catch::Contains(fmt::format("\"{}\" in it is not part of", foreign.string()));
    CHECK_THROWS_WITH(require_histories_folder(folder), names_it);
    CHECK_THROWS_WITH(write_histories_folder(folder, channel_files(small())), names_it);
    CHECK(fs::exists(folder / foreign));
    fs::remove_all(folder / foreign);
  };
  for (const char* name : {"mine.txt", "wall/notes.txt", "wall/Channel/wall.txt", "wall/Channel/wall.0011"}) {
    std::ofstream(folder / name) << "mine";
    refused_for(name);
  }
  // Measured channels have the same layout.
  fs::create_directories(folder / "sled");
  std::ofstream(folder / "sled/sled.mme")
      << "Data format edition number  :1.6\nComments                    :sled 7\n";
  refused_for("sled");
  CHECK_NOTHROW(require_histories_folder(folder));
  CHECK(read_channel_folder(impact) == small());
}

TEST_CASE("a place where no folder of histories can be made is refused before anything is written") {
  const TemporaryFolder place("channel_place");
  std::ofstream(place.path() / "file") << "x";
  CHECK_THROWS_WITH(require_histories_folder(place.path() / "file"), Catch::Contains("there is a file of that name"));
  CHECK_THROWS_WITH(require_histories_folder(place.path() / "file/below/it"),
                    Catch::Contains("no folder can be made"));
  CHECK_THROWS_WITH(require_histories_folder(""), Catch::Contains("its name is empty"));
  require_histories_folder(place.path() / "deep/er");
  CHECK_FALSE(fs::exists(place.path() / "deep"));
}

TEST_CASE("impacts whose names a file cannot hold stay apart") {
  Estimate estimate = hand_made::estimate();
  estimate.deciding.impacts[0].id = "../up";
  estimate.deciding.impacts[1].id = "..?up";
  const std::vector<ChannelFolder> folders = channel_folders(estimate);
  CHECK(folders[0].name == "_._up");
  CHECK(folders[1].name == "_._up-2");
}
