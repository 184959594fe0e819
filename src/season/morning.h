#pragma once

#include <optional>
#include <string>
#include <vector>

#include "model/finding.h"

// The jobs of one morning, over all batches: what one pair of hands does at once is one job.
namespace season {

// A batch that was looked at, in walking order.
struct LookedAt {
  std::string batch;
  std::vector<model::Told> now;  // its findings, most urgent first
  std::vector<model::Told>
      yesterday;         // those it had a day earlier, at this hour; only where it has any now
  std::string well;      // what is said of it where it has none
  bool was_read = true;  // else nobody knows whether it is well
};

enum class Slot { kNow, kToday, kSoon, kReady, kHold };

// A finding of a job that was put off until a day.
struct PutOff {
  std::string batch;
  std::string rule;  // empty: whatever the batch wants
  measure::Day until;
};

// Whether it has a line of its own: now or today.
bool wants_hands(Slot slot);
bool wants_hands(const model::Finding& finding);

struct Job {
  int number{};       // 1 is the first; `why` takes it. 0: it stands in a folded line
  std::string batch;  // empty: a round with the thermometer and the eyes over several
  Slot slot{};
  std::vector<model::Told> findings;  // the leading one first
  bool is_new = false;                // not there yesterday at this hour, or not as urgent
  // Something to gain of a batch that wants to be looked at or made safe first: not told yet.
  bool waits = false;

  const model::Told& lead() const { return findings.front(); }
  // Of all its findings, each once, what can kill first.
  std::vector<const model::Caution*> cautions() const;
  // Whether one of them is for what hurts at once.
  bool hurts() const;
};

struct Morning {
  std::vector<Job> jobs;         // in the order in which they are to be read
  std::vector<Job> put_off;      // left out of the jobs
  std::vector<LookedAt> well;    // the batches that were read and have no job, in walking order
  std::vector<LookedAt> unread;  // without a job, as nobody has read them yet
  int looked_at = 0;

  int count(Slot slot) const;
  int count_new() const;  // of those that have a line of their own
};

// Gas, fire, carbon monoxide and pressure hurt at once; germs and the rest by and by.
bool hurts_at_once(model::Hazard hazard);

// Whether the findings of before had it already, as urgent or more.
bool was_there(const model::Told& finding, const std::vector<model::Told>& before);

// What can hurt someone stands above what can spoil; then what harms if it waits; then the walking
// order. What is NOW or held back cannot be put off.
Morning morning_of(const std::vector<LookedAt>& batches, const std::vector<PutOff>& put_off,
                   measure::Day today);

}  // namespace season
