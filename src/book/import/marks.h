#pragma once

#include <cstdint>
#include <optional>
#include <string_view>

namespace book {

// Why a recorded value stays out of what is judged.
enum class Mark : std::uint8_t { kNone, kImplausible, kStuck, kJump };
std::string_view word(Mark mark);  // "implausible"; empty: none

// The rule, for the values of one series in the order of their moments (common practice; base
// units): implausible: outside the range that the kind gives the quantity; stuck: the same number,
// to the last digit, for a day and a dozen readings: what follows, until it changes; jump: further
// from the last unmarked value than the kind's change in an hour for every hour since then, one
// hour at the least, so that a probe that was moved is believed again by and by. The last two hold
// only for quantities of which the kind says how fast they can change, stuck only for such as never
// stand still.
class Marker {
 public:
  Marker(double least, double greatest, double hourly_change, bool stands_still = false)
      : least_(least),
        greatest_(greatest),
        hourly_change_(hourly_change),
        stands_still_(stands_still) {}

  // What the logbook has before the first value: the last unmarked value; and the values just
  // before, latest first, until one of them says "enough" (false).
  void begin(std::optional<std::int64_t> last_at, double last_value);
  bool seed_run(std::int64_t at, double value);

  Mark judge(std::int64_t at, double value);

 private:
  bool stuck_at(std::int64_t at) const;

  double least_, greatest_, hourly_change_;
  bool stands_still_;
  std::optional<std::int64_t> last_at_;  // of the last unmarked value
  double last_ = 0;
  double run_value_ = 0;
  std::int64_t run_since_ = 0;
  int run_length_ = 0;            // 0: no value yet
  std::int64_t seeded_from_ = 0;  // the latest of what the logbook has
};

}  // namespace book
