#include "result_file/file_set.hpp"

#include "crushwright/errors.hpp"

#include <cerrno>
#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <system_error>

#include <fcntl.h>
#include <fmt/format.h>

namespace crushwright {

namespace fs = std::filesystem;

namespace {

[[noreturn]] void refuse(const fs::path& folder, const std::string& why, const std::string& what_to_do) {
  throw InputError(
      fmt::format("{}: the review pack cannot be written here: {}\n{}", folder.string(), why, what_to_do));
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
  for (const char* name : {"result.json", "review.html", "cell.html", "fill.html", "curves", "geometry"}) {
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
void require_replaceable(const fs::path& folder) {
  if (!fs::is_directory(folder)) {
    refuse(folder, "there is a file of that name.", "Name another folder, or remove the file.");
  }
  if (fs::is_empty(folder)) {
    return;
  }
  if (!begins_like_our_result(folder / "result.json")) {
    refuse(folder, "the folder is not empty and holds no result.json of this program, so it is not a review pack.",
           "Name another folder, or empty this one.");
  }
  for (const fs::directory_entry& entry : fs::recursive_directory_iterator(folder)) {
    const fs::path relative = entry.path().lexically_relative(folder);
    if (!belongs_to_a_pack(relative)) {
      refuse(folder, fmt::format("\"{}\" in it is not part of a review pack and would be lost.", relative.string()),
             "Move that file elsewhere, or name another folder.");
    }
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

void write_all(const fs::path& target, const std::vector<PackFile>& files) {
  if (fs::exists(target)) {
    require_replaceable(target);
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

} // namespace

void write_pack_folder(const fs::path& folder, const std::vector<PackFile>& files) {
  if (folder.empty()) {
    throw InputError("the review pack needs a folder: its name is empty");
  }
  try {
    write_all(resolved(folder), files);
  } catch (const fs::filesystem_error& error) {
    refuse(folder, fmt::format("{} ({}).", error.code().message(), error.path1().filename().string()),
           "Name a folder that you may write to, on a disk with room. What was there before is unchanged.");
  }
}

void write_new_folder(const fs::path& folder, const std::vector<PackFile>& files) {
  const auto refuse_new = [&](const std::string& why, const std::string& what_to_do) {
    throw InputError(
        fmt::format("{}: the histories cannot be written here: {}\n{}", folder.string(), why, what_to_do));
  };
  if (folder.empty()) {
    throw InputError("the histories need a folder: its name is empty");
  }
  try {
    const fs::path target = resolved(folder);
    if (fs::exists(target) && (!fs::is_directory(target) || !fs::is_empty(target))) {
      refuse_new("there is a file or a folder with something in it.", "Name a new folder, or empty this one.");
    }
    fs::create_directories(target.parent_path());
    const SiblingFolder fresh(target);
    for (const PackFile& file : files) {
      write_file(fresh.path() / file.name, file.bytes);
    }
    rename_folder(fresh.path(), target); // takes the place of an empty folder, never of a full one
  } catch (const fs::filesystem_error& error) {
    refuse_new(fmt::format("{} ({}).", error.code().message(), error.path1().filename().string()),
               "Name a folder that you may write to, on a disk with room.");
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
