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

namespace {

std::string hash_of(std::string framed, std::vector<std::pair<std::string, std::string>> files) {
  std::sort(files.begin(), files.end());
  for (const auto& [name, bytes] : files) {
    framed += fmt::format("\nfile {} {} {}\n", name.size(), name, bytes.size()) + bytes;
  }
  return sha256(framed);
}

/// Files that the case itself names.
std::vector<std::pair<std::string, std::string>> geometry_files(const CrashCase& crash_case) {
  std::vector<std::pair<std::string, std::string>> files;
  const auto add = [&](const std::shared_ptr<const GeometryFile>& file) {
    if (file)
      files.emplace_back("case/" + file->name, *file->bytes);
  };
  for (const StructureInput& structure : crash_case.structures) {
    if (!structure.mirror_of.empty())
      continue;
    add(structure.envelope.file);
    if (structure.packaging)
      for (const KeepOut& keep_out : structure.packaging->input().keep_outs)
        add(keep_out.file);
  }
  return files;
}

} // namespace

std::string input_hash(const CrashCase& crash_case,
                       std::vector<std::pair<std::string, std::string>> catalogue_files) {
  for (auto& file : geometry_files(crash_case))
    catalogue_files.push_back(std::move(file));
  return hash_of(fmt::format("case {}\n", crash_case.bytes.size()) + crash_case.bytes, std::move(catalogue_files));
}

std::string input_hash(const std::string& question,
                       std::vector<std::pair<std::string, std::string>> catalogue_files) {
  return hash_of(fmt::format("question {}\n", question.size()) + question, std::move(catalogue_files));
}

} // namespace crushwright
