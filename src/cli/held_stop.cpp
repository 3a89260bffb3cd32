#include "held_stop.hpp"

#include <fmt/format.h>
#include <poll.h>
#include <sys/signalfd.h>
#include <unistd.h>

#include <cerrno>
#include <csignal>
#include <cstring>
#include <stdexcept>

namespace sunstrain::cli {

HeldStop::HeldStop() {
  sigset_t stop;
  sigemptyset(&stop);
  sigaddset(&stop, SIGINT);
  pthread_sigmask(SIG_BLOCK, &stop, nullptr);
  file_ = signalfd(-1, &stop, SFD_CLOEXEC | SFD_NONBLOCK);
  if (file_ < 0) throw std::runtime_error(fmt::format("Ctrl-C cannot be held back: {}", std::strerror(errno)));
}

HeldStop::~HeldStop() { close(file_); }

bool HeldStop::pressed() const {
  pollfd stop{file_, POLLIN, 0};
  return poll(&stop, 1, 0) == 1;
}

}  // namespace sunstrain::cli
