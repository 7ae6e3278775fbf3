#include "exchange/xml_text.hpp"

namespace crushwright {

std::string xml_escaped(const std::string& text) {
  std::string escaped;
  for (char letter : text) {
    switch (letter) {
    case '&':
      escaped += "&amp;";
      break;
    case '<':
      escaped += "&lt;";
      break;
    case '>':
      escaped += "&gt;";
      break;
    case '"':
      escaped += "&quot;";
      break;
    case '\'':
      escaped += "&apos;";
      break;
    default:
      if (static_cast<unsigned char>(letter) >= 0x20) // XML 1.0 knows no way to write the others
        escaped += letter;
    }
  }
  return escaped;
}

} // namespace crushwright
