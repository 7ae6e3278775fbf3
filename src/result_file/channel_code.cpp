#include "result_file/channel_code.hpp"

namespace crushwright {

namespace {

std::string_view letters_of(ChannelDimension dimension) {
  switch (dimension) {
  case ChannelDimension::acceleration:
    return "AC";
  case ChannelDimension::speed:
    return "VE";
  case ChannelDimension::crush:
    return "DS";
  case ChannelDimension::force:
    return "FO";
  }
  return "??";
}

} // namespace

std::string channel_code(ChannelDimension dimension) {
  // Test object, position, main location, three fine locations: what a body or a structure is called there is up to
  // whoever runs the test.
  std::string code(12, '?');
  code += letters_of(dimension);
  code += 'X';
  code += '0';
  return code;
}

std::string_view channel_unit(ChannelDimension dimension) {
  switch (dimension) {
  case ChannelDimension::acceleration:
    return "m/(s*s)";
  case ChannelDimension::speed:
    return "m/s";
  case ChannelDimension::crush:
    return "m";
  case ChannelDimension::force:
    return "N";
  }
  return "NOVALUE";
}

bool is_sure(std::string_view code) {
  return code.find('?') == std::string_view::npos;
}

} // namespace crushwright
