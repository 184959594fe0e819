#pragma once

#include <chrono>
#include <cstdint>
#include <iosfwd>
#include <optional>

namespace cli {

// While it lives, Ctrl-C sets a flag instead of ending the program, so that an import can stop and
// leave nothing behind.
class Interruptible {
 public:
  Interruptible();
  ~Interruptible();
  Interruptible(const Interruptible&) = delete;
  Interruptible& operator=(const Interruptible&) = delete;
  static bool interrupted();
};

// A line on the terminal that says how far a long read is: rows, rows a second, time left. Nothing
// where the error stream is no terminal.
class ProgressLine {
 public:
  // `bytes`: how many there are to read, where that is known.
  ProgressLine(std::ostream& err, std::optional<std::uint64_t> bytes);
  void update(std::uint64_t rows, std::uint64_t bytes);
  void clear();

 private:
  std::ostream& err_;
  std::optional<std::uint64_t> bytes_;
  bool on_terminal_;
  bool shown_ = false;
  std::chrono::steady_clock::time_point begun_, shown_at_;
};

}  // namespace cli
