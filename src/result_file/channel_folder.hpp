#pragma once
#include "crushwright/estimate.hpp"
#include "result_file/file_set.hpp"

#include <string>
#include <string_view>
#include <vector>

namespace crushwright {

/// In the header of every folder: by it a folder of this program is known from a measured one.
inline constexpr std::string_view estimated_channels_comment = "estimated by crushwright, not measured";

/// One history of an impact.
struct Channel {
  int test_object = 0; ///< 1 the striker, 2 the struck body; 0 when it belongs to neither
  std::string name;
  std::string code; ///< 16 characters
  std::string unit;
  std::vector<double> samples;
  bool operator==(const Channel&) const = default;
};

/// The histories of one impact.
struct ChannelFolder {
  std::string name;                      ///< of the folder and its files
  std::string title;                     ///< id of the impact
  std::vector<std::string> test_objects; ///< striker, struck body
  double interval = 0;                   ///< between samples [s]; the first is at contact, time 0
  std::vector<Channel> channels;         ///< all with the same number of samples
  bool operator==(const ChannelFolder&) const = default;
};

/// Acceleration and speed of the bodies that are free, crush and force of each structure and each element in series,
/// total force; sampled as the CSV histories are.
ChannelFolder channel_folder(const ImpactOutcome& impact);

/// The histories of every impact, each in a folder of its own name.
std::vector<ChannelFolder> channel_folders(const Estimate& estimate);

/// Files of an ISO/TS 13499 folder: NAME/NAME.mme, NAME/Channel/NAME.chn, NAME/Channel/NAME.001 and so on.
/// @throws OutOfDomain for a sample that is not finite or more than 999 channels.
std::vector<PackFile> channel_files(const ChannelFolder& folder);

/// "impact: channel" of every channel whose code has a part that is not known.
std::vector<std::string> unsure_channels(const std::vector<ChannelFolder>& folders);

} // namespace crushwright
