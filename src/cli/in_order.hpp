// A stream of pieces worked on several threads and handed on in their order, with a bounded number of them in hand.
#pragma once

#include <condition_variable>
#include <cstddef>
#include <exception>
#include <functional>
#include <map>
#include <mutex>
#include <optional>
#include <thread>
#include <vector>

namespace sunstrain::cli {

// Draws pieces from `next` until it gives none, works each, and hands the results to `take` in the order of the
// pieces. `next` and `take` are called by one thread at a time, `work` by several. A piece is drawn only while fewer
// than four a thread are drawn and not yet taken. The first exception ends all of it and is thrown again.
template <class Piece, class Result>
class InOrder {
 public:
  InOrder(std::function<std::optional<Piece>()> next, std::function<Result(Piece)> work,
          std::function<void(Result)> take)
      : next_(std::move(next)), work_(std::move(work)), take_(std::move(take)) {}

  void run(std::size_t threads) {
    window_ = 4 * threads;
    std::vector<std::thread> others;
    for (std::size_t i = 1; i < threads; ++i) others.emplace_back([this] { drain(); });
    drain();
    for (std::thread& thread : others) thread.join();
    if (fault_) std::rethrow_exception(fault_);
  }

 private:
  void drain() {
    try {
      std::size_t index = 0;
      while (std::optional<Piece> piece = draw(index)) hand_on(index, work_(std::move(*piece)));
    } catch (...) {
      const std::lock_guard lock(results_);
      if (!fault_) fault_ = std::current_exception();
      over_ = true;
      room_.notify_all();
    }
  }

  // A reader that waits for more input holds up no result: drawing has a lock of its own.
  std::optional<Piece> draw(std::size_t& index) {
    const std::lock_guard drawing(pieces_);
    {
      std::unique_lock lock(results_);
      room_.wait(lock, [this] { return over_ || drawn_ < taken_ + window_; });
      if (over_) return std::nullopt;
    }
    std::optional<Piece> piece = next_();
    const std::lock_guard lock(results_);
    if (!piece) over_ = true;
    index = drawn_;
    if (piece) ++drawn_;
    return piece;
  }

  void hand_on(std::size_t index, Result result) {
    const std::lock_guard lock(results_);
    done_.emplace(index, std::move(result));
    for (auto first = done_.begin(); !fault_ && first != done_.end() && first->first == taken_; first = done_.begin()) {
      take_(std::move(first->second));
      done_.erase(first);
      ++taken_;
    }
    room_.notify_all();
  }

  std::function<std::optional<Piece>()> next_;
  std::function<Result(Piece)> work_;
  std::function<void(Result)> take_;
  std::mutex pieces_, results_;
  std::condition_variable room_;
  std::map<std::size_t, Result> done_;
  std::size_t drawn_ = 0, taken_ = 0, window_ = 0;
  bool over_ = false;
  std::exception_ptr fault_;
};

}  // namespace sunstrain::cli
