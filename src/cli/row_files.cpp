#include "row_files.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <poll.h>
#include <sys/stat.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <cstring>
#include <stdexcept>

#include "../io/job_words.hpp"
#include "../io/say.hpp"
#include "sunstrain/job.hpp"

namespace sunstrain::cli {
namespace {

// mkstemp makes files that nobody else may read; the finished one is an ordinary file, or as open as the one before it.
mode_t mode_for(const std::string& path) {
  struct stat before {};
  if (stat(path.c_str(), &before) == 0) return before.st_mode & 0777U;
  const mode_t mask = umask(0);
  umask(mask);
  return 0666U & ~mask;
}

}  // namespace

RowsIn::RowsIn(const std::string& path) : name_(path == "-" ? "standard input" : shown(path, longest_path)) {
  file_ = path == "-" ? STDIN_FILENO : open(path.c_str(), O_RDONLY | O_CLOEXEC);
  if (file_ < 0) refuse_file(path, say("cannot be opened: {}", std::strerror(errno)));
}

RowsIn::~RowsIn() {
  if (file_ > STDIN_FILENO) close(file_);
}

std::optional<double> RowsIn::size() const {
  struct stat there {};
  if (fstat(file_, &there) != 0 || !S_ISREG(there.st_mode) || there.st_size <= 0) return std::nullopt;
  return static_cast<double>(there.st_size);
}

std::size_t RowsIn::read(char* to, std::size_t size) {
  for (;;) {
    std::array<pollfd, 2> either{{{file_, POLLIN, 0}, {stop_.file(), POLLIN, 0}}};
    poll(either.data(), either.size(), -1);
    if (stopped()) return 0;
    const ssize_t got = ::read(file_, to, size);
    if (got >= 0) return static_cast<std::size_t>(got);
    if (errno != EINTR) refuse_file(name_, say("cannot be read: {}", std::strerror(errno)));
  }
}

RowsOut::RowsOut(std::string path) : path_(std::move(path)) {
  if (path_.empty()) {
    file_ = stdout;
    return;
  }
  struct stat there {};
  if (stat(path_.c_str(), &there) == 0 && !S_ISREG(there.st_mode))
    refuse_file(path_, "is no ordinary file; name another");
  unfinished_ = path_ + ".unfinished-XXXXXX";
  const int made = mkstemp(unfinished_.data());
  if (made < 0) {
    unfinished_.clear();
    refuse_file(path_, say("cannot be written: {}", std::strerror(errno)));
  }
  fchmod(made, mode_for(path_));
  file_ = fdopen(made, "wb");
}

RowsOut::~RowsOut() {
  if (path_.empty()) return;
  if (file_ != nullptr) std::fclose(file_);
  if (!unfinished_.empty()) unlink(unfinished_.c_str());
}

void RowsOut::write(const std::string& lines) {
  if (std::fwrite(lines.data(), 1, lines.size(), file_) != lines.size() || std::fflush(file_) != 0)
    throw std::runtime_error(fmt::format("the rows could not be written: {}", std::strerror(errno)));
}

void RowsOut::finish() {
  if (path_.empty()) return;
  const bool written = fsync(fileno(file_)) == 0;
  const bool closed = std::fclose(file_) == 0;
  file_ = nullptr;
  if (!written || !closed || std::rename(unfinished_.c_str(), path_.c_str()) != 0)
    throw std::runtime_error(fmt::format("{} could not be written: {}", path_, std::strerror(errno)));
  unfinished_.clear();
}

}  // namespace sunstrain::cli
