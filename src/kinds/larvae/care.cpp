#include "kinds/larvae/care.h"

#include <algorithm>
#include <cmath>

#include "kinds/finding.h"
#include "kinds/thresholds.h"

namespace kinds::larvae {
namespace {

namespace limits = thresholds::larvae;
using measure::Days;
using measure::Fraction;
using model::Urgency;

bool is_lately(model::Instant at, const model::History& history, Days limit) {
  return history.now - at <= std::chrono::duration<double, date::days::period>(limit.value);
}

// The latest word on its moisture: a meter's or a hand's.
struct Moisture {
  std::optional<Fraction> read;
  std::string felt;
};

Moisture moisture_now(const model::History& history, const model::Rules& rules) {
  const Days limit = rules(limits::sensed_days);
  const model::Reading* read = nullptr;
  for (const model::Series* series : history.all("moisture")) {
    if (read == nullptr || series->last->at > read->at) read = &*series->last;
  }
  if (read != nullptr && !is_lately(read->at, history, limit)) read = nullptr;
  const model::Sensed* felt = history.last_sensed("moisture");
  if (felt != nullptr && !is_lately(felt->at, history, limit)) felt = nullptr;
  if (felt != nullptr && (read == nullptr || felt->at > read->at))
    return {std::nullopt, felt->word};
  if (read == nullptr) return {};
  return {Fraction{read->value}, ""};
}

model::Told moisture_finding(std::string_view rule, Urgency urgency,
                             model::Threshold<Fraction> threshold, const model::Rules& rules,
                             const Moisture& moisture) {
  model::Told made = finding(rule, urgency, threshold, rules);
  if (moisture.read)
    made.value = model::Measured{"moisture", measure::value_of(*moisture.read), ""};
  return made;
}

std::string moisture_words(std::string_view what, const Moisture& moisture, std::string_view side,
                           Fraction limit, const measure::Printer& print) {
  if (!moisture.read) return fmt::format("it was found {} by hand", moisture.felt);
  return fmt::format("it is too {}: {} moisture, {} {}", what, print(*moisture.read), side,
                     print(limit));
}

void judge_dry(const model::History& history, const model::Rules& rules, const Moisture& moisture,
               model::Assessment& into) {
  const measure::Printer print(history.units);
  const bool stops = moisture.read && *moisture.read <= rules(limits::dry_stops);
  const bool dry =
      moisture.read ? *moisture.read < rules(limits::dry_below) : moisture.felt == "dry";
  if (!dry) return;
  const auto threshold = stops ? limits::dry_stops : limits::dry_below;
  model::Told made = moisture_finding("larvae.dry", stops ? Urgency::kNow : Urgency::kToday,
                                      threshold, rules, moisture);
  made.words.says =
      moisture_words("dry", moisture, stops ? "at or below" : "below", rules(threshold), print);
  made.words.why = stops ? "larvae do not develop in it" : "larvae grow slower and stay smaller";
  made.words.action = "add wet feed or spray water on until a squeezed handful holds together";
  into.findings.push_back(std::move(made));
}

void judge_wet(const model::History& history, const model::Rules& rules, const Moisture& moisture,
               bool near_harvest, model::Assessment& into) {
  const measure::Printer print(history.units);
  const auto threshold = near_harvest ? limits::wet_sieve : limits::wet_above;
  const bool wet = moisture.read ? *moisture.read > rules(threshold) : moisture.felt == "wet";
  if (!wet) return;
  model::Told made = moisture_finding("larvae.wet", Urgency::kToday, threshold, rules, moisture);
  made.words.says = moisture_words("wet", moisture, "above", rules(threshold), print);
  made.words.why = near_harvest ? "it will not sieve" : "it turns airless and larvae climb out";
  made.words.action =
      near_harvest ? "leave off wet feed, open it to the air and stir in dry coir or bran"
                   : "let it drain, stir in dry bran, coir or shredded cardboard, feed drier";
  into.findings.push_back(std::move(made));
}

void judge_smell(const model::History& history, const model::Rules& rules,
                 model::Assessment& into) {
  const model::Sensed* smell = history.last_sensed("smell");
  if (smell == nullptr || smell->word == "earthy" ||
      !is_lately(smell->at, history, rules(limits::sensed_days))) {
    return;
  }
  model::Told made = finding("larvae.smell", Urgency::kToday, "common practice");
  made.words.says =
      fmt::format("it smells {}", smell->word == "ammonia" ? "of ammonia" : smell->word);
  if (smell->word == "ammonia") {
    made.words.why = "more protein than they eat, or a wet bin";
    made.words.action = "leave off meat and manure, mix in dry bran or coir, stir";
  } else if (smell->word == "rotten") {
    made.words.why = "feed lies airless and uneaten";
    made.words.action = "take out what rots, stir, and wait with feed";
  } else {
    made.words.why = "feed ferments faster than it is eaten";
    made.words.action = "wait with feed and stir";
  }
  into.findings.push_back(std::move(made));
}

void judge_flies(const model::History& history, const model::Rules& rules,
                 model::Assessment& into) {
  const model::Series* flies = history.find("flies");
  if (flies == nullptr || !flies->last ||
      !is_lately(flies->last->at, history, rules(limits::sensed_days))) {
    return;
  }
  const double most = rules(limits::flies_above).value;
  if (flies->last->value <= most) return;
  model::Told made = finding("larvae.flies", Urgency::kToday, limits::flies_above, rules);
  made.value = model::Measured{"flies", {measure::Dimension::kCount, flies->last->value}, ""};
  made.words.says =
      fmt::format("{} other flies counted, more than {}",
                  measure::print_number(flies->last->value, 0), measure::print_number(most, 0));
  made.words.action = "bury fresh feed under the old or cover it, and feed less at a time";
  into.findings.push_back(std::move(made));
}

// The last day on which something was renewed: a deed, what went in, or the day told at the start.
std::optional<model::Day> renewed(const model::History& history, std::string_view deed,
                                  std::string_view material, std::string_view setting) {
  std::optional<model::Day> last;
  if (!setting.empty()) last = measure::parse_iso_date(history.batch.text(setting, ""));
  if (const model::Deed* done = history.last_deed(deed))
    last = std::max(last.value_or(done->day), done->day);
  for (const model::Movement& movement : history.in) {
    if (movement.material.name == material || movement.material.group == material) {
      last = std::max(last.value_or(movement.day), movement.day);
    }
  }
  return last;
}

void judge_renewal(const model::History& history, const model::Rules& rules,
                   std::optional<model::Day> last, std::string_view rule, std::string_view what,
                   std::string_view action, model::Threshold<Days> threshold,
                   model::Assessment& into) {
  const int limit = static_cast<int>(std::ceil(rules(threshold).value));
  if (!last || days_between(*last, history.today) < limit) return;
  model::Told made = finding(rule, Urgency::kSoon, threshold, rules);
  const int age = days_between(*last, history.today);
  made.value = model::Measured{"age", measure::value_of(Days{1.0 * age}), ""};
  made.words.says =
      fmt::format("the {} is {} old, renewed every {}", what, days_words(age), days_words(limit));
  made.due = *last + date::days{limit};
  made.words.action = action;
  into.findings.push_back(std::move(made));
}

// Days on end, of days with a reading, on which the meter said one and the same.
void judge_meter(const model::History& history, const model::Rules& rules,
                 model::Assessment& into) {
  const auto rolls = model::pooled_days(history.all("moisture"));
  if (rolls.empty() || !is_lately(rolls.back().last_at, history, rules(limits::sensed_days))) {
    return;
  }
  int same = 0;
  for (auto roll = rolls.rbegin(); roll != rolls.rend(); ++roll) {
    if (std::fabs(roll->mean() - rolls.back().mean()) > 1e-9) break;
    ++same;
  }
  if (same < rules(limits::moisture_repeats).value) return;
  model::Told made = finding("larvae.moisture", Urgency::kSoon, limits::moisture_repeats, rules);
  made.value = model::Measured{"days alike", measure::value_of(Days{1.0 * same}), ""};
  made.words.says =
      fmt::format("moisture was read as {} on {} in a row",
                  measure::Printer(history.units)(Fraction{rolls.back().mean()}), days_words(same));
  made.words.why = "a bin that is fed hardly stays the same: the meter, or a value carried over";
  made.words.action = "squeeze a handful and read it again elsewhere in the bin";
  into.findings.push_back(std::move(made));
}

}  // namespace

void judge_care(const model::History& history, const model::Rules& rules, const Warmth& warmth,
                bool ready, model::Assessment& into) {
  const bool near_harvest = ready || warmth.share() >= rules(limits::wet_near).value;
  const Moisture moisture = moisture_now(history, rules);
  if (!near_harvest) judge_dry(history, rules, moisture, into);
  judge_wet(history, rules, moisture, near_harvest, into);
  judge_meter(history, rules, into);
  judge_smell(history, rules, into);
  judge_flies(history, rules, into);
  judge_renewal(history, rules, renewed(history, "bedded", "bedding", "bedding_date"),
                "larvae.bedding", "bedding", "renew it, and log bedded", limits::bedding_days,
                into);
  judge_renewal(history, rules, renewed(history, "carded", "cardboard", ""), "larvae.cardboard",
                "cardboard for the eggs", "hang up fresh corrugated cardboard, and log carded",
                limits::cardboard_days, into);
}

}  // namespace kinds::larvae
