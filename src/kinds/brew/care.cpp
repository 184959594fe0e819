#include "kinds/brew/care.h"

#include <algorithm>
#include <initializer_list>

#include "kinds/brew/use.h"
#include "kinds/thresholds.h"
#include "kinds/finding.h"

namespace kinds::brew {
namespace {

namespace limits = thresholds::brew;
using measure::Days;
using model::Deed;
using model::Urgency;

enum class Lid { kSealed, kAirlock, kLoose };

Lid lid_of(const model::Batch& batch) {
  const std::string said = batch.text("lid", is_aerated(batch) ? "loose" : "sealed");
  return said == "airlock" ? Lid::kAirlock : said == "loose" ? Lid::kLoose : Lid::kSealed;
}

const Deed* last_of(const model::History& history, std::initializer_list<std::string_view> words) {
  const Deed* found = nullptr;
  for (const std::string_view word : words) {
    const Deed* deed = history.last_deed(word);
    if (deed != nullptr && (found == nullptr || deed->at >= found->at)) found = deed;
  }
  return found;
}

// The deed that took the lid off, where it has not been put on since.
const Deed* standing_open(const model::History& history) {
  const Deed* last = last_of(history, {"opened", "closed"});
  return last != nullptr && last->word == "opened" ? last : nullptr;
}

double hours_since(model::Instant then, model::Instant now) {
  return std::chrono::duration<double, std::ratio<3600>>(now - then).count();
}

bool is_quiet(const model::History& history, const Clock& clock) {
  const model::Sensed* seen = history.last_sensed("bubbling");
  return clock.full() && (seen == nullptr || seen->word != "lively");
}

}  // namespace

void judge_vent(const model::History& history, const model::Rules& rules, const Contents& contents,
                const Clock& clock, model::Assessment& into) {
  if (lid_of(history.batch) != Lid::kSealed || standing_open(history) != nullptr) return;
  if (contents.used_up()) return;
  const auto rule = is_quiet(history, clock) ? limits::vent_after : limits::vent_days;
  // Each of these lets the gas out too.
  const Deed* last =
      last_of(history, {"vented", "opened", "closed", "stirred", "strained", "topped"});
  const model::Day since = std::max(last == nullptr ? clock.from : last->day, clock.from);
  const int days = days_between(since, history.today);
  const Days limit = rules(rule);
  if (days < limit.value) return;
  const bool danger = days >= limit.value * rules(limits::vent_danger).value;
  model::Told made = finding("brew.vent", danger ? Urgency::kNow : Urgency::kToday, rule, rules);
  made.value = model::Measured{"time since it was vented",
                               measure::value_of(Days{static_cast<double>(days)}), ""};
  made.words.says = fmt::format("not vented for {}, and {} is the longest", days_words(days),
                          days_words(static_cast<int>(limit.value)));
  made.words.why = "a sealed drum builds gas until its lid gives";
  made.words.action = "loosen the lid slowly, let the gas out and log vented";
  made.old_caution =
      "Outdoors or with the doors open, face turned away, no flame: the gas is under pressure, "
      "displaces air, can burn and may hold hydrogen sulfide. A lid that bulges is loosened "
      "first of all.";
  into.findings.push_back(std::move(made));
}

void judge_stir(const model::History& history, const model::Rules& rules, const Clock& clock,
                model::Assessment& into) {
  if (clock.full() || is_aerated(history.batch) || lid_of(history.batch) == Lid::kAirlock) return;
  const auto rule = lid_of(history.batch) == Lid::kLoose ? limits::stir_open : limits::stir_sealed;
  const Deed* last = history.last_deed("stirred");
  const model::Day since = std::max(last == nullptr ? clock.from : last->day, clock.from);
  const int days = days_between(since, history.today);
  if (days < rules(rule).value) return;
  model::Told made = finding("brew.stir", Urgency::kToday, rule, rules);
  made.value = model::Measured{"time since it was stirred",
                               measure::value_of(Days{static_cast<double>(days)}), ""};
  made.words.says = fmt::format("not stirred for {}", days_words(days));
  made.words.action = "push what floats under, stir it to the bottom and log stirred";
  into.findings.push_back(std::move(made));
}

std::optional<double> hours_without_air(const model::History& history, const model::Rules& rules) {
  if (!is_aerated(history.batch)) return std::nullopt;
  const Deed* aired = history.last_deed("aerated");
  const model::Instant since = aired == nullptr ? history.batch.started : aired->at;
  const double hours = hours_since(since, history.now);
  if (hours <= rules(limits::open_aerated).value * 24) return std::nullopt;
  return hours;
}

bool is_foul(const model::History& history, const model::Rules& rules) {
  const model::Sensed* smell = history.last_sensed("smell");
  if (smell == nullptr ||
      days_between(smell->day, history.today) > rules(limits::smell_days).value) {
    return false;
  }
  return is_aerated(history.batch) ? smell->word != "earthy" : smell->word == "rotten";
}

void judge_open(const model::History& history, const model::Rules& rules, const Contents& contents,
                model::Assessment& into) {
  if (contents.used_up()) return;
  if (is_aerated(history.batch)) {
    const auto standing = hours_without_air(history, rules);
    if (!standing) return;
    const double hours = *standing;
    model::Told made = finding("brew.open", Urgency::kToday, limits::open_aerated, rules);
    made.value =
        model::Measured{"time without logged air", measure::value_of(Days{hours / 24}), ""};
    made.words.says = fmt::format("left standing: no air logged for {:.0f} hours", hours);
    made.words.why =
        "without air an aerated brew turns within hours, and what then grows is not wanted on "
        "leaves";
    made.words.action =
        "if the pump has run, log aerated; if not, pour it on bare soil or on a pile that is not "
        "in treatment, not on "
        "leaves";
    into.findings.push_back(std::move(made));
    return;
  }
  const Deed* opened = standing_open(history);
  if (opened == nullptr || lid_of(history.batch) == Lid::kLoose) return;
  const int days = days_between(opened->day, history.today);
  if (days <= rules(limits::open_days).value) return;
  model::Told made = finding("brew.open", Urgency::kToday, limits::open_days, rules);
  made.value = model::Measured{"time open", measure::value_of(Days{static_cast<double>(days)}), ""};
  made.words.says = fmt::format("opened {} ago and not logged closed", days_words(days));
  made.words.why = "an open drum loses nitrogen as ammonia, and flies breed in it";
  made.words.action = "put the lid on and log closed";
  into.findings.push_back(std::move(made));
}

bool judge_old(const model::History& history, const model::Rules& rules, const Contents& contents,
               const Clock& clock, model::Assessment& into) {
  if (!clock.full_on || contents.used_up() || is_aerated(history.batch)) return false;
  const int days = days_between(*clock.full_on, history.today);
  if (days <= rules(limits::old_days).value) return false;
  model::Told made = finding("brew.old", Urgency::kSoon, limits::old_days, rules);
  made.value = model::Measured{"time since it was ready",
                               measure::value_of(Days{static_cast<double>(days)}), ""};
  made.words.says = fmt::format("ready for {}, above {}", days_words(days),
                          days_words(static_cast<int>(rules(limits::old_days).value)));
  made.words.why = "its nitrogen goes off as ammonia, and what it still holds is not known";
  made.words.action = "use it up on soil, pour it on a pile, or have it analysed";
  into.findings.push_back(std::move(made));
  return true;
}

void judge_smell(const model::History& history, const model::Rules& rules, const Contents& contents,
                 const Clock& clock, model::Assessment& into) {
  const model::Sensed* smell = history.last_sensed("smell");
  if (smell == nullptr || smell->word == "earthy" || contents.used_up()) return;
  if (days_between(smell->day, history.today) > rules(limits::smell_days).value) return;
  const bool aerated = is_aerated(history.batch);
  model::Told made = finding("brew.smell", Urgency::kSoon, "common practice");
  if (aerated) {
    made.urgency = Urgency::kToday;
    made.words.says = fmt::format("it smells {}", smell->word == "ammonia" ? "of ammonia" : smell->word);
    made.words.why = "an aerated brew that had air enough smells of earth";
    made.words.action = "give it air; pour it on a pile rather than on leaves or on a crop";
  } else if (smell->word == "ammonia") {
    made.words.says = "it smells of ammonia";
    made.words.why = "that is nitrogen leaving";
    made.words.action = clock.full() ? "keep it closed, thin it well and use it soon" : "keep it closed";
  } else if (smell->word == "rotten" && clock.full()) {
    made.words.says = "its time is full and it still smells rotten";
    made.words.why = "proteins are still breaking down, or meat or fat went in";
    made.words.action =
        "leave it closed until the smell eases; soil only, well thinned, not near the house";
    made.old_caution =
        "A rotten-egg smell is hydrogen sulfide: open it outdoors and do not breathe over it.";
  } else {
    return;  // sour or rotten on the way: a stage that a closed brew goes through
  }
  into.findings.push_back(std::move(made));
}

void judge_manure(const model::History& history, const model::Rules& rules,
                  const Contents& contents, model::Assessment& into) {
  if (contents.manure.empty()) return;
  const auto add = [&](std::string says, std::string action) {
    model::Told made = finding("brew.manure", Urgency::kToday, limits::manure_contact, rules);
    made.words.says = std::move(says);
    made.words.action = std::move(action);
    made.old_caution = manure_caution(rules, contents);
    into.findings.push_back(std::move(made));
  };
  if (is_for_leaf(history.batch) && !contents.used_up()) {
    add(fmt::format("made for leaves, but it holds {}", contents.manure),
        "use it in the soil only, and brew the leaf feed from plants alone");
  }
  const auto as_plants = std::count_if(history.out.begin(), history.out.end(), [](const auto& one) {
    return one.material.group == "brew" && !one.material.is("manure");
  });
  if (as_plants > 0) {
    add(fmt::format("{} taken as a brew without manure, but it holds {}",
                    as_plants == 1 ? "a load was" : fmt::format("{} loads were", as_plants),
                    contents.manure),
        "amend the entry: it is manure brew, and whoever got it should know");
  }
}

}  // namespace kinds::brew
