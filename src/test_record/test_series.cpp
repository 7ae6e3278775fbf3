#include "crushwright/test_record.hpp"
#include "quantities/nearest_spelling.hpp"
#include "test_record/specimen_facts.hpp"
#include "test_record/table_reader.hpp"
#include "test_record/table_text.hpp"
#include "yaml_input/mapping.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <map>

namespace crushwright {

namespace {

TestKind kind_named(const std::string& word) {
  for (const TestKind kind : {TestKind::metal_compression, TestKind::metal_tension})
    if (name_of(kind) == word)
      return kind;
  return TestKind::lattice_compression;
}

std::vector<double> read_plateau_window(const Mapping& root) {
  const std::vector<Quantity> given = root.quantity_list("plateau", Dimension::fraction, Bounds::closed(0, 0.9));
  if (given.empty())
    return {};
  if (given.size() != 2 || !(given[0].value < given[1].value))
    root.fail("plateau", "two rising strains were expected, where the plateau stress is averaged",
              "ISO 13314 allows `[0.2, 0.3]` and `[0.2, 0.4]`.");
  return {given[0].value, given[1].value};
}

void read_head(const Mapping& root, TestSeries& series) {
  series.title = root.text("title");
  series.kind = kind_named(root.choice("test", {"lattice_compression", "metal_compression", "metal_tension"}));
  if (series.kind != TestKind::lattice_compression)
    for (const std::string_view key : {"cell", "direction", "plateau"})
      if (root.has(key))
        root.fail(key, fmt::format("this belongs to a lattice, but `test` is {}", name_of(series.kind)),
                  "Delete it, or correct `test`.");
  series.cell = root.text_or("cell", "");
  series.direction = root.text_or("direction", "");
  series.material = root.text_or("material", "");
  series.process = root.text_or("process", "");
  series.source = root.source();
  series.plateau_window = read_plateau_window(root);
}

/// Reads the specimens of one description.
class SeriesReader {
public:
  SeriesReader(const std::filesystem::path& description, TestSeries& series)
      : folder_(description.parent_path()), series_(series) {}

  void read(const Mapping& root) {
    if (root.has("common")) {
      Mapping common = root.mapping("common");
      allow(common, {});
      facts_ = read_facts(common, {}, series_.kind);
      options_ = read_table_options(common, {});
    }
    const std::vector<Mapping> specimens = root.list("specimens");
    if (specimens.empty())
      root.fail("specimens", "there is no specimen; one or more were expected",
                "List them, each as `- file: NAME.csv` with what is known of it below.");
    for (const Mapping& specimen : specimens)
      read_specimen(specimen);
  }

private:
  static void allow(Mapping& mapping, std::vector<std::string> keys) {
    keys.insert(keys.end(), fact_keys().begin(), fact_keys().end());
    keys.insert(keys.end(), table_keys().begin(), table_keys().end());
    mapping.allow_keys(keys);
  }

  void read_specimen(Mapping specimen) {
    allow(specimen, {"file", "specimen", "id", "mass"});
    SpecimenFacts facts = read_facts(specimen, facts_, series_.kind);
    facts.mass = plain_fact(specimen, "mass", Dimension::mass, Bounds::positive());
    check_facts(specimen, facts, series_.kind);
    facts.id = specimen.text_or("id", "");
    const std::string name = specimen.text("file");
    std::vector<LabelledRecord> read =
        read_table(bytes_of(name), (folder_ / name).generic_string(), read_table_options(specimen, options_));
    if (specimen.has("specimen"))
      read = {only(specimen, read)};
    else if (facts.mass && read.size() > 1)
      specimen.fail("mass",
                    fmt::format("the file holds {} specimens, and one mass cannot be that of all", read.size()),
                    "List the file once for each specimen, with `specimen` naming it as the file does.");
    for (LabelledRecord& record : read)
      check_columns(specimen, record.record);
    add(specimen, with_facts(std::move(read), facts, name_of_record(specimen, name)), name);
  }

  static std::string name_of_record(const Mapping& specimen, const std::string& file) {
    const std::string stem = name_without_ending(file);
    return specimen.has("specimen") ? stem + "-" + specimen.text("specimen") : stem;
  }

  const std::string& bytes_of(const std::string& name) {
    const auto known = std::find_if(series_.files.begin() + 1, series_.files.end(),
                                    [&](const auto& file) { return file.first == name; });
    if (known != series_.files.end())
      return known->second;
    return series_.files.emplace_back(name, read_data_file(folder_ / name)).second;
  }

  static LabelledRecord only(const Mapping& specimen, std::vector<LabelledRecord>& read) {
    const std::string wanted = specimen.text("specimen");
    std::vector<std::string> labels;
    for (LabelledRecord& record : read) {
      if (record.label == wanted)
        return std::move(record);
      labels.push_back(record.label.empty() ? "(one without a name)" : record.label);
    }
    specimen.fail("specimen", fmt::format("the file holds no specimen `{}`", wanted),
                  fmt::format("It holds: {}.", comma_list(labels)));
  }

  /// `columns` named by their kind: a `force` must not turn out to be a stress.
  static void check_columns(const Mapping& specimen, const TestRecord& record) {
    const auto columns = specimen.optional_mapping("columns");
    if (!columns)
      return;
    Mapping named = *columns;
    named.allow({"displacement", "strain", "force", "stress", "time", "specimen"});
    const bool stress = record.kind == RecordKind::stress_strain;
    for (const std::string_view key : {"displacement", "force", "strain", "stress"})
      if (named.has(key) && (key == "strain" || key == "stress") != stress)
        named.fail(key,
                   fmt::format("the column read as `{}` holds a {} by its heading and unit",
                               key == "displacement" || key == "strain" ? record.along_column : record.load_column,
                               key == "displacement" || key == "strain" ? (stress ? "strain" : "displacement")
                                                                        : (stress ? "stress" : "force")),
                   "Name it by what it holds, or correct its unit.");
  }

  void add(const Mapping& specimen, std::vector<TestRecord> records, const std::string& name) {
    for (TestRecord& record : records) {
      record.file_name = name; // as the description writes it: no folder of one machine in a result
      const auto [at, is_new] = where_.emplace(record.specimen.id, specimen.path());
      if (!is_new)
        specimen.fail(specimen.has("id") ? "id" : "file",
                      fmt::format("the specimen is called `{}`, as is {}; every specimen needs a name of its own",
                                  record.specimen.id, at->second),
                      "Give each an `id` of its own.");
      series_.records.push_back(std::move(record));
    }
  }

  std::filesystem::path folder_;
  TestSeries& series_;
  SpecimenFacts facts_;
  TableOptions options_;
  std::map<std::string, std::string> where_; ///< path of the item by the specimen's id
};

} // namespace

TestSeries read_test_series(const std::filesystem::path& description) {
  Mapping root = Mapping::read_file(description);
  root.allow({"title", "description", "test", "cell", "direction", "material", "process", "source", "standing",
              "plateau", "common", "specimens"});
  TestSeries series;
  read_head(root, series);
  series.files.emplace_back(description.filename().generic_string(), root.bytes());
  SeriesReader(description, series).read(root);
  return series;
}

} // namespace crushwright
