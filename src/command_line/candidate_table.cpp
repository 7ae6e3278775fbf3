#include "command_line/candidate_table.hpp"

#include "quantities/units.hpp"
#include "review_pack/html.hpp"
#include "review_pack/text_table.hpp"

#include <algorithm>
#include <utility>

#include <fmt/format.h>

namespace crushwright {

namespace {

struct Column {
  const char* heading;
  bool figures;
  std::string (*cell)(const Candidate&);
};

bool is_judged(const Candidate& candidate) {
  return candidate.mass > 0;
}

std::string in_unit(const Candidate& candidate, double value, Dimension dimension) {
  return is_judged(candidate) ? show(value, dimension) : "none";
}

std::string word_cell(const Candidate& c) {
  return is_judged(c) ? std::string(name_of(c.word)) : "left out";
}

std::string margin_cell(const Candidate& c) {
  return is_judged(c) ? margin_text(c.governing_margin) : "none";
}

/// The limit's id without the impact behind it, for which a table has no room.
std::string limit_cell(const Candidate& c) {
  return c.governing_limit.substr(0, c.governing_limit.find(' '));
}

std::string length_or_none(double length) {
  return length > 0 ? show(length, Dimension::length) : "none";
}

constexpr Column word{"", false, word_cell};
constexpr Column cell{"cell", false,
                      [](const Candidate& c) { return c.cell.empty() ? std::string("none") : c.cell; }};
constexpr Column material{"material", false, [](const Candidate& c) { return c.material; }};
constexpr Column density{"density", true, [](const Candidate& c) {
                           return c.relative_density > 0 ? show(c.relative_density, Dimension::fraction)
                                                         : std::string("none");
                         }};
constexpr Column size{"size", true, size_text};
constexpr Column mass{"mass", true, [](const Candidate& c) { return in_unit(c, c.mass, Dimension::mass); }};
constexpr Column margin{"margin", true, margin_cell};
constexpr Column governs{"governs", false, limit_cell};
constexpr Column edge{"cell edge", true, [](const Candidate& c) { return length_or_none(c.cell_edge); }};
constexpr Column skin{"skin", true, [](const Candidate& c) { return length_or_none(c.skin_thickness); }};
constexpr Column force{"peak force", true,
                       [](const Candidate& c) { return in_unit(c, c.peak_force, Dimension::force); }};
constexpr Column crush{"crush", true, [](const Candidate& c) { return in_unit(c, c.peak_crush, Dimension::length); }};

std::string time_cell(const Candidate& c) {
  return c.build_time ? show(*c.build_time, Dimension::duration) : "none";
}

std::string cost_cell(const Candidate& c) {
  return c.build_cost ? fmt::format("{:.0f}", *c.build_cost) : "none";
}

constexpr Column build_time{"build time", true, time_cell};
constexpr Column build_cost{"cost", true, cost_cell};

std::size_t widest_line(const std::string& table) {
  std::size_t widest = 0, width = 0;
  for (const char letter : table) {
    if (letter == '\n') {
      widest = std::max(widest, width);
      width = 0;
    } else if ((static_cast<unsigned char>(letter) & 0xC0U) != 0x80U) {
      ++width;
    }
  }
  return widest;
}

std::string table_of(const std::vector<Candidate>& candidates, const std::vector<const Column*>& shown) {
  std::vector<bool> figures;
  std::vector<std::vector<std::string>> rows(1);
  for (const Column* column : shown) {
    figures.push_back(column->figures);
    rows.front().emplace_back(column->heading);
  }
  for (const Candidate& candidate : candidates) {
    rows.emplace_back();
    for (const Column* column : shown) {
      rows.back().push_back(column->cell(candidate));
    }
  }
  return text_table(figures, rows);
}

/// Build time and cost behind the mass, where any candidate has them.
std::vector<const Column*> with_printing(const std::vector<Candidate>& candidates,
                                         const std::vector<const Column*>& wanted) {
  std::vector<const Column*> all;
  for (const Column* column : wanted) {
    all.push_back(column);
    if (column != &mass) {
      continue;
    }
    if (std::any_of(candidates.begin(), candidates.end(), [](const Candidate& c) { return bool(c.build_time); })) {
      all.push_back(&build_time);
    }
    if (std::any_of(candidates.begin(), candidates.end(), [](const Candidate& c) { return bool(c.build_cost); })) {
      all.push_back(&build_cost);
    }
  }
  return all;
}

/// The columns in their order, without those for which no room is left.
std::string fitting_table(const std::vector<Candidate>& candidates, const std::vector<const Column*>& columns) {
  const std::vector<const Column*> wanted = with_printing(candidates, columns);
  std::vector<const Column*> shown;
  std::string table;
  for (const Column* column : wanted) {
    shown.push_back(column);
    std::string wider = table_of(candidates, shown);
    if (widest_line(wider) > text_width) {
      shown.pop_back();
      continue;
    }
    table = std::move(wider);
  }
  return table;
}

} // namespace

std::string size_text(const Candidate& candidate) {
  if (!(candidate.size_tip > 0)) {
    return "none";
  }
  const Dimension dimension = candidate.cell_edge > 0 ? Dimension::length : Dimension::fraction;
  const std::string tip = show(candidate.size_tip, dimension);
  const std::string root = show(candidate.size_root, dimension);
  return tip == root ? tip : fmt::format("{}\u2013{}", tip.substr(0, tip.find(' ')), root);
}

std::string candidate_table(const std::vector<Candidate>& candidates) {
  return fitting_table(candidates,
                       {&word, &cell, &material, &size, &mass, &margin, &governs, &density, &edge, &crush});
}

std::string density_table(const std::vector<Candidate>& candidates) {
  return fitting_table(candidates, {&word, &cell, &material, &density, &mass, &margin, &governs, &size, &crush});
}

std::string sizing_table(const std::vector<Candidate>& candidates) {
  return fitting_table(candidates, {&word, &edge, &size, &density, &mass, &margin, &governs, &force, &crush});
}

std::string baseline_table(const std::vector<Candidate>& candidates) {
  return fitting_table(candidates, {&word, &cell, &material, &skin, &mass, &margin, &governs, &density, &crush});
}

std::string remark_lines(const std::vector<Candidate>& candidates) {
  std::vector<std::pair<std::string, std::string>> designs_of_remark;
  for (const Candidate& candidate : candidates) {
    if (candidate.remark.empty()) {
      continue;
    }
    const auto known = std::find_if(designs_of_remark.begin(), designs_of_remark.end(),
                                    [&](const auto& each) { return each.first == candidate.remark; });
    if (known == designs_of_remark.end()) {
      designs_of_remark.emplace_back(candidate.remark, candidate.label);
    } else {
      known->second += "; " + candidate.label;
    }
  }
  std::string text;
  for (const auto& [remark, designs] : designs_of_remark) {
    text += wrapped(fmt::format("- {}: {}", designs, remark), text_width, 2);
  }
  return text;
}

} // namespace crushwright
