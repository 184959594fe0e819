#include "season/morning.h"

#include <algorithm>
#include <utility>

namespace season {
namespace {

Slot slot_of(const model::Told& finding) {
  if (finding.hold) return Slot::kHold;
  switch (finding.urgency) {
    case model::Urgency::kNow:
      return Slot::kNow;
    case model::Urgency::kToday:
      return Slot::kToday;
    case model::Urgency::kSoon:
      return Slot::kSoon;
    case model::Urgency::kReady:
      return Slot::kReady;
  }
  return Slot::kToday;
}

int danger_rank(model::Hazard hazard) {
  return hurts_at_once(hazard) ? 0 : 1;
}

int danger_rank(const Job& job) {
  return job.hurts() ? 0 : 1;
}

bool is_put_off(const Job& job, const std::vector<PutOff>& put_off, measure::Day today) {
  // What is held back is no work that could wait.
  if (job.slot == Slot::kNow || job.slot == Slot::kHold) return false;
  return std::all_of(job.findings.begin(), job.findings.end(), [&](const model::Told& finding) {
    return std::any_of(put_off.begin(), put_off.end(), [&](const PutOff& one) {
      return one.batch == finding.batch && one.until > today &&
             (one.rule.empty() || one.rule == finding.rule);
    });
  });
}

// Whoever works on a batch looks at it too: that it was not looked at is no job of its own then.
// And what it has to give waits until it was looked at or made safe.
void join_silence(std::vector<Job>& jobs) {
  const auto silent =
      std::find_if(jobs.begin(), jobs.end(), [](const Job& job) { return job.lead().silence; });
  const bool is_silent = silent != jobs.end();
  const bool unsafe = std::any_of(jobs.begin(), jobs.end(), [](const Job& job) {
    return wants_hands(job.slot) && job.hurts();
  });
  for (Job& job : jobs) job.waits = job.slot == Slot::kReady && (is_silent || unsafe);
  const auto work = std::find_if(jobs.begin(), jobs.end(), [](const Job& job) {
    return wants_hands(job.slot) && !job.lead().silence;
  });
  if (!is_silent || work == jobs.end()) return;
  work->findings.push_back(silent->lead());
  jobs.erase(silent);
}

// The findings of one batch, those of one job together. A finding without a job is its own.
std::vector<Job> jobs_of(const LookedAt& batch) {
  std::vector<Job> jobs;
  for (const model::Told& finding : batch.now) {
    const auto same = std::find_if(jobs.begin(), jobs.end(), [&](const Job& job) {
      return !finding.job.empty() && job.lead().job == finding.job && !finding.hold &&
             !job.lead().hold;
    });
    if (same != jobs.end()) {
      same->findings.push_back(finding);
      continue;
    }
    jobs.push_back(
        {0, batch.batch, slot_of(finding), {finding}, !was_there(finding, batch.yesterday)});
  }
  return jobs;
}

// Those that only want a look, of several batches, are one round; it comes after all other work of
// the day.
void make_round(std::vector<Job>& jobs) {
  const auto is_look = [](const Job& job) { return job.lead().silence && wants_hands(job.slot); };
  if (std::count_if(jobs.begin(), jobs.end(), is_look) < 2) return;
  Job round{0, "", Slot::kToday, {}, true};
  for (const Job& job : jobs) {
    if (!is_look(job)) continue;
    round.findings.insert(round.findings.end(), job.findings.begin(), job.findings.end());
    round.is_new = round.is_new && job.is_new;
  }
  std::erase_if(jobs, is_look);
  jobs.push_back(std::move(round));
}

}  // namespace

bool wants_hands(Slot slot) {
  return slot == Slot::kNow || slot == Slot::kToday;
}
bool wants_hands(const model::Finding& finding) {
  return finding.urgency == model::Urgency::kNow || finding.urgency == model::Urgency::kToday;
}

bool hurts_at_once(model::Hazard hazard) {
  switch (hazard) {
    case model::Hazard::kGas:
    case model::Hazard::kFire:
    case model::Hazard::kCarbonMonoxide:
    case model::Hazard::kPressure:
      return true;
    case model::Hazard::kElectric:
    case model::Hazard::kHeight:
    case model::Hazard::kGerms:
    case model::Hazard::kBitesAndDust:
    case model::Hazard::kDrinking:
      return false;
  }
  return true;
}

bool was_there(const model::Told& finding, const std::vector<model::Told>& before) {
  return std::any_of(before.begin(), before.end(), [&](const model::Told& one) {
    return one.rule == finding.rule && one.urgency <= finding.urgency;
  });
}

bool Job::hurts() const {
  return std::any_of(findings.begin(), findings.end(), [](const model::Told& one) {
    return std::any_of(one.cautions.begin(), one.cautions.end(), [](const model::Caution* caution) {
      return hurts_at_once(caution->hazard);
    });
  });
}

std::vector<const model::Caution*> Job::cautions() const {
  std::vector<const model::Caution*> all;
  for (const model::Told& one : findings) {
    for (const model::Caution* caution : one.cautions) {
      if (std::find(all.begin(), all.end(), caution) == all.end()) all.push_back(caution);
    }
  }
  std::stable_sort(all.begin(), all.end(), [](const auto* a, const auto* b) {
    return danger_rank(a->hazard) < danger_rank(b->hazard);
  });
  return all;
}

int Morning::count(Slot slot) const {
  return static_cast<int>(
      std::count_if(jobs.begin(), jobs.end(), [&](const Job& job) { return job.slot == slot; }));
}

int Morning::count_new() const {
  return static_cast<int>(std::count_if(jobs.begin(), jobs.end(), [](const Job& job) {
    return job.is_new && wants_hands(job.slot);
  }));
}

Morning morning_of(const std::vector<LookedAt>& batches, const std::vector<PutOff>& put_off,
                   measure::Day today) {
  Morning morning;
  for (const LookedAt& batch : batches) {
    ++morning.looked_at;
    if (batch.now.empty()) (batch.was_read ? morning.well : morning.unread).push_back(batch);
    std::vector<Job> jobs;
    for (Job& job : jobs_of(batch)) {
      (is_put_off(job, put_off, today) ? morning.put_off : jobs).push_back(std::move(job));
    }
    join_silence(jobs);
    morning.jobs.insert(morning.jobs.end(), jobs.begin(), jobs.end());
  }
  make_round(morning.jobs);
  // Within one slot and one rank of danger the walking order stays.
  std::stable_sort(morning.jobs.begin(), morning.jobs.end(), [](const Job& a, const Job& b) {
    return std::pair(a.slot, wants_hands(a.slot) ? danger_rank(a) : 0) <
           std::pair(b.slot, wants_hands(b.slot) ? danger_rank(b) : 0);
  });
  int number = 0;
  for (Job& job : morning.jobs) {
    if (wants_hands(job.slot)) job.number = ++number;
  }
  return morning;
}

}  // namespace season
