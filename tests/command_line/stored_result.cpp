#include "command_line/stored_result.hpp"

#include "crushwright/estimate.hpp"
#include "result_file/json_text.hpp"
#include "result_file/result_document.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <set>

namespace stored_result {

namespace fs = std::filesystem;

namespace {

const fs::path& source() {
  static const fs::path folder = CRUSHWRIGHT_SOURCE_DIR;
  return folder;
}

// Left out: what changes with every release or every word of a source (version, hash, inputs, sources, remarks),
// and what is rounding alone (the residual of the energy ledger, which its own test bounds).
const std::set<std::string>& left_out() {
  static const std::set<std::string> keys{"version", "input_hash", "inputs",  "source",
                                          "remark",  "reason",     "residual"};
  return keys;
}

/// A mirrored structure is made as its original, which says these.
const std::set<std::string>& said_by_original() {
  static const std::set<std::string> keys{"layers", "cells", "packaging"};
  return keys;
}

/// Points of a series that are stored; a curve of 676 points says no more to a test than 20 of them.
constexpr std::size_t points_kept = 20;

Json thinned(const Json& values) {
  if (values.size() <= points_kept)
    return values;
  Json kept = Json::array();
  for (std::size_t i = 0; i < points_kept; ++i)
    kept.push_back(values.at(i * (values.size() - 1) / (points_kept - 1)));
  return kept;
}

Json reduced(const Json& node) {
  if (node.is_array()) {
    Json list = Json::array();
    for (const Json& each : node)
      list.push_back(reduced(each));
    return list;
  }
  if (!node.is_object())
    return node;
  Json object = Json::object();
  const bool mirrored = node.contains("mirror_of") && !node.at("mirror_of").is_null();
  for (const auto& [key, value] : node.items()) {
    if (left_out().count(key) > 0 || (mirrored && said_by_original().count(key) > 0))
      continue;
    if (key == "values" && value.is_array()) {
      object["count"] = value.size();
      object[key] = thinned(value);
    } else if (key == "evidence" && value.is_array() && !value.empty()) {
      object["used"] = reduced(value.front()); // the others change nothing
    } else {
      object[key] = reduced(value);
    }
  }
  return object;
}

double largest_magnitude(const Json& list) {
  double largest = 0;
  for (const Json& each : list)
    if (each.is_number())
      largest = std::max(largest, std::abs(each.get<double>()));
  return largest;
}

bool same_number(const Json& stored, const Json& now, double scale) {
  const double a = stored.get<double>(), b = now.get<double>();
  return std::abs(a - b) <= 1e-9 * std::max({std::abs(a), std::abs(b), scale});
}

std::string escaped(const std::string& key) {
  std::string text;
  for (const char letter : key)
    text += letter == '~' ? "~0" : letter == '/' ? "~1" : std::string(1, letter);
  return text;
}

struct Comparison {
  std::vector<std::string> found;

  void add(const std::string& where, const std::string& stored, const std::string& now) {
    found.push_back(fmt::format("{}: stored {}, now {}", where.empty() ? "/" : where, stored, now));
  }

  void compare_lists(const Json& stored, const Json& now, const std::string& where) {
    if (stored.size() != now.size())
      add(where, fmt::format("{} items", stored.size()), fmt::format("{} items", now.size()));
    const double scale = std::max(largest_magnitude(stored), largest_magnitude(now));
    for (std::size_t i = 0; i < std::min(stored.size(), now.size()); ++i)
      compare(stored.at(i), now.at(i), fmt::format("{}/{}", where, i), scale);
  }

  void compare_objects(const Json& stored, const Json& now, const std::string& where) {
    for (const auto& [key, value] : stored.items()) {
      const std::string place = where + "/" + escaped(key);
      if (now.contains(key))
        compare(value, now.at(key), place, 0);
      else
        add(place, value.dump(), "nothing");
    }
    for (const auto& [key, value] : now.items())
      if (!stored.contains(key))
        add(where + "/" + escaped(key), "nothing", value.dump());
  }

  void compare(const Json& stored, const Json& now, const std::string& where, double scale) {
    if (stored.is_object() && now.is_object())
      compare_objects(stored, now, where);
    else if (stored.is_array() && now.is_array())
      compare_lists(stored, now, where);
    else if (stored.is_number() && now.is_number() ? !same_number(stored, now, scale) : stored != now)
      add(where, stored.dump(), now.dump());
  }
};

} // namespace

std::vector<fs::path> case_files() {
  std::vector<fs::path> files;
  for (const fs::directory_entry& entry : fs::directory_iterator(source() / "cases"))
    if (entry.path().extension() == ".yaml")
      files.push_back(entry.path());
  std::sort(files.begin(), files.end());
  return files;
}

fs::path result_file(const fs::path& case_file) {
  return case_file.parent_path() / "results" / case_file.stem().replace_extension(".json");
}

Json computed(const fs::path& case_file) {
  const crushwright::Catalogue catalogue({source() / "lattices"});
  const crushwright::CrashCase crash_case = crushwright::read_case(case_file);
  const crushwright::Estimate estimate = crushwright::estimate(crash_case, catalogue);
  return reduced(Json::parse(crushwright::result_document(crash_case, estimate, {"", ""})));
}

std::string text_of(const Json& document) {
  return crushwright::json_text(document);
}

std::vector<std::string> differences(const Json& stored, const Json& now) {
  Comparison comparison;
  comparison.compare(stored, now, "", 0);
  return std::move(comparison.found);
}

} // namespace stored_result
