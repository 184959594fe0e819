#include "kinds/bed/wait.h"

#include <cmath>

#include "kinds/thresholds.h"
#include "kinds/finding.h"

namespace kinds::bed {
namespace {

namespace limits = thresholds::bed;
using model::Urgency;

constexpr const char* kCaution =
    "Raw manure can carry germs that make people ill. Where a buyer, a certifier or local rules "
    "ask for more, theirs go first; washing does not make up for the days.";

model::Threshold<measure::Days> rule_for(const Contact& contact) {
  return contact.touches ? limits::wait_contact : limits::wait_apart;
}

int whole_days(const model::Rules& rules, const Contact& contact) {
  return static_cast<int>(std::ceil(rules(rule_for(contact)).value));
}

std::string contact_words(const Contact& contact) {
  if (!contact.said) return "taken as touching soil, since touches_soil= was not said";
  return contact.touches ? "the edible part touches soil" : "the edible part does not touch soil";
}

std::string crop_words(const model::Batch& batch) {
  return batch.text("crop", "a crop that people eat");
}

// The day on which the crop would be ripe, where the records can tell.
std::optional<model::Day> ripe_on(const model::History& history) {
  const auto days = history.batch.number("days_to_harvest");
  const model::Deed* planted = history.last_deed("planted");
  if (!days || planted == nullptr) return std::nullopt;
  return planted->day + date::days{static_cast<int>(std::lround(days->si))};
}

model::Told waiting(const model::History& history, const model::Rules& rules, const Wait& wait,
                       const Contact& contact) {
  const auto ripe = ripe_on(history);
  const bool conflict = ripe && *ripe < wait.safe;
  const bool ripe_now = conflict && *ripe <= history.today;
  model::Told made =
      finding("bed.wait", ripe_now ? Urgency::kToday : Urgency::kSoon, rule_for(contact), rules);
  const int since = days_between(wait.load.day, history.today);
  made.value = model::Measured{"days since",
                               measure::value_of(measure::Days{static_cast<double>(since)}), ""};
  made.words.says = fmt::format("no harvest of {} before {}: day {} of {} after {} went on",
                          crop_words(history.batch), measure::full_day_words(wait.safe), since,
                          wait.days, wait.load.material.name);
  made.words.why = fmt::format("{} ({}); {}", chain_words(wait.trail, history.batch.code),
                         wait.trail.because, contact_words(contact));
  made.words.why_briefly =
      fmt::format("'roundbook show {}' has the way of the manure", history.batch.code);
  made.words.action = conflict ? fmt::format(
                               "its crop is ripe about {}, before that day: leave it until then; "
                               "picked before, it is not for people to eat",
                               measure::day_words(*ripe, history.today))
                         : "leave the crop until then";
  made.due = wait.safe;
  made.old_caution = kCaution;
  return made;
}

}  // namespace

Contact contact_of(const model::Batch& batch) {
  const std::string said = batch.text("touches_soil", "");
  return {said != "no", !said.empty()};
}

bool is_eaten(const model::Batch& batch) {
  return batch.text("eaten", "yes") == "yes";
}

std::optional<Wait> wait_after(const model::Movement& load, const model::Batch& bed,
                               const model::Rules& rules) {
  if (load.manure.empty() || !is_eaten(bed)) return std::nullopt;
  const int days = whole_days(rules, contact_of(bed));
  return Wait{load.day + date::days{days}, days,
              rules.in_force(*rule_for(contact_of(bed)).info).source, load, load.manure.front()};
}

std::optional<Wait> wait_of(const model::History& history, const model::Rules& rules) {
  std::optional<Wait> longest;
  for (const auto* loads : {&history.earlier_in, &history.in}) {
    for (const model::Movement& load : *loads) {
      if (load.at > history.now) continue;
      auto wait = wait_after(load, history.batch, rules);
      if (wait && (!longest || wait->safe >= longest->safe)) longest = std::move(wait);
    }
  }
  return longest;
}

std::string chain_words(const model::ManureTrail& trail, const std::string& bed) {
  std::string chain = trail.material;
  for (const std::string& passed : trail.way) chain += " → " + passed;
  return chain + " → " + bed;
}

std::vector<const model::Movement*> early_harvests(const model::History& history,
                                                   const model::Rules& rules) {
  std::vector<const model::Movement*> early;
  model::History then = history;
  for (const model::Movement& out : history.out) {
    if (!out.material.is("edible-crop")) continue;
    then.now = out.at;
    const auto wait = wait_of(then, rules);
    if (wait && out.day < wait->safe) early.push_back(&out);
  }
  return early;
}

namespace {

void judge_early(const model::History& history, const model::Rules& rules,
                 const model::Movement& last, model::Assessment& into) {
  const int days = days_between(last.day, history.today);
  if (days >= rules(limits::early_told).value) return;
  model::Told made =
      finding("bed.early", Urgency::kNow, rule_for(contact_of(history.batch)), rules);
  made.value = model::Measured{"days since it was taken",
                               measure::value_of(measure::Days{static_cast<double>(days)}), ""};
  made.words.says = fmt::format("{} {} was taken on {}, inside the harvest interval after raw manure",
                          last.typed, last.material.name, measure::full_day_words(last.day));
  made.words.why = "germs of raw manure may be on it";
  made.words.action =
      "hold back what is left of it: not for people to eat and not for sale; say it to whoever got "
      "some, and to the certifier if there is one";
  into.findings.push_back(std::move(made));
}

}  // namespace

void judge_wait(const model::History& history, const model::Rules& rules, model::Assessment& into) {
  const auto early = early_harvests(history, rules);
  if (!early.empty()) judge_early(history, rules, *early.back(), into);
  if (!early.empty()) {
    const model::Movement& last = *early.back();
    into.progress.push_back(
        {"marked",
         fmt::format(
             "{} taken inside the harvest interval, the last {} {} on {}",
             early.size() == 1 ? "1 harvest was" : fmt::format("{} harvests were", early.size()),
             last.typed, last.material.name, measure::full_day_words(last.day)),
         std::nullopt});
  }
  const auto wait = wait_of(history, rules);
  if (!wait) return;
  const Contact contact = contact_of(history.batch);
  const int since = days_between(wait->load.day, history.today);
  if (history.today < wait->safe) {
    into.findings.push_back(waiting(history, rules, *wait, contact));
    into.progress.push_back(progress("harvest interval", since, wait->days,
                                     fmt::format("day {} of {}", since, wait->days)));
    into.forecasts.push_back(
        {"first safe harvest", wait->safe, wait->safe, wait->safe,
         fmt::format("{} days after {} went on", wait->days, wait->load.material.name)});
    return;
  }
  const int past = days_between(wait->safe, history.today);
  if (past >= rules(limits::safe_told).value || !history.batch.setting("crop")) return;
  model::Told made = finding("bed.safe", Urgency::kReady, rule_for(contact), rules);
  made.value = model::Measured{"days since",
                               measure::value_of(measure::Days{static_cast<double>(since)}), ""};
  made.words.says = fmt::format(
      "{} may be harvested{}: {} days have passed since {} went on", crop_words(history.batch),
      past == 0 ? " from today"
                : fmt::format(" since {}", measure::day_words(wait->safe, history.today)),
      wait->days, wait->load.material.name);
  made.words.why = contact_words(contact);
  made.words.action = "pick it when it is ripe";
  into.findings.push_back(std::move(made));
}

}  // namespace kinds::bed
