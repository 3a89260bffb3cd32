#include "shared_caches.hpp"

#include <utility>

namespace sunstrain::cli {

std::unique_ptr<ChainCache> SharedCaches::borrow(std::size_t pane) {
  const std::lock_guard lock(lock_);
  if (pane > pane_) {
    idle_.clear();
    pane_ = pane;
  }
  if (pane < pane_ || idle_.empty()) return std::make_unique<ChainCache>();
  std::unique_ptr<ChainCache> cache = std::move(idle_.back());
  idle_.pop_back();
  return cache;
}

void SharedCaches::give_back(std::unique_ptr<ChainCache> cache, std::size_t pane) {
  const std::lock_guard lock(lock_);
  if (pane == pane_) idle_.push_back(std::move(cache));
}

}  // namespace sunstrain::cli
