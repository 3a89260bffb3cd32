// The two ends of a stream of rows: where its bytes come from, and a place for its lines that never holds half of them.
#pragma once

#include <cstddef>
#include <cstdio>
#include <string>

#include "held_stop.hpp"

namespace sunstrain::cli {

// A file, or standard input for "-". While there is one, Ctrl-C ends no program but the rows: it is held back for this
// thread and those that it starts. Throws BadInput when it cannot be opened or read.
class RowsIn {
 public:
  explicit RowsIn(const std::string& path);
  ~RowsIn();
  RowsIn(const RowsIn&) = delete;
  RowsIn& operator=(const RowsIn&) = delete;

  const std::string& name() const { return name_; }
  // What has come so far, at most `size` bytes; waits for the first. 0: the end, or Ctrl-C.
  std::size_t read(char* to, std::size_t size);
  // Whether Ctrl-C was pressed.
  bool stopped() const { return stop_.pressed(); }

 private:
  std::string name_;
  int file_ = -1;
  HeldStop stop_;
};

// Standard output, or a file that appears under its name only when all of it is written. Throws BadInput when it
// cannot be made, std::runtime_error when it cannot be written.
class RowsOut {
 public:
  explicit RowsOut(std::string path);  // empty: standard output
  ~RowsOut();
  RowsOut(const RowsOut&) = delete;
  RowsOut& operator=(const RowsOut&) = delete;

  // Whole lines, handed on at once: whoever reads along sees no half row.
  void write(const std::string& lines);
  // The file takes its name.
  void finish();

 private:
  std::string path_, unfinished_;
  std::FILE* file_ = nullptr;
};

}  // namespace sunstrain::cli
