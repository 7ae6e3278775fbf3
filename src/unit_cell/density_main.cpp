// Developer's program behind scripts/update_catalogue: the true density of catalogue entries from their own solids.
#include "crushwright/errors.hpp"
#include "unit_cell/density_block.hpp"
#include "unit_cell/unit_cell_reader.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <exception>
#include <filesystem>
#include <fstream>
#include <string>
#include <vector>

namespace {

namespace fs = std::filesystem;
using namespace crushwright;

constexpr const char* usage =
    "Usage: catalogue_density [--write] FILE...\n\n"
    "Computes the true relative density of each catalogue entry (unit_cells/*.yaml) from its "
    "own solid and\nprints a table. With --write, every entry's block true_density is "
    "rewritten, or none is.\n\n"
    "Example: catalogue_density --write lattices/unit_cells/*.yaml\n";

struct Entry {
  fs::path file;
  std::string block;
};

/// An entry that has no true density yet is read with its nominal one in that place.
UnitCell read_entry(const std::string& text, const std::string& shown_name) {
  if (has_true_density(text) || text.find("\nnominal_density:") == std::string::npos)
    return read_unit_cell(Mapping::read_text(text, shown_name));
  DensityFit stand_in;
  stand_in.coefficients = {1.0};
  stand_in.size_ratio_range = {0.02, 0.03};
  stand_in.method = "none yet";
  return read_unit_cell(
      Mapping::read_text(with_true_density(text, true_density_block(stand_in), shown_name), shown_name));
}

void print_table(const UnitCell& cell, const DensityFit& fit) {
  const std::size_t step = std::max<std::size_t>(1, fit.samples.size() / 8);
  for (std::size_t i = 0; i < fit.samples.size(); i += step) {
    const DensitySample& sample = fit.samples[i];
    const double fitted = evaluate_density(fit.coefficients, sample.size_ratio);
    fmt::print("{:28} {:8.4f} {:10.6f} {:10.6f} {:10.6f} {:9.4f} % {:8.4f} %\n", cell.id, sample.size_ratio,
               evaluate_density(cell.nominal_density_coefficients, sample.size_ratio), sample.density, fitted,
               100 * (fitted / sample.density - 1), 100 * sample.spread);
  }
}

/// The entry with its new block, taken from the file as it is now: someone may have edited it in the meantime.
std::string rewritten(const Entry& entry) {
  const std::string name = entry.file.string();
  std::string text = with_true_density(Mapping::read_file(entry.file).bytes(), entry.block, name);
  read_unit_cell(Mapping::read_text(text, name)); // what is written must be readable
  return text;
}

/// Beside each file first, then all renamed, so that a failure on the way leaves the catalogue as it was.
void write_all(const std::vector<Entry>& entries) {
  std::vector<fs::path> beside;
  try {
    for (const Entry& entry : entries) {
      const std::string text = rewritten(entry);
      fs::path file = entry.file;
      file += ".new";
      beside.push_back(file);
      std::ofstream stream(file, std::ios::binary);
      stream << text;
      stream.close();
      if (!stream)
        throw InputError(fmt::format("{}: cannot be written; nothing was changed. Check the folder's permissions and "
                                     "free space.",
                                     file.string()));
    }
  } catch (...) {
    std::error_code ignored;
    for (const fs::path& file : beside)
      fs::remove(file, ignored);
    throw;
  }
  for (std::size_t i = 0; i < entries.size(); ++i)
    fs::rename(beside[i], entries[i].file);
}

void update(const std::vector<fs::path>& files, bool write) {
  fmt::print("{:28} {:>8} {:>10} {:>10} {:>10} {:>11} {:>10}\n", "cell", "tau", "nominal", "true", "fit",
             "fit - true", "grid step");
  std::vector<Entry> entries;
  for (const fs::path& file : files) {
    const std::string text = Mapping::read_file(file).bytes();
    const UnitCell cell = read_entry(text, file.string());
    if (cell.cell_class == CellClass::foam)
      continue;
    const DensityFit fit = density_of_cell(cell);
    print_table(cell, fit);
    entries.push_back({file, true_density_block(fit)});
  }
  if (write)
    write_all(entries);
}

} // namespace

int main(int count, char** words) {
  try {
    std::vector<std::string> arguments(words + 1, words + count);
    bool write = false;
    std::vector<fs::path> files;
    for (const std::string& argument : arguments) {
      if (argument == "--help" || argument == "-h") {
        fmt::print("{}", usage);
        return 0;
      }
      if (argument == "--write")
        write = true;
      else
        files.emplace_back(argument);
    }
    if (files.empty()) {
      fmt::print(stderr, "catalogue_density: no file was given.\n\n{}", usage);
      return 2;
    }
    update(files, write);
    return 0;
  } catch (const InputError& error) {
    fmt::print(stderr, "{}\n", error.what());
    return 2;
  } catch (const OutOfDomain& error) {
    fmt::print(stderr, "catalogue_density: {}\n", error.what());
    return 2;
  } catch (const std::exception& error) {
    fmt::print(stderr, "catalogue_density: internal error: {}\n", error.what());
    return 3;
  }
}
