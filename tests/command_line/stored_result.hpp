#pragma once
#include <filesystem>
#include <string>
#include <vector>

#include <nlohmann/json.hpp>

// Results of the project's cases as they are kept in cases/results, small enough to be read in a comparison of two
// states of the project.
namespace stored_result {

using Json = nlohmann::ordered_json;

/// Every case of the project, sorted by name.
std::vector<std::filesystem::path> case_files();

/// cases/results/<case id>.json.
std::filesystem::path result_file(const std::filesystem::path& case_file);

/// The part of a case's result document that is stored, see stored_result.cpp.
Json computed(const std::filesystem::path& case_file);

/// Two spaces a level, a list of numbers on one line, shortest decimals, one line feed at the end.
std::string text_of(const Json& document);

/// One line for each place where two documents differ: its JSON pointer (RFC 6901) and both values. Numbers may
/// differ by 1e-9 of the larger one; those of a series by 1e-9 of its largest.
std::vector<std::string> differences(const Json& stored, const Json& now);

} // namespace stored_result
