#include "progress.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cstdio>

#include "terminal.hpp"

namespace sunstrain::cli {
namespace {

constexpr int bar_columns = 30, line_columns = 78;
constexpr std::chrono::milliseconds between_draws{100};

// Over the line there was, without escape sequences: the dumbest terminal takes it.
void put(const std::string& line) {
  std::fprintf(stderr, "\r%-*.*s\r%s", line_columns, line_columns, "", line.c_str());
  std::fflush(stderr);
}

}  // namespace

std::string progress_line(std::size_t count, std::size_t whole, std::optional<double> share,
                          const std::string& things) {
  const std::string counted =
      whole > 0 ? fmt::format("{} of {} {}", count, whole, things) : fmt::format("{} {}", count, things);
  if (!share && whole > 0) share = static_cast<double>(count) / static_cast<double>(whole);
  if (!share) return counted;
  const double part = std::clamp(*share, 0.0, 1.0);
  const auto full = static_cast<std::size_t>(part * bar_columns);
  return fmt::format("[{:<{}}] {:3} %  {}", std::string(full, '#'), bar_columns, static_cast<int>(100.0 * part),
                     counted);
}

Progress::Progress(std::string things, std::size_t whole, bool wanted)
    : things_(std::move(things)), whole_(whole), shown_(wanted && error_is_terminal()) {
  if (shown_) draw(0, whole_ > 0 ? std::optional(0.0) : std::nullopt);
}

Progress::~Progress() {
  if (shown_) put("");
}

void Progress::done(std::size_t count, std::optional<double> share) {
  if (shown_ && std::chrono::steady_clock::now() - last_ >= between_draws) draw(count, share);
}

void Progress::draw(std::size_t count, std::optional<double> share) {
  put(progress_line(count, whole_, share, things_));
  last_ = std::chrono::steady_clock::now();
}

}  // namespace sunstrain::cli
