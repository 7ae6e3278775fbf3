#include "exchange/zip_archive.hpp"

#include <fmt/format.h>
#include <zip.h>

#include <memory>
#include <stdexcept>

namespace crushwright {
namespace {

constexpr zip_uint16_t first_day = (1 << 5) | 1; // 1980-01-01, the first date that a zip entry can carry
constexpr zip_uint32_t deflate_level = 6;

[[noreturn]] void fail(const char* what, const char* why) {
  throw std::runtime_error(fmt::format("a zip archive could not be {}: {}", what, why));
}

struct SourceKeeper {
  void operator()(zip_source_t* source) const { zip_source_free(source); }
};
using Source = std::unique_ptr<zip_source_t, SourceKeeper>;

struct ArchiveKeeper {
  void operator()(zip_t* archive) const { zip_discard(archive); }
};
using Archive = std::unique_ptr<zip_t, ArchiveKeeper>;

void add(zip_t* archive, const ZipPart& part) {
  Source source(zip_source_buffer(archive, part.bytes.data(), part.bytes.size(), 0));
  if (!source)
    fail("filled", zip_strerror(archive));
  const zip_int64_t place = zip_file_add(archive, part.name.c_str(), source.get(), ZIP_FL_ENC_UTF_8);
  if (place < 0)
    fail("filled", zip_strerror(archive));
  static_cast<void>(source.release()); // the archive owns it from here
  const auto index = static_cast<zip_uint64_t>(place);
  if (zip_set_file_compression(archive, index, ZIP_CM_DEFLATE, deflate_level) != 0 ||
      zip_file_set_dostime(archive, index, 0, first_day, 0) != 0)
    fail("filled", zip_strerror(archive));
}

std::string bytes_of(zip_source_t* target) {
  zip_stat_t status;
  if (zip_source_stat(target, &status) != 0 || zip_source_open(target) != 0)
    fail("read back", zip_error_strerror(zip_source_error(target)));
  std::string bytes(status.size, '\0');
  const zip_int64_t read = zip_source_read(target, bytes.data(), bytes.size());
  zip_source_close(target);
  if (read != static_cast<zip_int64_t>(bytes.size()))
    fail("read back", "it breaks off");
  return bytes;
}

} // namespace

std::string zip_archive(const std::vector<ZipPart>& parts) {
  zip_error_t fault;
  zip_error_init(&fault);
  Source target(zip_source_buffer_create(nullptr, 0, 0, &fault));
  if (!target)
    fail("begun", zip_error_strerror(&fault));
  zip_source_keep(target.get()); // closing the archive gives one hold back
  Archive archive(zip_open_from_source(target.get(), ZIP_CREATE | ZIP_TRUNCATE, &fault));
  if (!archive) {
    zip_source_free(target.get());
    fail("begun", zip_error_strerror(&fault));
  }
  for (const ZipPart& part : parts)
    add(archive.get(), part);
  if (zip_close(archive.get()) != 0)
    fail("closed", zip_strerror(archive.get()));
  static_cast<void>(archive.release());
  return bytes_of(target.get());
}

} // namespace crushwright
