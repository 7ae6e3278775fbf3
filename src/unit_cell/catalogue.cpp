#include "crushwright/catalogue.hpp"
#include "crushwright/errors.hpp"
#include "material/base_material_reader.hpp"
#include "quantities/nearest_spelling.hpp"
#include "unit_cell/unit_cell_reader.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <fstream>
#include <iterator>

namespace crushwright {

namespace {

using FileMap = std::map<std::string, std::filesystem::path>;

void add_files(const std::filesystem::path& folder, FileMap& files) {
  for (const std::filesystem::directory_entry& entry : std::filesystem::directory_iterator(folder)) {
    if (entry.is_regular_file() && entry.path().extension() == ".yaml") {
      files[entry.path().stem().string()] = entry.path();
    }
  }
}

std::vector<std::string> ids_of(const FileMap& files) {
  std::vector<std::string> ids;
  for (const auto& [id, file] : files) {
    ids.push_back(id);
  }
  return ids;
}

const std::filesystem::path& file_of(const FileMap& files, const std::string& id, const std::string& kind,
                                     const std::string& folder) {
  const auto found = files.find(id);
  if (found != files.end()) {
    return found->second;
  }
  const std::vector<std::string> known = ids_of(files);
  const std::optional<std::string> nearest = nearest_spelling(id, known);
  throw InputError(fmt::format("{0}/ of the catalogue has no {1} '{2}'.{3} Known: {4}. Use one of these, or add "
                               "{0}/{2}.yaml to a catalogue folder (docs/catalogue_format.md).",
                               folder, kind, id, nearest ? fmt::format(" Did you mean '{}'?", *nearest) : "",
                               comma_list(known)));
}

std::string bytes_of(const std::filesystem::path& file) {
  std::ifstream stream(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(stream), std::istreambuf_iterator<char>()};
}

void require_id(const Mapping& entry, const std::string& stated, const std::string& id) {
  if (stated != id) {
    entry.fail("id", fmt::format("the file is called {}.yaml, but its id is '{}'", id, stated),
               "Make the id and the file's name the same.");
  }
}

template <class Law>
void leave_out_of(std::vector<Law>& laws, Evidence evidence) {
  laws.erase(
      std::remove_if(laws.begin(), laws.end(), [&](const Law& law) { return law.origin.evidence == evidence; }),
      laws.end());
}

void leave_out(Evidence evidence, UnitCell& cell) {
  leave_out_of(cell.elastic_modulus, evidence);
  leave_out_of(cell.plateau_stress, evidence);
  leave_out_of(cell.first_peak_ratio, evidence);
  leave_out_of(cell.densification, evidence);
}

} // namespace

Catalogue::Catalogue(const std::vector<std::filesystem::path>& folders) : reading_(std::make_unique<std::mutex>()) {
  for (const std::filesystem::path& folder : folders) {
    const std::filesystem::path cells = folder / "unit_cells";
    const std::filesystem::path materials = folder / "base_materials";
    const bool has_cells = std::filesystem::is_directory(cells);
    const bool has_materials = std::filesystem::is_directory(materials);
    if (!has_cells && !has_materials) {
      throw InputError(fmt::format("{}: a catalogue folder holds unit_cells/ or base_materials/, and this one has "
                                   "neither. Name the folder above them.",
                                   folder.string()));
    }
    if (has_cells) {
      add_files(cells, cell_files_);
    }
    if (has_materials) {
      add_files(materials, material_files_);
    }
  }
}

Catalogue Catalogue::without(Evidence evidence) const {
  Catalogue other;
  other.reading_ = std::make_unique<std::mutex>();
  other.cell_files_ = cell_files_;
  other.material_files_ = material_files_;
  other.left_out_ = evidence;
  return other;
}

std::vector<std::string> Catalogue::cell_ids() const {
  return ids_of(cell_files_);
}
std::vector<std::string> Catalogue::material_ids() const {
  return ids_of(material_files_);
}

const UnitCell& Catalogue::cell(const std::string& id) const {
  const std::lock_guard<std::mutex> guard(*reading_);
  const auto kept = cells_.find(id);
  if (kept != cells_.end()) {
    return kept->second;
  }
  const Mapping entry = Mapping::read_file(file_of(cell_files_, id, "unit cell", "unit_cells"));
  UnitCell cell = read_unit_cell(entry);
  require_id(entry, cell.id, id);
  if (left_out_) {
    leave_out(*left_out_, cell);
  }
  bytes_["unit_cells/" + id + ".yaml"] = entry.bytes();
  if (!cell.mesh_file.empty()) {
    bytes_["unit_cells/" + cell.mesh_file] = bytes_of(cell_files_.at(id).parent_path() / cell.mesh_file);
  }
  return cells_.emplace(id, std::move(cell)).first->second;
}

const BaseMaterial& Catalogue::material(const std::string& id) const {
  const std::lock_guard<std::mutex> guard(*reading_);
  const auto kept = materials_.find(id);
  if (kept != materials_.end()) {
    return kept->second;
  }
  const Mapping entry = Mapping::read_file(file_of(material_files_, id, "base material", "base_materials"));
  BaseMaterial material = read_base_material(entry);
  require_id(entry, material.id, id);
  bytes_["base_materials/" + id + ".yaml"] = entry.bytes();
  return materials_.emplace(id, std::move(material)).first->second;
}

std::vector<std::pair<std::string, std::string>> Catalogue::files_used() const {
  const std::lock_guard<std::mutex> guard(*reading_);
  return {bytes_.begin(), bytes_.end()};
}

} // namespace crushwright
