// How far long work is: a bar on standard error where that is a terminal, nothing where it is not. The output is never
// touched.
//
// The whole is known (jobs, samples, films of a list):     It is not, but the share that is done, or only a count:
//   Progress progress("samples", 10'000);                    Progress progress("rows");
//   for (...) { ...; progress.done(++count); }               ...; progress.done(++count, bytes_so_far / bytes);
//                                                            ...; progress.done(++count);
// Call it from one thread at a time (what InOrder's `take` does). It draws at most ten times a second, and the line is
// gone when it goes out of scope: let it do so before anything else is written.
//
// Ctrl-C is CtrlC's (ctrl_c.hpp): ask `pressed()` between pieces, end there, say how many of how many, and return
// `stopped`.
#pragma once

#include <chrono>
#include <cstddef>
#include <optional>
#include <string>

namespace sunstrain::cli {

class Progress {
 public:
  // `wanted` false: nothing is drawn, terminal or not.
  explicit Progress(std::string things, std::size_t whole = 0, bool wanted = true);
  ~Progress();
  Progress(const Progress&) = delete;
  Progress& operator=(const Progress&) = delete;

  // `count` things are done; `share`, 0 to 1, of all the work, where that is not count over the whole.
  void done(std::size_t count, std::optional<double> share = std::nullopt);

 private:
  void draw(std::size_t count, std::optional<double> share);

  std::string things_;
  std::size_t whole_ = 0;
  bool shown_ = false;
  std::chrono::steady_clock::time_point last_{};
};

// "[#####     ]  52 %  120 of 231 rows"; without a share "120 rows". `share` outside 0 to 1 is brought into it.
std::string progress_line(std::size_t count, std::size_t whole, std::optional<double> share, const std::string& things);

}  // namespace sunstrain::cli
