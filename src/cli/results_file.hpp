// A crew's results: a table that several people's practice appends to, a row for each answer.
#pragma once

#include <string>
#include <vector>

namespace sunstrain::cli {

// Rows are appended whole: each with one write, while the file is locked against others that append (flock), and taken
// back where it does not fit on the disk. A new or empty file gets the columns' names first.
class ResultsFile {
 public:
  // Throws BadInput where the file cannot be opened, is none, or has other columns.
  ResultsFile(std::string path, std::vector<std::string> columns);
  ~ResultsFile();
  ResultsFile(const ResultsFile&) = delete;
  ResultsFile& operator=(const ResultsFile&) = delete;

  // Throws std::runtime_error where the row cannot be written; the file is then as it was.
  void append(const std::vector<std::string>& cells);

 private:
  std::string path_;
  std::vector<std::string> columns_;
  int file_ = -1;
};

}  // namespace sunstrain::cli
