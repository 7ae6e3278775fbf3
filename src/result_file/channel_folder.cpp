#include "result_file/channel_folder.hpp"

#include "crushwright/errors.hpp"
#include "result_file/channel_code.hpp"
#include "result_file/curve_files.hpp"

#include <cmath>
#include <set>

#include <fmt/format.h>

namespace crushwright {

namespace {

constexpr std::string_view unknown = "NOVALUE";

/// A value fills one line.
std::string on_one_line(std::string text) {
  for (char& c : text) {
    if (static_cast<unsigned char>(c) < ' ') {
      c = ' ';
    }
  }
  text.erase(text.find_last_not_of(' ') + 1); // the reader takes spaces at the end for padding
  return text;
}

template <typename Value>
std::string header_line(std::string_view key, const Value& value) {
  return fmt::format("{:<28}:{}\n", key, value);
}

void add(ChannelFolder& folder, int object, ChannelDimension dimension, const std::string& name,
         const std::vector<double>& samples) {
  folder.channels.push_back(
      {object, on_one_line(name), channel_code(dimension), std::string(channel_unit(dimension)), samples});
}

void add_body(ChannelFolder& folder, int object, const Body& body, const std::vector<double>& acceleration,
              const std::vector<double>& speed) {
  if (body.held) {
    return;
  }
  add(folder, object, ChannelDimension::acceleration, "acceleration magnitude " + body.id, acceleration);
  add(folder, object, ChannelDimension::speed, "speed " + body.id, speed);
}

std::string main_header(const ChannelFolder& folder) {
  std::string text = header_line("Data format edition number", "1.6");
  for (const char* key : {"Laboratory name", "Customer name"}) {
    text += header_line(key, unknown);
  }
  text += header_line("Title", folder.title);
  text += header_line("Timestamp", unknown);
  text += header_line("Type of the test", unknown);
  text += header_line("Date of the test", unknown);
  text += header_line("Comments", estimated_channels_comment);
  text += header_line("Number of test objects", folder.test_objects.size());
  for (std::size_t i = 0; i < folder.test_objects.size(); ++i) {
    text += header_line(fmt::format("Name of test object {}", i + 1), folder.test_objects[i]);
  }
  return text;
}

std::string index(const ChannelFolder& folder) {
  std::string text = header_line("Instrumentation standard", unknown);
  text += header_line("Number of channels", folder.channels.size());
  for (std::size_t i = 0; i < folder.channels.size(); ++i) {
    const Channel& channel = folder.channels[i];
    text +=
        header_line(fmt::format("Name of channel {:03}", i + 1), fmt::format("{} / {}", channel.code, channel.name));
  }
  return text;
}

std::string channel_text(const ChannelFolder& folder, const Channel& channel) {
  std::string text = header_line(
      "Test object number", channel.test_object == 0 ? std::string(unknown) : std::to_string(channel.test_object));
  text += header_line("Name of the channel", channel.name);
  text += header_line("Laboratory channel code", unknown);
  text += header_line("Customer channel code", unknown);
  text += header_line("Channel code", channel.code);
  text += header_line("Comments", "estimated, not filtered");
  text += header_line("Direction", "X");
  text += header_line("Channel frequency class", unknown);
  text += header_line("Unit", channel.unit);
  text += header_line("Reference channel", "implicit");
  text += header_line("Reference channel name", unknown);
  text += header_line("Data source", "calculation");
  text += header_line("Time of first sample", 0);
  text += header_line("Sampling interval", folder.interval);
  text += header_line("Number of samples", channel.samples.size());
  for (const double sample : channel.samples) {
    if (!std::isfinite(sample)) {
      throw OutOfDomain(fmt::format("impact \"{}\", channel \"{}\": a sample is {}, no finite number", folder.title,
                                    channel.name, sample));
    }
    text += fmt::format("{}\n", sample);
  }
  return text;
}

} // namespace

ChannelFolder channel_folder(const ImpactOutcome& impact) {
  const ImpactMotion& motion = impact.motion;
  const ImpactHistory history = sample(motion, history_step(motion));
  ChannelFolder folder;
  folder.name = file_name_part(impact.id);
  folder.title = on_one_line(impact.id);
  folder.test_objects = {on_one_line(motion.striker.id), on_one_line(motion.struck.id)};
  folder.interval = history.step;
  add_body(folder, 1, motion.striker, history.striker_acceleration, history.striker_speed);
  add_body(folder, 2, motion.struck, history.struck_acceleration, history.struck_speed);
  for (std::size_t i = 0; i < motion.columns.size(); ++i) {
    add(folder, 0, ChannelDimension::crush, "crush " + motion.columns[i].structure, history.column_crush.at(i));
    add(folder, 0, ChannelDimension::force, "force " + motion.columns[i].structure, history.column_force.at(i));
  }
  for (std::size_t i = 0; i < motion.elements.size(); ++i) {
    add(folder, 0, ChannelDimension::crush, "crush " + motion.elements[i].id, history.element_crush.at(i));
    add(folder, 0, ChannelDimension::force, "force " + motion.elements[i].id, history.element_force.at(i));
  }
  add(folder, 0, ChannelDimension::force, "total force", history.force);
  return folder;
}

std::vector<ChannelFolder> channel_folders(const Estimate& estimate) {
  std::vector<ChannelFolder> folders;
  std::set<std::string> names;
  for (const ImpactOutcome& impact : estimate.deciding.impacts) {
    folders.push_back(channel_folder(impact));
    const std::string stem = folders.back().name;
    for (int count = 2; !names.insert(folders.back().name).second; ++count) {
      folders.back().name = fmt::format("{}-{}", stem, count);
    }
  }
  return folders;
}

std::vector<PackFile> channel_files(const ChannelFolder& folder) {
  if (folder.channels.size() > 999) {
    throw OutOfDomain(fmt::format("impact \"{}\" has {} channels; their files are numbered with three digits",
                                  folder.title, folder.channels.size()));
  }
  const std::string inside = fmt::format("{0}/Channel/{0}", folder.name);
  std::vector<PackFile> files{{fmt::format("{0}/{0}.mme", folder.name), main_header(folder)},
                              {inside + ".chn", index(folder)}};
  for (std::size_t i = 0; i < folder.channels.size(); ++i) {
    files.push_back({fmt::format("{}.{:03}", inside, i + 1), channel_text(folder, folder.channels[i])});
  }
  return files;
}

std::vector<std::string> unsure_channels(const std::vector<ChannelFolder>& folders) {
  std::vector<std::string> names;
  for (const ChannelFolder& folder : folders) {
    for (const Channel& channel : folder.channels) {
      if (!is_sure(channel.code)) {
        names.push_back(fmt::format("{}: {}", folder.title, channel.name));
      }
    }
  }
  return names;
}

} // namespace crushwright
