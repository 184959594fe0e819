#pragma once

#include <optional>
#include <string>

#include "model/history.h"
#include "model/rules.h"

// How far a burn has come: what was lit, quenched and charged, and when.
namespace kinds::burn {

// What the char was put into to load it with nutrients, here at the burn.
struct Charge {
  model::Instant at;
  model::Day day;
  std::string with;  // the material; empty: a deed without one
};

struct Course {
  std::optional<model::Instant> lit;       // the last lighting
  std::optional<model::Instant> quenched;  // the last quench, none where it was lit again since
  std::optional<Charge> charge;            // the first after the fire
  bool raw_manure = false;                 // among what the char was charged with
  // Or crushed: there was a fire, whatever was logged of it.
  std::optional<model::Instant> opened;

  bool had_fire() const { return lit || quenched || opened; }
  // From when its embers are watched: its quench; of a kiln that was opened without a fire on
  // record, its opening. None: nothing burnt, or it burns.
  std::optional<model::Instant> watched_from() const {
    if (quenched || lit) return quenched;
    return opened;
  }
};

// How it is burnt. Another that is burnt openly from the top, or none that was told: kOpen,
// kUnsaid.
enum class Method { kUnsaid, kOpen, kRetort, kMound, kGasifier };
Method method_of(const model::Batch& batch);

Course course_of(const model::History& history);

// Whether a movement is char, of any sort.
bool is_char(const model::Movement& movement);
// Char of this burn that came back from where it was charged: the movement in that answers one out;
// null: it has not come back.
const model::Movement* came_back(const model::History& history, const model::Movement& out);
// Whether what went in is feedstock for the fire, not what quenched or charged the char.
bool is_feedstock(const model::Movement& movement, const Course& course);

// Days that the char here had charged by a day.
std::optional<int> days_charged(const Course& course, model::Day by);

double hours_between(model::Instant from, model::Instant to);

}  // namespace kinds::burn
