#include "cli/desk/calendar_entries.h"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <map>

#include "cli/desk/morning.h"
#include "measure/text.h"

namespace cli {
namespace {

using measure::Day;
using render::CalendarEntry;

// "tern-hollow"
std::string slug(const std::string& name) {
  std::string made;
  for (const char c : measure::folded(name)) {
    const bool plain = (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9');
    if (plain) {
      made += c;
    } else if (!made.empty() && made.back() != '-') {
      made += '-';
    }
  }
  while (!made.empty() && made.back() == '-') made.pop_back();
  return made.empty() ? "site" : made;
}

class Entries {
 public:
  explicit Entries(const Desk& desk) : desk_(desk), site_(slug(desk.site().name)) {
    for (const model::Batch& one : desk.open_batches()) runs_[one.code] = one.run;
  }

  // What waits today.
  void add_job(const season::Job& job) {
    const bool now = job.slot == season::Slot::kNow;
    if (job.batch.empty() || !season::wants_hands(job.slot)) return;
    CalendarEntry entry = of_finding(job.lead(), desk_.today());
    entry.description = described(job.findings);
    if (now) {
      constexpr std::chrono::minutes kQuarter{15};
      entry.at = date::floor<std::chrono::minutes>(desk_.now());
      entry.at = *entry.at + kQuarter - entry.at->time_since_epoch() % kQuarter;
      entry.alarm = true;
    }
    made_.push_back(std::move(entry));
  }

  void add_due(const season::FallsDue& one) {
    CalendarEntry entry = of_finding(one.finding, one.day);
    entry.description = described({one.finding});
    entry.alarm = one.finding.urgency == model::Urgency::kNow;
    made_.push_back(std::move(entry));
  }

  // Those of one rhythm and one day together.
  void add_rounds(std::string_view verb, const std::vector<season::Repeated>& all) {
    std::map<std::vector<Day>, std::vector<const season::Repeated*>> together;
    for (const season::Repeated& one : all) together[one.days].push_back(&one);
    for (const auto& [days, of] : together) {
      std::vector<std::string> codes;
      for (const season::Repeated* one : of) codes.push_back(one->batch);
      // Of several by their rhythm and on which of its days they fall: two rounds of every second
      // day may alternate.
      const int every = of.front()->every;
      const std::string uid =
          of.size() == 1 ? uid_of(codes.front(), verb)
                         : fmt::format("{}.{}.{}@{}.roundbook", slug(std::string(verb)), every,
                                       days.front().time_since_epoch().count() % every, site_);
      made_.push_back({uid,
                       fmt::format("{} {}", verb, measure::joined(codes, ", ")),
                       "",
                       days.front(),
                       every,
                       static_cast<int>(days.size()),
                       {},
                       false});
    }
  }

  void add_foretold(const season::Foretold& one) {
    const Day day = one.forecast.likely.value_or(one.day);
    made_.push_back({uid_of(one.batch, one.forecast.what),
                     fmt::format("{}: {}", one.batch, foretold_words(one, desk_.today())),
                     one.forecast.says,
                     day,
                     0,
                     1,
                     {},
                     false});
  }

  // The day on which it may be done again.
  void add_held(const model::Told& one) {
    if (!one.due) return;
    CalendarEntry entry = of_finding(one, *one.due);
    entry.summary = fmt::format("{}: {} not before today", one.batch, tag_of(one));
    entry.description = described({one});
    made_.push_back(std::move(entry));
  }

  std::vector<CalendarEntry> made() && { return std::move(made_); }

 private:
  std::string uid_of(const std::string& code, std::string_view what) const {
    const auto run = runs_.find(code);
    return fmt::format("{}.{}.{}@{}.roundbook", code, run == runs_.end() ? 1 : run->second,
                       slug(std::string(what)), site_);
  }

  CalendarEntry of_finding(const model::Told& finding, Day day) const {
    return {uid_of(finding.batch, finding.rule),
            fmt::format("{}: {}", finding.batch, line_of(finding)),
            "",
            day,
            0,
            1,
            {},
            false};
  }

  static std::string described(const std::vector<model::Told>& findings) {
    std::string text;
    std::string cautions;
    for (const model::Told& one : findings) {
      const auto add = [&](const std::string& more) {
        if (!more.empty()) text += (text.empty() ? "" : "\n") + more;
      };
      add(one.words.says);
      add(one.words.action);
      const std::string minds = model::full_text(one);
      if (!minds.empty() && cautions.find(minds) == std::string::npos) cautions += "\n" + minds;
    }
    return text + cautions;
  }

  const Desk& desk_;
  std::string site_;
  std::map<std::string, int> runs_;
  std::vector<CalendarEntry> made_;
};

}  // namespace

std::vector<CalendarEntry> calendar_entries(const Desk& desk, const season::Ahead& ahead) {
  Entries entries(desk);
  for (const season::Job& one : ahead.morning.jobs) entries.add_job(one);
  for (const season::FallsDue& one : ahead.due) entries.add_due(one);
  entries.add_rounds("read", ahead.readings);
  entries.add_rounds("look at", ahead.looks);
  entries.add_rounds("feed", ahead.feedings);
  for (const season::Foretold& one : ahead.foretold) entries.add_foretold(one);
  for (const model::Told& one : ahead.held) entries.add_held(one);
  return std::move(entries).made();
}

}  // namespace cli
