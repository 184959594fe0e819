#include "cli/import/progress.h"

#include <fmt/format.h>
#include <unistd.h>

#include <csignal>
#include <ostream>

namespace cli {
namespace {

volatile std::sig_atomic_t g_interrupted = 0;
struct sigaction g_before;

void note(int) {
  g_interrupted = 1;
}

std::string time_words(double seconds) {
  if (seconds < 90) return fmt::format("{:.0f} s", seconds);
  return fmt::format("{:.0f} min", seconds / 60);
}

}  // namespace

Interruptible::Interruptible() {
  g_interrupted = 0;
  struct sigaction action {};
  action.sa_handler = note;
  sigemptyset(&action.sa_mask);
  sigaction(SIGINT, &action, &g_before);
}

Interruptible::~Interruptible() {
  sigaction(SIGINT, &g_before, nullptr);
}

bool Interruptible::interrupted() {
  return g_interrupted != 0;
}

ProgressLine::ProgressLine(std::ostream& err, std::optional<std::uint64_t> bytes)
    : err_(err),
      bytes_(bytes),
      on_terminal_(isatty(STDERR_FILENO) == 1),
      begun_(std::chrono::steady_clock::now()),
      shown_at_(begun_) {}

void ProgressLine::update(std::uint64_t rows, std::uint64_t bytes) {
  const auto now = std::chrono::steady_clock::now();
  if (!on_terminal_ || now - shown_at_ < std::chrono::milliseconds{250}) return;
  shown_at_ = now;
  shown_ = true;
  const double seconds = std::chrono::duration<double>(now - begun_).count();
  std::string left;
  if (bytes_ && bytes > 0 && *bytes_ > bytes) {
    const double rest = static_cast<double>(*bytes_ - bytes) / static_cast<double>(bytes);
    left = ", " + time_words(seconds * rest) + " left";
  }
  err_ << fmt::format("\r\033[K{} rows, {:.0f} a second{}", rows,
                      static_cast<double>(rows) / seconds, left)
       << std::flush;
}

void ProgressLine::clear() {
  if (shown_) err_ << "\r\033[K" << std::flush;
  shown_ = false;
}

}  // namespace cli
