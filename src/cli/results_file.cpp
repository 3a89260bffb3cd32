#include "results_file.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>
#include <stdexcept>

#include "../io/job_words.hpp"
#include "../io/say.hpp"
#include "sunstrain/io/csv_rows.hpp"
#include "sunstrain/job.hpp"

namespace sunstrain::cli {
namespace {

constexpr char separator = ',';
constexpr const char* line_end = "\n";

// Held until the end of its scope.
class Lock {
 public:
  Lock(int file, const std::string& path) : file_(file) {
    while (flock(file_, LOCK_EX) != 0)
      if (errno != EINTR) refuse_file(path, say("cannot be locked: {}", std::strerror(errno)));
  }
  ~Lock() { flock(file_, LOCK_UN); }
  Lock(const Lock&) = delete;
  Lock& operator=(const Lock&) = delete;

 private:
  int file_;
};

off_t size_of(int file) {
  struct stat there {};
  return fstat(file, &there) == 0 ? there.st_size : 0;
}

bool is_file(int file) {
  struct stat there {};
  return fstat(file, &there) == 0 && S_ISREG(there.st_mode);
}

bool ends_in_line(int file, off_t size) {
  char last = '\n';
  return size == 0 || (pread(file, &last, 1, size - 1) == 1 && last == '\n');
}

// A spreadsheet may have saved it with its own line ends, and a mark before it.
bool has_columns(int file, const std::vector<std::string>& columns) {
  std::string start(4096, '\0');
  const ssize_t got = pread(file, start.data(), start.size(), 0);
  start.resize(got > 0 ? static_cast<std::size_t>(got) : 0);
  if (start.starts_with("\xEF\xBB\xBF")) start.erase(0, 3);
  const std::string first = start.substr(0, start.find_first_of("\r\n"));
  return first + line_end == csv_line(columns, separator, line_end);
}

}  // namespace

ResultsFile::ResultsFile(std::string path, std::vector<std::string> columns)
    : path_(std::move(path)), columns_(std::move(columns)) {
  if (path_.empty()) refuse_file(path_, "--results: is empty; name a file");
  file_ = open(path_.c_str(), O_RDWR | O_CREAT | O_APPEND | O_CLOEXEC | O_NONBLOCK, 0666);
  if (file_ < 0) refuse_file(path_, say("cannot be opened: {}", std::strerror(errno)));
  std::optional<Saying> wrong;
  if (!is_file(file_))
    wrong = Saying("is no ordinary file; name another");
  else if (const Lock lock(file_, path_); size_of(file_) > 0 && !has_columns(file_, columns_))
    wrong = say("has other columns than {}; name another file", joined(columns_));
  if (!wrong) return;
  close(file_);
  refuse_file(path_, *wrong);
}

ResultsFile::~ResultsFile() { close(file_); }

void ResultsFile::append(const std::vector<std::string>& cells) {
  const Lock lock(file_, path_);
  const off_t before = size_of(file_);
  std::string text = ends_in_line(file_, before) ? "" : line_end;
  if (before == 0) text += csv_line(columns_, separator, line_end);
  text += csv_line(cells, separator, line_end);
  errno = 0;
  const ssize_t written = write(file_, text.data(), text.size());
  if (written == static_cast<ssize_t>(text.size())) return;
  const int why = errno;
  if (ftruncate(file_, before) != 0)
    throw std::runtime_error(fmt::format("{} holds half a row at its end", shown(path_, longest_path)));
  throw std::runtime_error(fmt::format("{} could not be written: {}", shown(path_, longest_path),
                                       why == 0 ? "disk full" : std::strerror(why)));
}

}  // namespace sunstrain::cli
