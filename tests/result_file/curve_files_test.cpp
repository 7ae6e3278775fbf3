#include "result_file/curve_files.hpp"
#include "result_file/json_text.hpp"
#include "review_pack/sample_estimate.hpp"

#include <catch2/catch.hpp>

#include <limits>
#include <sstream>

using namespace crushwright;

namespace {

struct ReadBack {
  std::string header;
  std::vector<std::vector<double>> columns;
};

ReadBack read(const std::string& text) {
  std::istringstream lines(text);
  ReadBack result;
  std::getline(lines, result.header, '\r');
  lines.ignore();
  for (std::string line; std::getline(lines, line, '\r'); lines.ignore()) {
    std::istringstream fields(line);
    std::size_t column = 0;
    for (std::string field; std::getline(fields, field, ','); ++column) {
      if (result.columns.size() <= column) {
        result.columns.emplace_back();
      }
      result.columns[column].push_back(std::stod(field));
    }
  }
  return result;
}

const PackFile& named(const std::vector<PackFile>& files, const std::string& name) {
  for (const PackFile& file : files) {
    if (file.name == name) {
      return file;
    }
  }
  throw std::runtime_error("no file " + name);
}

void require_equal(const std::vector<double>& read_back, const std::vector<double>& series) {
  REQUIRE(read_back.size() == series.size());
  for (std::size_t i = 0; i < series.size(); ++i) {
    CHECK(read_back[i] == Approx(series[i]).epsilon(1e-8).margin(1e-12)); // nine digits are written
  }
}

} // namespace

TEST_CASE("a force-crush file read back equals the curve") {
  const Estimate estimate = hand_made::estimate();
  const std::vector<PackFile> files = curve_files(estimate);
  for (const auto& [name, curve] :
       {std::pair{"curves/force_crush-left-weak.csv", &estimate.deciding.curves[0].weak},
        std::pair{"curves/force_crush-right-strong.csv", &estimate.deciding.curves[1].strong}}) {
    const ReadBack back = read(named(files, name).bytes);
    CHECK(back.header == "crush [m],force [N],energy [J]");
    require_equal(back.columns.at(0), curve->crush);
    require_equal(back.columns.at(1), curve->force);
    require_equal(back.columns.at(2), curve->energy);
  }
}

TEST_CASE("a history file read back equals the sampled motion") {
  const Estimate estimate = hand_made::estimate();
  const ImpactMotion& motion = estimate.deciding.impacts[1].motion;
  const ImpactHistory history = sample(motion, history_step(motion));
  const ReadBack back = read(named(curve_files(estimate), "curves/history-offset.csv").bytes);
  CHECK(back.header ==
        "time [s],force [N],crush left [m],force left [N],crush right [m],force right [N],speed barrier "
        "[m/s],speed car [m/s],acceleration barrier [m/s^2],acceleration car [m/s^2]");
  require_equal(back.columns.at(0), history.time);
  require_equal(back.columns.at(2), history.column_crush[0]);
  require_equal(back.columns.at(9), history.struck_acceleration);
}

TEST_CASE("the stored cell curve passes through the plateau stress of its station") {
  const Estimate estimate = hand_made::estimate();
  const CellAtStation& cell = estimate.structures[0].cells[1];
  const ReadBack back = read(named(curve_files(estimate), "curves/cell-left-middle.csv").bytes);
  CHECK(back.header == "strain [1],stress [Pa]");
  const double plateau = cell.properties.plateau_stress.value;
  CHECK(back.columns[1].front() <= plateau);
  CHECK(back.columns[1].back() > plateau);
}

TEST_CASE("histories have at most 400 samples at a round step") {
  for (const ImpactOutcome& impact : hand_made::estimate().deciding.impacts) {
    const double step = history_step(impact.motion);
    CHECK(sample(impact.motion, step).time.size() <= 400);
    double mantissa = step;
    while (mantissa < 0.99) {
      mantissa *= 10;
    }
    CHECK((mantissa == Approx(1) || mantissa == Approx(2) || mantissa == Approx(5)));
  }
}

TEST_CASE("a heading with a comma or a quotation mark is quoted") {
  CHECK(csv_text("a.csv", {{"crush, \"left\"", "m", {1.5}}}) == "\"crush, \"\"left\"\" [m]\"\r\n1.5\r\n");
}

TEST_CASE("ids that a file name cannot hold stay apart and inside the pack") {
  Estimate estimate = hand_made::estimate();
  estimate.deciding.impacts[0].id = "../up";
  estimate.deciding.impacts[1].id = "..?up";
  const std::vector<PackFile> files = curve_files(estimate);
  CHECK_NOTHROW(named(files, "curves/history-_._up.csv"));
  CHECK_NOTHROW(named(files, "curves/history-_._up-2.csv"));
}

TEST_CASE("a curve with a number that is not finite is refused with file, row and column") {
  Estimate estimate = hand_made::estimate();
  estimate.deciding.curves[0].weak.force[2] = std::numeric_limits<double>::quiet_NaN();
  try {
    curve_files(estimate);
    FAIL("a NaN was written");
  } catch (const NotFinite& error) {
    CHECK(error.where() == "curves/force_crush-left-weak.csv, row 3, column \"force\"");
  }
}
