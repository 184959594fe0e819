#include "kinds/burn/charge.h"

#include <algorithm>
#include <cmath>
#include <vector>

#include "kinds/burn/measures.h"
#include "kinds/thresholds.h"
#include "kinds/finding.h"

namespace kinds::burn {
namespace {

namespace limits = thresholds::burn;
using measure::Days;
using measure::Fraction;
using model::Urgency;

constexpr std::string_view kDustCaution = "Char dust harms the lungs: handle it damp.";
constexpr std::string_view kManureCaution =
    "It was charged with raw manure: beds that get it wait for their harvest as after raw manure.";

// Whether a load reached a bed before it was charged. The word of who took it as charged char
// stands unless the records hold a charging that was too short.
bool went_raw(const model::Movement& movement, const Course& course, const model::Rules& rules) {
  const auto days = days_charged(course, movement.day);
  if (!days) return movement.material.name != "charged char";
  return Days{static_cast<double>(*days)} < rules(limits::charged_days);
}

// What was last known of the moisture of charging char: by a reading, by hand or by watering.
struct Moistness {
  std::optional<model::Instant> at;
  bool dry = false;
  std::optional<Fraction> read;
};

Moistness moistness(const model::History& history, model::Instant since, Fraction least) {
  Moistness last;
  const auto take = [&](model::Instant at, bool dry, std::optional<Fraction> read) {
    if (at < since || (last.at && at < *last.at)) return;
    last = {at, dry, read};
  };
  if (const model::DayRoll* read = latest_day(history, "char-moisture")) {
    take(read->last_at, Fraction{read->last} < least, Fraction{read->last});
  }
  if (const model::Sensed* felt = history.last_sensed("moisture")) {
    take(felt->at, felt->word == "dry", std::nullopt);
  }
  if (const model::Deed* watered = history.last_deed("watered")) {
    take(watered->at, false, std::nullopt);
  }
  return last;
}

}  // namespace

void judge_raw(const model::History& history, const model::Rules& rules, const Course& course,
               model::Assessment& into) {
  const measure::Printer print(history.units);
  std::vector<std::string> told;
  for (auto at = history.out.rbegin(); at != history.out.rend(); ++at) {
    const model::Movement& movement = *at;
    const int days = days_between(movement.day, history.today);
    if (!is_char(movement) || movement.to_kind != "bed") continue;
    if (Days{static_cast<double>(days)} > rules(limits::told_days)) continue;
    if (!went_raw(movement, course, rules)) continue;
    if (std::find(told.begin(), told.end(), movement.to) != told.end()) continue;
    told.push_back(movement.to);
    const int charged = days_charged(course, movement.day).value_or(0);
    model::Told made = finding("burn.raw", Urgency::kToday, limits::charged_days, rules);
    made.value =
        model::Measured{"days charged", measure::value_of(Days{static_cast<double>(charged)}), ""};
    made.words.says = fmt::format(
        "char went to {} on {} {}", movement.to, measure::day_words(movement.day, history.today),
        charged == 0
            ? "uncharged"
            : fmt::format("after charging {} of {}", charged, print(rules(limits::charged_days))));
    made.words.why = "raw char takes nutrients from the soil, most of a season long";
    made.words.action =
        fmt::format("give {} compost or liquid feed on top of what its crop needs", movement.to);
    into.findings.push_back(std::move(made));
  }
}

void judge_charged_here(const model::History& history, const model::Rules& rules,
                        const Course& course, const Account& account, model::Assessment& into) {
  const auto days = days_charged(course, history.today);
  if (!days || account.all_gone()) return;
  const Days wanted = rules(limits::charged_days);
  const Days done{static_cast<double>(*days)};
  const measure::Printer print(history.units);
  into.progress.push_back(progress("charged", done.value, wanted.value,
                                   fmt::format("{} of {} of charging", *days, print(wanted))));
  if (done < wanted) {
    const auto whole = date::days{static_cast<int>(std::ceil(wanted.value))};
    const auto in_a_pile =
        date::days{static_cast<int>(std::ceil(rules(limits::charged_pile).value))};
    const model::Day ready = course.charge->day + whole;
    into.forecasts.push_back({"charged", ready, ready,
                              course.charge->day + std::max(whole, in_a_pile),
                              fmt::format("charged on {} at the earliest; longer does it good",
                                          measure::day_words(ready, history.today))});
    return;
  }
  model::Told made = finding("burn.charged", Urgency::kReady, limits::charged_days, rules);
  made.value = model::Measured{"days charged", measure::value_of(done), ""};
  made.words.says =
      fmt::format("the char has charged {}{}, {} are enough: ready for beds", days_words(*days),
                  course.charge->with.empty() ? "" : " in " + course.charge->with, print(wanted));
  made.old_caution = kDustCaution;
  if (course.raw_manure) made.old_caution += fmt::format(" {}", kManureCaution);
  const std::string beds = bed_words(history, rules, account);
  made.words.action =
      beds.empty()
          ? "mix it into the top of a bed, and log it as charged char"
          : fmt::format("mix it into the top of a bed as charged char: enough for {}", beds);
  into.findings.push_back(std::move(made));
}

void judge_charged_elsewhere(const model::History& history, const model::Rules& rules,
                             const Account& account, model::Assessment& into) {
  const measure::Printer print(history.units);
  std::vector<std::string> told;
  for (auto at = history.out.rbegin(); at != history.out.rend(); ++at) {
    const model::Movement& movement = *at;
    const bool pile = movement.to_kind == "pile";
    if (!is_char(movement) || (!pile && movement.to_kind != "brew")) continue;
    if (std::find(told.begin(), told.end(), movement.to) != told.end()) continue;
    told.push_back(movement.to);
    const auto threshold = pile ? limits::charged_pile : limits::charged_days;
    const Days wanted = rules(threshold);
    const model::Movement* back = came_back(history, movement);
    const int days = days_between(movement.day, back != nullptr ? back->day : history.today);
    const Days done{static_cast<double>(days)};
    const std::string back_words =
        back == nullptr
            ? ""
            : fmt::format(", back here on {}", measure::day_words(back->day, history.today));
    into.progress.push_back(
        progress("charged in " + movement.to, done.value, wanted.value,
                 fmt::format("{} of {} in {}{}", days, print(wanted), movement.to, back_words)));
    if (done < wanted || back != nullptr) continue;
    if (done > wanted + rules(limits::told_days) && !account.all_gone()) continue;
    model::Told made = finding("burn.charged", Urgency::kReady, threshold, rules);
    made.value = model::Measured{"days charged", measure::value_of(done), ""};
    made.words.says = fmt::format("the char in {} has been there {}, {} are enough: charged", movement.to,
                            days_words(days), print(wanted));
    made.words.action =
        fmt::format("carry it to beds with what else is in {}{}", movement.to,
                    account.all_gone() ? "; none is left here, so this burn can end" : "");
    into.findings.push_back(std::move(made));
  }
}

void judge_dry(const model::History& history, const model::Rules& rules, const Course& course,
               const Account& account, model::Assessment& into) {
  if (!course.charge || account.all_gone()) return;
  const Fraction least = rules(limits::dry_below);
  const Moistness last = moistness(history, course.charge->at, least);
  if (!last.dry) return;
  const measure::Printer print(history.units);
  model::Told made = finding("burn.dry", Urgency::kToday, limits::dry_below, rules);
  if (last.read) made.value = model::Measured{"char-moisture", measure::value_of(*last.read), ""};
  made.words.says = last.read ? fmt::format("the charging char is too dry: {}, below {}",
                                      print(*last.read), print(least))
                        : "the charging char feels dry";
  made.words.why = "what it was charged with lives only while it is moist";
  made.words.action = "water it, cover it, and log watered";
  into.findings.push_back(std::move(made));
}

}  // namespace kinds::burn
