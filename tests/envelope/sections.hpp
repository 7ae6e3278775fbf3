#pragma once
#include "crushwright/envelope.hpp"

#include <array>
#include <cmath>
#include <cstddef>
#include <numbers>
#include <vector>

/// Sections and second ways of measuring them, for the tests of this room.
namespace sections {

using crushwright::Section;
using crushwright::SectionShape;
using Points = std::vector<std::array<double, 2>>;

inline Section rectangle(double width, double height) {
  Section section;
  section.shape = SectionShape::rectangle;
  section.width = width;
  section.height = height;
  return section;
}

inline Section rounded_rectangle(double width, double height, double radius) {
  Section section = rectangle(width, height);
  section.shape = SectionShape::rounded_rectangle;
  section.corner_radius = radius;
  return section;
}

inline Section trapezoid(double lower, double upper, double height) {
  Section section = rectangle(lower, height);
  section.shape = SectionShape::trapezoid;
  section.upper_width = upper;
  return section;
}

inline Section ellipse(double width, double height) {
  Section section = rectangle(width, height);
  section.shape = SectionShape::ellipse;
  return section;
}

inline Section polygon(const Points& corners) {
  Section section;
  section.shape = SectionShape::polygon;
  section.corners = corners;
  return section;
}

inline Section regular_polygon(std::size_t count, double circumradius, double turned_by = 0.1) {
  Points corners;
  for (std::size_t i = 0; i < count; ++i) {
    const double angle = turned_by + 2 * std::numbers::pi * static_cast<double>(i) / static_cast<double>(count);
    corners.push_back({circumradius * std::cos(angle), circumradius * std::sin(angle)});
  }
  return polygon(corners);
}

/// An L of legs 60 mm wide in a square of 150 mm: one corner turns inwards.
inline Section angle_section() {
  return polygon({{0, 0}, {0.150, 0}, {0.150, 0.060}, {0.060, 0.060}, {0.060, 0.150}, {0, 0.150}});
}

/// An uneven convex five-sided section.
inline Section five_sided() {
  return polygon({{0, 0}, {0.120, -0.010}, {0.160, 0.070}, {0.090, 0.150}, {-0.010, 0.110}});
}

inline double shoelace_area(const Points& line) {
  double twice = 0;
  for (std::size_t i = 0; i < line.size(); ++i) {
    const auto& p = line[i];
    const auto& q = line[(i + 1) % line.size()];
    twice += p[0] * q[1] - q[0] * p[1];
  }
  return twice / 2;
}

inline double length_around(const Points& line) {
  double length = 0;
  for (std::size_t i = 0; i < line.size(); ++i) {
    const auto& p = line[i];
    const auto& q = line[(i + 1) % line.size()];
    length += std::hypot(q[0] - p[0], q[1] - p[1]);
  }
  return length;
}

/// Part of a convex outline that lies at least `inset` inside every edge's line: the line of each edge is moved
/// inwards and cuts away what is beyond it. Knows nothing of A - P t + κ t^2.
inline Points cut_by_inset_edges(const Points& line, double inset) {
  Points left = line;
  for (std::size_t i = 0; i < line.size(); ++i) {
    const auto& p = line[i];
    const auto& q = line[(i + 1) % line.size()];
    const double edge = std::hypot(q[0] - p[0], q[1] - p[1]);
    const auto depth = [&](const std::array<double, 2>& point) {
      return ((q[0] - p[0]) * (point[1] - p[1]) - (q[1] - p[1]) * (point[0] - p[0])) / edge - inset;
    };
    Points kept;
    for (std::size_t j = 0; j < left.size(); ++j) {
      const auto& here = left[j];
      const auto& next = left[(j + 1) % left.size()];
      const double depth_here = depth(here);
      const double depth_next = depth(next);
      if (depth_here >= 0)
        kept.push_back(here);
      if ((depth_here > 0 && depth_next < 0) || (depth_here < 0 && depth_next > 0)) {
        const double part = depth_here / (depth_here - depth_next);
        kept.push_back({here[0] + part * (next[0] - here[0]), here[1] + part * (next[1] - here[1])});
      }
    }
    left = kept;
  }
  return left;
}

/// Greatest minus smallest distance along a direction, least over many directions.
inline double width_by_turning(const Points& line, int directions) {
  double smallest = 1e300;
  for (int i = 0; i < directions; ++i) {
    const double angle = std::numbers::pi * i / directions;
    double low = 1e300;
    double high = -1e300;
    for (const auto& point : line) {
      const double along = point[0] * std::cos(angle) + point[1] * std::sin(angle);
      low = std::fmin(low, along);
      high = std::fmax(high, along);
    }
    smallest = std::fmin(smallest, high - low);
  }
  return smallest;
}

} // namespace sections
