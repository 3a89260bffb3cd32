// Ctrl-C as a question that long work asks between its pieces, in place of the end of the program.
#pragma once

namespace sunstrain::cli {

// While there is one, Ctrl-C ends no program: it is held back for this thread and those that it starts. A handler could
// tell it only by a global.
class CtrlC {
 public:
  CtrlC();
  ~CtrlC();
  CtrlC(const CtrlC&) = delete;
  CtrlC& operator=(const CtrlC&) = delete;

  bool pressed() const;
  // Ready to be read once it was pressed: for poll().
  int file() const { return file_; }

 private:
  int file_ = -1;
};

}  // namespace sunstrain::cli
