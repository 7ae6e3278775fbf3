#include "command_line/coupon_series_input.hpp"

#include "command_line/option_value.hpp"
#include "crushwright/errors.hpp"

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>

#include <fmt/format.h>

namespace crushwright {

namespace {

namespace fs = std::filesystem;

[[noreturn]] void refuse(const std::string& what, const std::string& what_to_do) {
  refuse_option("coupon", what, what_to_do);
}

bool is_description(const std::string& file) {
  const std::string ending = fs::path(file).extension().string();
  return ending == ".yaml" || ending == ".yml";
}

/// Facts as options belong to data files: a description holds its own.
void require_no_facts(const CouponOptions& options) {
  const std::pair<const char*, const std::optional<std::string>&> facts[] = {
      {"--test", options.test},
      {"--cell", options.cell},
      {"--direction", options.direction},
      {"--material", options.material},
      {"--area", options.area},
      {"--height", options.height},
      {"--mass", options.mass},
      {"--relative-density", options.relative_density},
      {"--speed", options.speed},
      {"--strain-rate", options.strain_rate},
      {"--machine-stiffness", options.machine_stiffness}};
  for (const auto& [name, value] : facts) {
    if (value) {
      refuse(fmt::format("{} stands beside a description, which says that itself", name),
             fmt::format("Write it into {} (docs/coupon_format.md), or name the data files in its place.",
                         options.files.front()));
    }
  }
  if (!options.plateau.empty()) {
    refuse("--plateau stands beside a description, which says that itself", "Write `plateau: [20 %, 40 %]` into it.");
  }
}

std::optional<double> positive(const char* option, const std::optional<std::string>& text, Dimension dimension) {
  if (!text) {
    return std::nullopt;
  }
  const double value = option_value("coupon", option, *text, dimension);
  if (!(value > 0)) {
    refuse(fmt::format("{} {}: it must be above 0", option, *text), "Correct the value.");
  }
  return value;
}

TestKind kind_of(const CouponOptions& options) {
  const std::string word = options.test.value_or(std::string(name_of(TestKind::lattice_compression)));
  for (const TestKind kind : {TestKind::lattice_compression, TestKind::metal_compression, TestKind::metal_tension}) {
    if (word == name_of(kind)) {
      return kind;
    }
  }
  refuse(fmt::format("--test {}: not a kind of test", word),
         "Write lattice_compression, metal_compression or metal_tension.");
}

SpecimenFacts facts_of(const CouponOptions& options) {
  SpecimenFacts facts;
  facts.area = positive("--area", options.area, Dimension::area);
  facts.height = positive("--height", options.height, Dimension::length);
  facts.mass = positive("--mass", options.mass, Dimension::mass);
  facts.relative_density = positive("--relative-density", options.relative_density, Dimension::fraction);
  facts.speed = positive("--speed", options.speed, Dimension::speed);
  facts.strain_rate = positive("--strain-rate", options.strain_rate, Dimension::strain_rate);
  if (const auto stiffness = positive("--machine-stiffness", options.machine_stiffness, Dimension::stiffness)) {
    facts.machine_compliance = 1 / *stiffness;
  }
  if (facts.relative_density && *facts.relative_density >= 1) {
    refuse(fmt::format("--relative-density {}: it lies between 0 and 1", *options.relative_density),
           "Write for instance 0.15, or \"15 %\".");
  }
  return facts;
}

std::string bytes_of(const std::string& file) {
  std::ifstream stream(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(stream), std::istreambuf_iterator<char>()};
}

TestSeries series_of_files(const CouponOptions& options) {
  TestSeries series;
  series.kind = kind_of(options);
  series.title = options.files.size() == 1 ? fs::path(options.files.front()).filename().string()
                                           : fmt::format("{} test files", options.files.size());
  series.cell = options.cell.value_or("");
  series.direction = options.direction.value_or("");
  series.material = options.material.value_or("");
  series.source = {"own tests", Standing::read};
  for (const std::string& text : options.plateau) {
    series.plateau_window.push_back(option_value("coupon", "--plateau", text, Dimension::fraction));
  }
  const SpecimenFacts facts = facts_of(options);
  for (const std::string& file : options.files) {
    if (is_description(file)) {
      refuse(fmt::format("{} is a description and stands beside other files", file),
             "Name one description alone, or data files alone.");
    }
    for (TestRecord& record : read_test_file(file, TableOptions{}, facts)) {
      series.records.push_back(std::move(record));
    }
    series.files.emplace_back(fs::path(file).filename().string(), bytes_of(file));
  }
  return series;
}

} // namespace

SeriesInput series_input(const CouponOptions& options) {
  if (options.files.size() == 1 && is_description(options.files.front())) {
    require_no_facts(options);
    return {read_test_series(options.files.front()), fs::path(options.files.front()).stem().string()};
  }
  return {series_of_files(options),
          options.files.size() == 1 ? fs::path(options.files.front()).stem().string() : "coupons"};
}

} // namespace crushwright
