#include "kinds/burn/course.h"

#include <algorithm>
#include <array>

#include "kinds/burn/vocabulary.h"
#include "kinds/finding.h"
#include "model/material_groups.h"

namespace kinds::burn {
namespace {

namespace group = model::group;

// Groups of the catalogue that load char with nutrients. Manure is one, and burns too: the fire
// between tells which it was.
constexpr std::array kChargers{group::kCompost, group::kBrew, group::kEffluent, group::kFrass,
                               group::kManure};
constexpr std::array kNeverBurnt{group::kCompost, group::kBrew,  group::kEffluent,
                                 group::kFrass,   group::kWater, group::kMineral};

template <class Groups>
bool in_group(const model::Movement& movement, const Groups& groups) {
  return std::find(groups.begin(), groups.end(), movement.material.group) != groups.end();
}

void take_earlier(std::optional<Charge>& first, Charge next) {
  if (!first || next.at < first->at) first = std::move(next);
}

void find_charge(const model::History& history, Course& course) {
  const auto fire = course.lit ? course.lit : course.quenched;
  for (const model::Deed& deed : history.deeds) {
    if (deed.word == kCharged.word && (!fire || deed.at >= *fire)) {
      take_earlier(course.charge, {deed.at, deed.day, ""});
    }
  }
  // Without a fire in the records nobody knows whether what went in charges char.
  if (!fire) return;
  for (const model::Movement& movement : history.in) {
    if (movement.at < *fire || !in_group(movement, kChargers)) continue;
    if (is_feedstock(movement, course)) continue;
    take_earlier(course.charge, {movement.at, movement.day, movement.material.name});
    const bool raw = movement.material.is(kFlagManure) && !movement.material.is(kFlagTreated);
    course.raw_manure = course.raw_manure || raw;
  }
}

}  // namespace

Course course_of(const model::History& history) {
  Course course;
  if (const model::Deed* lit = history.last_deed(kLit)) course.lit = lit->at;
  const model::Deed* quenched = history.last_deed(kQuenched);
  if (quenched != nullptr && (!course.lit || quenched->at >= *course.lit)) {
    course.quenched = quenched->at;
  }
  find_charge(history, course);
  for (const model::Deed& deed : history.deeds) {
    if (deed.word == kOpened.word || deed.word == kCrushed.word) course.opened = deed.at;
  }
  return course;
}

bool is_char(const model::Movement& movement) {
  return movement.material.group == group::kChar;
}

const model::Movement* came_back(const model::History& history, const model::Movement& out) {
  if (out.to.empty()) return nullptr;
  for (const model::Movement& in : history.in) {
    if (is_char(in) && in.from == out.to && in.at >= out.at) return &in;
  }
  return nullptr;
}

bool is_feedstock(const model::Movement& movement, const Course& course) {
  if (is_char(movement) || in_group(movement, kNeverBurnt)) return false;
  return !course.quenched || movement.at < *course.quenched;
}

std::optional<int> days_charged(const Course& course, model::Day by) {
  if (!course.charge || by < course.charge->day) return std::nullopt;
  return days_between(course.charge->day, by);
}

double hours_between(model::Instant from, model::Instant to) {
  return std::chrono::duration<double, std::ratio<3600>>(to - from).count();
}

Method method_of(const model::Batch& batch) {
  const std::string told = batch.text(kMethod, "");
  if (told.empty()) return Method::kUnsaid;
  if (told == kOfRetort) return Method::kRetort;
  if (told == kOfMound) return Method::kMound;
  return told == kOfGasifier ? Method::kGasifier : Method::kOpen;
}

}  // namespace kinds::burn
