#include "result_file/provenance.hpp"

#include <algorithm>
#include <array>
#include <cstdint>

#include <fmt/format.h>
#include <nettle/sha2.h>

namespace crushwright {

std::string sha256(std::string_view bytes) {
  sha256_ctx context;
  sha256_init(&context);
  sha256_update(&context, bytes.size(), reinterpret_cast<const std::uint8_t*>(bytes.data()));
  std::array<std::uint8_t, SHA256_DIGEST_SIZE> digest{};
  sha256_digest(&context, digest.size(), digest.data());
  std::string text;
  for (const std::uint8_t byte : digest) {
    text += fmt::format("{:02x}", byte);
  }
  return text;
}

std::string input_hash(const CrashCase& crash_case,
                       std::vector<std::pair<std::string, std::string>> catalogue_files) {
  std::sort(catalogue_files.begin(), catalogue_files.end());
  std::string framed = fmt::format("case {}\n", crash_case.bytes.size()) + crash_case.bytes;
  for (const auto& [name, bytes] : catalogue_files) {
    framed += fmt::format("\nfile {} {} {}\n", name.size(), name, bytes.size()) + bytes;
  }
  return sha256(framed);
}

} // namespace crushwright
