#include "pdf.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <csignal>
#include <cstdlib>
#include <cstring>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <stdexcept>
#include <vector>

#include "../io/job_words.hpp"
#include "sunstrain/job.hpp"

extern char** environ;

namespace sunstrain::cli {
namespace {

namespace fs = std::filesystem;

constexpr const char* renderer = "weasyprint";

[[noreturn]] void refuse_missing() {
  throw BadInput(
      "report: a PDF needs weasyprint, which is not installed (Debian: apt-get install weasyprint); -o FILE.html needs "
      "nothing");
}

// A directory that nobody else may look into, gone with all of it at the end of its scope.
class PrivateDirectory {
 public:
  PrivateDirectory() {
    std::string name = (fs::temp_directory_path() / "sunstrain-XXXXXX").string();
    if (mkdtemp(name.data()) == nullptr)
      throw std::runtime_error(fmt::format("no private directory could be made in {}: {}",
                                           fs::temp_directory_path().string(), std::strerror(errno)));
    path_ = name;
  }
  ~PrivateDirectory() {
    std::error_code error;
    fs::remove_all(path_, error);
  }
  PrivateDirectory(const PrivateDirectory&) = delete;
  PrivateDirectory& operator=(const PrivateDirectory&) = delete;
  std::string file(const char* name) const { return (path_ / name).string(); }

 private:
  fs::path path_;
};

void write_file(const std::string& path, const std::string& text) {
  std::ofstream out(path, std::ios::binary);
  out.write(text.data(), static_cast<std::streamsize>(text.size()));
  out.close();
  if (!out) throw std::runtime_error(fmt::format("{} could not be written", path));
}

std::string read_file(const std::string& path) {
  std::ifstream in(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

// Starts the program with nothing on its standard input and what it says in a file; how it ended, as waitpid has it.
int run(const std::vector<std::string>& words, const std::string& said) {
  std::vector<char*> arguments;
  for (const std::string& word : words) arguments.push_back(const_cast<char*>(word.c_str()));
  arguments.push_back(nullptr);
  posix_spawn_file_actions_t actions;
  posix_spawn_file_actions_init(&actions);
  posix_spawn_file_actions_addopen(&actions, STDIN_FILENO, "/dev/null", O_RDONLY, 0);
  posix_spawn_file_actions_addopen(&actions, STDOUT_FILENO, said.c_str(), O_WRONLY | O_CREAT | O_APPEND, 0600);
  posix_spawn_file_actions_adddup2(&actions, STDOUT_FILENO, STDERR_FILENO);
  // Ctrl-C, which this program may hold back, ends the other one.
  posix_spawnattr_t attributes;
  sigset_t none;
  sigemptyset(&none);
  posix_spawnattr_init(&attributes);
  posix_spawnattr_setsigmask(&attributes, &none);
  posix_spawnattr_setflags(&attributes, POSIX_SPAWN_SETSIGMASK);
  pid_t child = 0;
  const int error = posix_spawnp(&child, words.front().c_str(), &actions, &attributes, arguments.data(), environ);
  posix_spawnattr_destroy(&attributes);
  posix_spawn_file_actions_destroy(&actions);
  if (error == ENOENT) refuse_missing();
  if (error != 0)
    throw std::runtime_error(fmt::format("{} could not be started: {}", words.front(), std::strerror(error)));
  int status = 0;
  while (waitpid(child, &status, 0) < 0)
    if (errno != EINTR) throw std::runtime_error(fmt::format("{} was lost: {}", words.front(), std::strerror(errno)));
  return status;
}

}  // namespace

void require_pdf_renderer() {
  const char* path = std::getenv("PATH");
  std::string directories = path == nullptr ? "/usr/local/bin:/usr/bin:/bin" : path;
  for (std::size_t from = 0; from <= directories.size();) {
    const std::size_t to = std::min(directories.find(':', from), directories.size());
    const std::string directory = directories.substr(from, to - from);
    if (access(((directory.empty() ? "." : directory) + "/" + renderer).c_str(), X_OK) == 0) return;
    from = to + 1;
  }
  refuse_missing();
}

std::string pdf_of(const std::string& html) {
  const PrivateDirectory directory;
  const std::string from = directory.file("sheet.html"), to = directory.file("sheet.pdf"),
                    said = directory.file("said");
  write_file(from, html);
  const int status = run({renderer, "--encoding", "utf-8", from, to}, said);
  const std::string pdf = read_file(to);
  if (WIFEXITED(status) && WEXITSTATUS(status) == 0 && pdf.starts_with("%PDF-")) return pdf;
  const std::string words = read_file(said),
                    last = words.substr(words.find_last_of('\n', words.size() < 2 ? 0 : words.size() - 2) + 1);
  throw std::runtime_error(fmt::format("weasyprint made no PDF: {}", shown(trimmed(last), 200)));
}

}  // namespace sunstrain::cli
