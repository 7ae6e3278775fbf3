#include "result_file/file_set.hpp"

#include "crushwright/errors.hpp"
#include "result_file/channel_folder.hpp"

#include <cerrno>
#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <system_error>

#include <fcntl.h>
#include <fmt/format.h>
#include <unistd.h>

namespace crushwright {

namespace fs = std::filesystem;

namespace {

/// What a folder that is written whole holds, and how messages call it.
struct FolderKind {
  const char* contents;                                                ///< "the review pack"
  const char* one_of_its;                                              ///< "a review pack"
  void (*require_own)(const fs::path& folder, const FolderKind& kind); ///< refuses what is not of this program
};

[[noreturn]] void refuse(const fs::path& folder, const FolderKind& kind, const std::string& why,
                         const std::string& what_to_do) {
  throw InputError(
      fmt::format("{}: {} cannot be written here: {}\n{}", folder.string(), kind.contents, why, what_to_do));
}

/// A folder beside the target that disappears again unless it has been renamed away.
class SiblingFolder {
public:
  explicit SiblingFolder(const fs::path& target) {
    std::string name = (target.parent_path() / fmt::format(".{}.XXXXXX", target.filename().string())).string();
    if (::mkdtemp(name.data()) == nullptr) {
      throw fs::filesystem_error("not made", target, std::error_code(errno, std::generic_category()));
    }
    path_ = name;
    fs::permissions(path_, fs::perms::owner_all | fs::perms::group_read | fs::perms::group_exec |
                               fs::perms::others_read | fs::perms::others_exec);
  }
  SiblingFolder(const SiblingFolder&) = delete;
  SiblingFolder& operator=(const SiblingFolder&) = delete;
  ~SiblingFolder() {
    std::error_code ignored;
    fs::remove_all(path_, ignored);
  }
  const fs::path& path() const { return path_; }

private:
  fs::path path_;
};

bool begins_like_our_result(const fs::path& file) {
  std::ifstream stream(file, std::ios::binary);
  std::string head(200, '\0');
  stream.read(head.data(), static_cast<std::streamsize>(head.size()));
  return head.find("\"schema\": ") != std::string::npos &&
         head.find("\"program\": \"crushwright\"") != std::string::npos;
}

bool belongs_to_a_pack(const fs::path& relative) {
  for (const char* name : {"result.json", "review.html", "cell.html", "coupons.html", "correlation.html", "fill.html",
                           "curves", "geometry"}) {
    if (relative == name) {
      return true;
    }
  }
  if (relative.parent_path() == "geometry") {
    const fs::path kind = relative.extension();
    return kind == ".3mf" || kind == ".stl" || kind == ".vtu";
  }
  return relative.parent_path() == "curves" && relative.extension() == ".csv";
}

/// Replacing a folder whole also removes what the user keeps in it, so one foreign file is enough to refuse.
[[noreturn]] void refuse_foreign(const fs::path& folder, const FolderKind& kind, const fs::path& foreign) {
  refuse(folder, kind,
         fmt::format("\"{}\" in it is not part of {} and would be lost.", foreign.string(), kind.one_of_its),
         "Move that file elsewhere, or name another folder.");
}

void require_own_pack(const fs::path& folder, const FolderKind& kind) {
  if (!begins_like_our_result(folder / "result.json")) {
    refuse(folder, kind,
           "the folder is not empty and holds no result.json of this program, so it is not a review pack.",
           "Name another folder, or empty this one.");
  }
  for (const fs::directory_entry& entry : fs::recursive_directory_iterator(folder)) {
    const fs::path relative = entry.path().lexically_relative(folder);
    if (!belongs_to_a_pack(relative)) {
      refuse_foreign(folder, kind, relative);
    }
  }
}

/// A header that says so itself: histories of a measurement have the same layout.
bool is_our_channel_header(const fs::path& file) {
  std::ifstream stream(file, std::ios::binary);
  std::string head(1 << 16, '\0');
  stream.read(head.data(), static_cast<std::streamsize>(head.size()));
  return head.find(fmt::format(":{}\n", estimated_channels_comment)) != std::string::npos;
}

/// As channel_files() lays them out: NAME/NAME.mme, NAME/Channel/NAME.chn, NAME/Channel/NAME.001 and so on.
bool belongs_to_histories(const fs::path& relative) {
  const std::string name = relative.begin()->string(), extension = relative.extension().string();
  const fs::path inside = fs::path(name) / "Channel";
  const bool numbered = extension.size() == 4 && extension.find_first_not_of("0123456789", 1) == std::string::npos;
  return relative == name || relative == inside || relative == fs::path(name) / (name + ".mme") ||
         (relative == inside / (name + extension) && (extension == ".chn" || numbered));
}

void require_own_histories(const fs::path& folder, const FolderKind& kind) {
  for (const fs::directory_entry& entry : fs::directory_iterator(folder)) {
    const fs::path name = entry.path().filename();
    if (!entry.is_directory() || !is_our_channel_header(entry.path() / (name.string() + ".mme"))) {
      refuse_foreign(folder, kind, name);
    }
  }
  for (const fs::directory_entry& entry : fs::recursive_directory_iterator(folder)) {
    const fs::path relative = entry.path().lexically_relative(folder);
    if (!belongs_to_histories(relative)) {
      refuse_foreign(folder, kind, relative);
    }
  }
}

constexpr FolderKind review_pack{"the review pack", "a review pack", require_own_pack};
constexpr FolderKind histories{"the histories", "histories that this program wrote", require_own_histories};

void require_replaceable(const fs::path& folder, const FolderKind& kind) {
  if (!fs::is_directory(folder)) {
    refuse(folder, kind, "there is a file of that name.", "Name another folder, or remove the file.");
  }
  if (!fs::is_empty(folder)) {
    kind.require_own(folder, kind);
  }
}

/// The nearest folder above that is there has to take a new one.
void require_room_for(const fs::path& target, const FolderKind& kind) {
  fs::path above = target.parent_path();
  while (!fs::exists(above) && above.has_relative_path()) {
    above = above.parent_path();
  }
  if (!fs::is_directory(above) || ::access(above.c_str(), W_OK | X_OK) != 0) {
    refuse(target, kind, fmt::format("no folder can be made in \"{}\".", above.filename().string()),
           "Name a folder that you may write to.");
  }
}

void write_file(const fs::path& file, const std::string& bytes) {
  fs::create_directories(file.parent_path());
  std::ofstream stream(file, std::ios::binary | std::ios::trunc);
  stream.write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
  stream.close();
  if (!stream) {
    throw fs::filesystem_error("not written", file, std::make_error_code(std::errc::io_error));
  }
}

void rename_folder(const fs::path& from, const fs::path& to) {
  fs::rename(from, to);
}

/// Swaps two folders in one step where the file system can; otherwise by three renames, undone when one fails.
void swap_folders(const fs::path& fresh, const fs::path& target) {
  if (::renameat2(AT_FDCWD, fresh.c_str(), AT_FDCWD, target.c_str(), RENAME_EXCHANGE) == 0) {
    return;
  }
  if (errno != EINVAL && errno != ENOSYS && errno != EOPNOTSUPP) {
    throw fs::filesystem_error("not replaced", target, std::error_code(errno, std::generic_category()));
  }
  const fs::path aside = fresh.string() + ".old";
  rename_folder(target, aside);
  try {
    rename_folder(fresh, target);
  } catch (...) {
    rename_folder(aside, target);
    throw;
  }
  rename_folder(aside, fresh);
}

fs::path resolved(const fs::path& folder) {
  fs::path absolute = fs::weakly_canonical(fs::absolute(folder));
  return absolute.has_filename() ? absolute : absolute.parent_path();
}

void write_all(const fs::path& target, const FolderKind& kind, const std::vector<PackFile>& files) {
  if (fs::exists(target)) {
    require_replaceable(target, kind);
  }
  fs::create_directories(target.parent_path());
  const SiblingFolder fresh(target);
  for (const PackFile& file : files) {
    write_file(fresh.path() / file.name, file.bytes);
  }
  if (fs::exists(target)) {
    swap_folders(fresh.path(), target);
  } else {
    rename_folder(fresh.path(), target);
  }
}

void write_whole(const fs::path& folder, const FolderKind& kind, const std::vector<PackFile>& files) {
  if (folder.empty()) {
    throw InputError(fmt::format("no folder is named for {}: its name is empty", kind.contents));
  }
  try {
    write_all(resolved(folder), kind, files);
  } catch (const fs::filesystem_error& error) {
    refuse(folder, kind, fmt::format("{} ({}).", error.code().message(), error.path1().filename().string()),
           "Name a folder that you may write to, on a disk with room. What was there before is unchanged.");
  }
}

} // namespace

void write_pack_folder(const fs::path& folder, const std::vector<PackFile>& files) {
  write_whole(folder, review_pack, files);
}

void write_histories_folder(const fs::path& folder, const std::vector<PackFile>& files) {
  write_whole(folder, histories, files);
}

void require_histories_folder(const fs::path& folder) {
  if (folder.empty()) {
    throw InputError("no folder is named for the histories: its name is empty");
  }
  try {
    const fs::path target = resolved(folder);
    if (fs::exists(target)) {
      require_replaceable(target, histories);
    }
    require_room_for(target, histories);
  } catch (const fs::filesystem_error& error) {
    refuse(folder, histories, fmt::format("{} ({}).", error.code().message(), error.path1().filename().string()),
           "Name a folder that you may write to.");
  }
}

std::string file_name_part(const std::string& id) {
  std::string part;
  for (const char c : id) {
    const bool plain = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '-' ||
                       c == '_' || (c == '.' && !part.empty());
    part += plain ? c : '_';
  }
  return part.empty() ? "_" : part;
}

} // namespace crushwright
