#include "book/import/marks.h"

#include <algorithm>
#include <cmath>

namespace book {
namespace {

constexpr std::int64_t kStuckSeconds = 86400;
constexpr int kStuckReadings = 12;

}  // namespace

std::string_view word(Mark mark) {
  switch (mark) {
    case Mark::kNone:
      return "";
    case Mark::kImplausible:
      return "implausible";
    case Mark::kStuck:
      return "stuck";
    case Mark::kJump:
      return "jump";
  }
  return "";
}

void Marker::begin(std::optional<std::int64_t> last_at, double last_value) {
  last_at_ = last_at;
  last_ = last_value;
  run_length_ = 0;
}

bool Marker::stuck_at(std::int64_t at) const {
  return run_length_ > kStuckReadings && at - run_since_ >= kStuckSeconds;
}

bool Marker::seed_run(std::int64_t at, double value) {
  if (hourly_change_ <= 0 || stands_still_ || (run_length_ > 0 && value != run_value_))
    return false;
  if (run_length_ == 0) seeded_from_ = at;
  run_value_ = value;
  run_since_ = at;
  ++run_length_;
  return run_length_ < kStuckReadings || seeded_from_ - at < kStuckSeconds;
}

Mark Marker::judge(std::int64_t at, double value) {
  if (run_length_ > 0 && value == run_value_) {
    ++run_length_;
  } else {
    run_value_ = value;
    run_since_ = at;
    run_length_ = 1;
  }
  if (value < least_ || value > greatest_) return Mark::kImplausible;
  if (hourly_change_ > 0) {
    if (!stands_still_ && stuck_at(at)) return Mark::kStuck;
    if (last_at_) {
      const double hours = std::max(static_cast<double>(at - *last_at_) / 3600, 1.0);
      if (std::fabs(value - last_) > hourly_change_ * hours) return Mark::kJump;
    }
  }
  last_at_ = at;
  last_ = value;
  return Mark::kNone;
}

}  // namespace book
