// Ctrl-C held back: it ends no program, but whoever asks learns of it.
#pragma once

namespace sunstrain::cli {

// For this thread and those that it starts, from here to the end of the program. A handler could tell of it only by a
// global.
class HeldStop {
 public:
  HeldStop();
  ~HeldStop();
  HeldStop(const HeldStop&) = delete;
  HeldStop& operator=(const HeldStop&) = delete;

  bool pressed() const;
  int file() const { return file_; }  // becomes readable with it

 private:
  int file_;
};

}  // namespace sunstrain::cli
