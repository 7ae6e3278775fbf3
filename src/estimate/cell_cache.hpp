#pragma once
#include "crushwright/unit_cell.hpp"

#include <map>
#include <mutex>
#include <string>

namespace crushwright {

/// A size ratio on a grid of a few per cent, inside the cell's range. What is computed slowly is computed there, so
/// that a search finds it again, and gets the same whichever size came first.
/// @param step  of the grid, in the logarithm of the ratio [-]
double rounded_ratio(const UnitCell& cell, double size_ratio, double step);

/// What tells a cell, a direction and a size from all others: the id alone does not, a case may bring a cell of its
/// own.
std::string cell_key(const UnitCell& cell, const std::string& direction, double size_ratio);

/// Answers by key, shared by all threads. Two that ask for a new one at a time may both compute it, to the same end.
template <class Answer>
class CellCache {
public:
  template <class Compute>
  Answer find_or(const std::string& key, const Compute& compute) {
    {
      const std::lock_guard lock(mutex_);
      if (const auto found = answers_.find(key); found != answers_.end())
        return found->second;
    }
    // Without the lock: what computes may itself wait for other threads.
    Answer answer = compute();
    const std::lock_guard lock(mutex_);
    return answers_.emplace(key, std::move(answer)).first->second;
  }

private:
  std::mutex mutex_;
  std::map<std::string, Answer> answers_;
};

} // namespace crushwright
