#include "result_file/channel_reader.hpp"

#include "crushwright/errors.hpp"
#include "result_file/channel_code.hpp"

#include <charconv>
#include <cmath>
#include <fstream>

#include <fmt/format.h>

namespace crushwright {

namespace fs = std::filesystem;

namespace {

struct HeaderLine {
  std::string key;
  std::string value;
  std::size_t line;
};

[[noreturn]] void refuse(const fs::path& file, std::size_t line, const std::string& what) {
  throw InputError(fmt::format("{}:{}: {}", file.string(), line, what));
}

std::string without_spaces_behind(std::string text) {
  const std::size_t last = text.find_last_not_of(" \t\r");
  text.erase(last == std::string::npos ? 0 : last + 1);
  return text;
}

/// The lines of one file; those with a ':' at its start are the header, the rest are samples.
class ChannelFile {
public:
  explicit ChannelFile(fs::path path) : path_(std::move(path)) {
    std::ifstream stream(path_, std::ios::binary);
    if (!stream) {
      throw InputError(fmt::format("{}: the file is missing or cannot be read; restore it, or write the histories "
                                   "again",
                                   path_.string()));
    }
    for (std::string line; std::getline(stream, line);) {
      lines_.push_back(without_spaces_behind(line));
    }
    for (; header_size_ < lines_.size(); ++header_size_) {
      const std::string& line = lines_[header_size_];
      const std::size_t colon = line.find(':');
      if (colon == std::string::npos) {
        break;
      }
      header_.push_back({without_spaces_behind(line.substr(0, colon)), line.substr(colon + 1), header_size_ + 1});
    }
  }

  const HeaderLine& header(const std::string& key) const {
    for (const HeaderLine& line : header_) {
      if (line.key == key) {
        return line;
      }
    }
    refuse(path_, header_size_ == 0 ? 1 : header_size_,
           fmt::format("the header ends here without a line \"{}\"; add it", key));
  }

  template <typename Number>
  Number number(const HeaderLine& line) const {
    return number<Number>(line.value, line.line, fmt::format("\"{}\"", line.key));
  }

  template <typename Number>
  Number number(const std::string& text, std::size_t line, const std::string& what) const {
    Number value{};
    const char* end = text.data() + text.size();
    const auto [stop, error] = std::from_chars(text.data(), end, value);
    if (error != std::errc() || stop != end || text.empty() || !std::isfinite(static_cast<double>(value))) {
      refuse(path_, line, fmt::format("{} must be a number, not \"{}\"", what, text));
    }
    return value;
  }

  std::vector<double> samples(std::size_t count) const {
    const std::size_t present = lines_.size() - header_size_;
    if (present != count) {
      refuse(path_, lines_.size(), fmt::format("the header promises {} samples, the file has {}", count, present));
    }
    std::vector<double> values;
    for (std::size_t i = header_size_; i < lines_.size(); ++i) {
      values.push_back(number<double>(lines_[i], i + 1, "a sample"));
    }
    return values;
  }

  const fs::path& path() const { return path_; }

private:
  fs::path path_;
  std::vector<std::string> lines_;
  std::vector<HeaderLine> header_;
  std::size_t header_size_ = 0;
};

Channel read_channel(const ChannelFile& file, double& interval) {
  Channel channel;
  const HeaderLine& object = file.header("Test object number");
  channel.test_object = object.value == "NOVALUE" ? 0 : file.number<int>(object);
  channel.name = file.header("Name of the channel").value;
  const HeaderLine& code = file.header("Channel code");
  channel.code = code.value;
  if (channel.code.size() != channel_code_length) {
    refuse(file.path(), code.line,
           fmt::format("a channel code has {} characters, \"{}\" has {}", channel_code_length, channel.code,
                       channel.code.size()));
  }
  channel.unit = file.header("Unit").value;
  const HeaderLine& first = file.header("Time of first sample");
  if (file.number<double>(first) != 0) {
    refuse(file.path(), first.line, "the first sample must be at time 0, the contact");
  }
  const HeaderLine& step = file.header("Sampling interval");
  interval = file.number<double>(step);
  if (!(interval > 0)) {
    refuse(file.path(), step.line, "the sampling interval must be above 0 s");
  }
  channel.samples = file.samples(file.number<std::size_t>(file.header("Number of samples")));
  return channel;
}

void require_indexed(const ChannelFile& index, const HeaderLine& entry, const Channel& channel,
                     const fs::path& channel_file) {
  const std::string stated = fmt::format("{} / {}", channel.code, channel.name);
  if (entry.value != stated) {
    refuse(index.path(), entry.line,
           fmt::format("the index says \"{}\", the file {} says \"{}\"", entry.value,
                       channel_file.filename().string(), stated));
  }
}

} // namespace

ChannelFolder read_channel_folder(const fs::path& folder) {
  ChannelFolder result;
  result.name = fs::absolute(folder).lexically_normal().filename().string();
  const ChannelFile main(folder / (result.name + ".mme"));
  result.title = main.header("Title").value;
  const auto objects = main.number<unsigned>(main.header("Number of test objects"));
  for (unsigned i = 1; i <= objects; ++i) {
    result.test_objects.push_back(main.header(fmt::format("Name of test object {}", i)).value);
  }
  const ChannelFile index(folder / "Channel" / (result.name + ".chn"));
  const auto count = index.number<unsigned>(index.header("Number of channels"));
  for (unsigned i = 1; i <= count; ++i) {
    const HeaderLine& entry = index.header(fmt::format("Name of channel {:03}", i));
    const ChannelFile file(folder / "Channel" / fmt::format("{}.{:03}", result.name, i));
    double interval = 0;
    result.channels.push_back(read_channel(file, interval));
    require_indexed(index, entry, result.channels.back(), file.path());
    if (i > 1 && interval != result.interval) {
      refuse(file.path(), file.header("Sampling interval").line,
             fmt::format("all channels of a folder must have one sampling interval; the first has {} s",
                         result.interval));
    }
    result.interval = interval;
  }
  return result;
}

} // namespace crushwright
