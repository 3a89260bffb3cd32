// Maps and solvers that pieces of work share, lent to whoever works one: each set to one thread at a time.
#pragma once

#include <cstddef>
#include <memory>
#include <mutex>
#include <vector>

#include "sunstrain/assess.hpp"

namespace sunstrain::cli {

// Of the panes of a table only the last that began has any; what earlier ones shared is let go.
class SharedCaches {
 public:
  std::unique_ptr<ChainCache> borrow(std::size_t pane = 0);
  void give_back(std::unique_ptr<ChainCache> cache, std::size_t pane = 0);

 private:
  std::mutex lock_;
  std::size_t pane_ = 0;
  std::vector<std::unique_ptr<ChainCache>> idle_;
};

}  // namespace sunstrain::cli
