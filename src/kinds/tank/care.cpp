#include "kinds/tank/care.h"

#include <fmt/format.h>

#include <array>
#include <vector>

#include "kinds/tank/water.h"
#include "kinds/thresholds.h"
#include "kinds/finding.h"
#include "measure/text.h"

namespace kinds::tank {
namespace {

namespace limits = thresholds::tank;
using measure::Fraction;
using measure::Litres;

constexpr measure::Metres kAnInch{0.0254};
constexpr measure::Metres kAMillimetre{0.001};

model::Measured water(std::string_view quantity, Litres litres) {
  return {std::string(quantity), measure::value_of(litres), "", kWater};
}

// A day of the work, or of the batch's start, whichever is later.
int days_since(const model::History& history, const char* deed) {
  const model::Deed* last = history.last_deed(deed);
  return days_between(last == nullptr ? history.batch.started_day : last->day, history.today);
}

// Whether a use told in words brings the water to somebody's mouth.
bool speaks_of_drinking(const std::string& text) {
  static constexpr std::array<std::string_view, 8> kBegin{"drink", "potable",   "kitchen", "cook",
                                                          "salad", "household", "shower",  "dish"};
  for (const std::string& word : measure::split(measure::folded(text), ' ')) {
    if (word == "house") return true;  // not the greenhouse
    for (const std::string_view begin : kBegin) {
      if (word.rfind(begin, 0) == 0) return true;
    }
  }
  return false;
}

// What was not told at the start, and what cannot be said for it.
struct Missing {
  std::string names, settings, so;
};

std::optional<Missing> missing_of(const model::History& history) {
  const bool roof = history.batch.number("roof").has_value();
  const bool capacity = capacity_of(history).has_value();
  if (roof && capacity) return std::nullopt;
  if (capacity) {
    return Missing{"roof", "roof= (its outline on the ground)",
                   "what rain brings is not foreseen, and no size judged"};
  }
  if (roof) {
    return Missing{"capacity",
                   "capacity=", "what a level in % holds and when it spills are not known"};
  }
  return Missing{"roof and capacity", "roof= (its outline on the ground) and capacity=",
                 "neither what rain brings nor when it spills is foreseen"};
}

}  // namespace

namespace {

// Whether what the last level asked for was seen to since, or its water is by now another: it was
// full, or as much came and went as it held then.
bool is_behind(const Level& last, Litres capacity, const std::vector<const char*>& answers,
               const model::History& history, const model::Rules& rules) {
  for (const char* answer : answers) {
    const model::Deed* done = history.last_deed(answer);
    if (done != nullptr && done->at > last.at) return true;
  }
  const Expected since = expected_from(last, history.now, history, rules);
  const bool filled = since.highest >= capacity * rules(limits::full_at).value &&
                      last.held < capacity * rules(limits::full_at).value;
  const Litres moved = since.caught + since.added + since.drawn;
  return filled || (moved > Litres{0} && moved >= last.held);
}

}  // namespace

void judge_level(const model::History& history, const model::Rules& rules,
                 model::Assessment& into) {
  const auto all = levels(history);
  const auto capacity = capacity_of(history);
  if (all.size() < 2 || !capacity) return;
  const Level& before = all[all.size() - 2];
  const Level& last = all.back();
  const Expected expected = expected_from(before, last.at, history, rules);
  const Litres slack = *capacity * rules(limits::level_slack).value;
  const measure::Printer print(history.units);
  const auto shown = [&](Litres litres) { return print(measure::value_of(litres), kWater); };
  const bool is_low = last.held < expected.least - slack;
  const bool is_high = expected.most && last.held > *expected.most + slack;
  if (!is_low && !is_high) return;
  std::vector<const char*> answers{"emptied"};
  if (is_low) answers.insert(answers.end(), {"cleaned", "flushed", "mended"});
  if (is_behind(last, *capacity, answers, history, rules)) return;
  const Litres bound = is_low ? expected.least : *expected.most;
  model::Told made = finding("tank.level", model::Urgency::kToday, limits::level_slack, rules);
  // Against the rule, which is a share of the capacity.
  const Litres off = is_low ? bound - last.held : last.held - bound;
  made.value = model::Measured{is_low ? "below the least expected" : "above the most expected",
                               measure::value_of(Fraction{off / *capacity}), ""};
  const std::string held = last.day == history.today
                               ? fmt::format("it holds {}", shown(last.held))
                               : fmt::format("it held {} on {}", shown(last.held),
                                             measure::day_words(last.day, history.today));
  made.words.says =
      fmt::format("{}, and at {} {} was to be expected since {}", held, is_low ? "least" : "most",
                  shown(bound), measure::day_words(before.day, history.today));
  made.words.why = fmt::format("{} drawn, {} of rain", shown(expected.drawn),
                         print(measure::value_of(expected.rain), kRain));
  const Litres came = last.held - before.held + expected.drawn;
  if (is_high) {
    made.words.action = "read the level again, and log rain or added water that is missing";
  } else if (expected.caught > Litres{0} && came > slack * -1) {
    made.words.action =
        came < expected.caught * 0.5
            ? "look for a blocked gutter, screen or first-flush pipe, or a draw not logged"
            : "look for a gutter that runs over, a leak, or a draw not logged";
  } else {
    made.words.action = "look for a leak, an open tap, or a draw not logged; read the level again";
  }
  into.findings.push_back(std::move(made));
}

void judge_supply(const model::History& history, const model::Rules& rules,
                  model::Assessment& into) {
  const measure::Printer print(history.units);
  const auto shown = [&](Litres litres) { return print(measure::value_of(litres), kWater); };
  const auto roof = roof_of(history, rules);
  if (roof) {
    const bool us = history.units == measure::UnitSystem::kUs;
    const RainDay rain{history.today, history.now, us ? kAnInch : kAMillimetre, {}};
    into.progress.push_back(
        {"catch",
         fmt::format("{} of rain on {} brings {} ({} of it, {})", us ? "an inch" : "a millimetre",
                     print(roof->area), shown(caught(rain, *roof, roof->usual)), print(roof->usual),
                     history.batch.number("runoff") ? "as told"
                     : roof->surface.empty()        ? "surface not told"
                                                    : roof->surface),
         std::nullopt});
  }
  if (const auto missing = missing_of(history)) {
    into.progress.push_back(
        {"not told at its start", missing->settings + ": " + missing->so, std::nullopt});
  }
  const auto holds = holding(history, rules);
  const auto capacity = capacity_of(history);
  if (!holds) return;
  const std::string read =
      holds->carried_on
          ? fmt::format(", by rain and draws since it was read {}",
                        measure::day_words(holds->last.day, history.today))
          : fmt::format(", read {}", holds->last.day == history.today
                                         ? "today"
                                         : measure::day_words(holds->last.day, history.today));
  const std::string about = holds->carried_on ? "about " : "";
  if (capacity) {
    into.progress.push_back(
        progress("water", holds->held.value, capacity->value,
                 fmt::format("{}{} of {}{}", about, shown(holds->held), shown(*capacity), read)));
  } else {
    into.progress.push_back(
        {"water", fmt::format("{}{}{}", about, shown(holds->held), read), std::nullopt});
  }
  if (capacity && holds->held >= *capacity * rules(limits::full_at).value) {
    model::Told made = finding("tank.full", model::Urgency::kReady, limits::full_at, rules);
    made.words.says = fmt::format("it is full: {}{} of {}, and the next rain spills", about,
                            shown(holds->held), shown(*capacity));
    made.words.action = "use it first, before any mains water";
    made.value = water("held", holds->held);
    into.findings.push_back(std::move(made));
  }
  const auto draw = present_draw(history, rules);
  if (!draw) return;
  const double days = holds->held / draw->a_day;
  const auto whole = static_cast<int>(days);
  const std::string lasts = fmt::format("{} at {} a day without rain, {}", days_words(whole),
                                        shown(draw->a_day), draw->basis);
  into.progress.push_back({"supply", lasts, std::nullopt});
  const model::Day dry = history.today + date::days{whole};
  into.forecasts.push_back(
      {"empty", std::nullopt, dry, std::nullopt,
       fmt::format("{} if it does not rain, at {} a day", measure::day_words(dry, history.today),
                   shown(draw->a_day))});
  if (days >= rules(limits::low_days).value) return;
  model::Told made = finding("tank.low", model::Urgency::kToday, limits::low_days, rules);
  made.words.says = fmt::format("{}{} is left: {}, below {}", about, shown(holds->held), lasts,
                          days_words(static_cast<int>(rules(limits::low_days).value)));
  made.words.action = "draw for what needs it most, and plan other water";
  made.value = model::Measured{"supply", measure::value_of(measure::Days{days}), "", {}};
  into.findings.push_back(std::move(made));
}

std::string missing_words(const model::History& history) {
  const auto missing = missing_of(history);
  return missing ? fmt::format(", {} not told: {}", missing->names, missing->so) : "";
}

void judge_care(const model::History& history, const model::Rules& rules, model::Assessment& into) {
  const int uncleaned = days_since(history, "cleaned");
  if (uncleaned > rules(limits::clean_days).value) {
    model::Told made = finding("tank.clean", model::Urgency::kSoon, limits::clean_days, rules);
    made.words.says = fmt::format("gutters and screens not cleaned for {}", days_words(uncleaned));
    made.words.action =
        "clear gutters and screens, look that lid and overflow are screened against mosquitoes, "
        "and log cleaned";
    made.old_caution = "Work from a ladder that someone holds.";
    into.findings.push_back(std::move(made));
  }
  const int unflushed = days_since(history, "flushed");
  if (history.batch.number("flush") && unflushed > rules(limits::flush_days).value) {
    model::Told made = finding("tank.flush", model::Urgency::kSoon, limits::flush_days, rules);
    made.words.says = fmt::format("the first-flush pipe was not emptied for {}", days_words(unflushed));
    made.words.action = "empty it, rinse its screen, and log flushed";
    into.findings.push_back(std::move(made));
  }
  const model::Sensed* seen = history.last_sensed("water");
  if (seen != nullptr && seen->word != "clear" &&
      days_between(seen->day, history.today) <= rules(limits::foul_days).value) {
    model::Told made = finding("tank.foul", model::Urgency::kToday, limits::foul_days, rules);
    made.words.says = fmt::format("its water was {} {}",
                            seen->word == "wrigglers" ? "full of wrigglers" : seen->word,
                            measure::day_words(seen->day, history.today));
    made.words.action = seen->word == "wrigglers"
                      ? "close every gap wider than 1/16 inch (1.5 mm) with mesh"
                  : seen->word == "green" ? "keep the light out of the tank"
                                          : "look for a dead animal, leaves and sludge";
    made.words.action += "; log clear once it is";
    made.old_caution = kNotForDrinking;
    into.findings.push_back(std::move(made));
  }
  const model::Movement* drunk = nullptr;
  for (const model::Movement& movement : history.out) {
    const bool of_late =
        days_between(movement.day, history.today) <= rules(limits::foul_days).value;
    if (of_late && speaks_of_drinking(movement.purpose)) drunk = &movement;
  }
  const bool told = speaks_of_drinking(history.batch.text("uses", ""));
  if (drunk != nullptr || told) {
    model::Told made = finding("tank.drink", model::Urgency::kNow, "common practice");
    made.words.says =
        drunk != nullptr
            ? fmt::format("{} was taken for {} {}", drunk->typed, drunk->purpose,
                          measure::day_words(drunk->day, history.today))
            : fmt::format("among its uses is {}", measure::quoted(history.batch.text("uses", "")));
    made.words.action = "do not drink it, cook with it or wash with it what is eaten raw";
    made.old_caution = kNotForDrinking;
    into.findings.push_back(std::move(made));
  }
}

}  // namespace kinds::tank
