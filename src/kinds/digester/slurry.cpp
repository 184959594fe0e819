#include "kinds/digester/slurry.h"

#include <algorithm>
#include <vector>

#include "kinds/thresholds.h"
#include "kinds/finding.h"
#include "measure/text.h"
#include "science/gas/chemistry.h"

namespace kinds::digester {
namespace {

namespace limits = thresholds::digester;
using measure::Days;
using measure::Number;
using measure::Ph;
using measure::Printer;
using model::Urgency;
using science::MilligramsPerLitre;
using science::Millilitres;

const model::Series* fresh_series(const model::History& history, std::string_view quantity,
                                  Days longest) {
  const model::Series* found = history.find(quantity);
  if (found == nullptr || !found->last) return nullptr;
  const Days age{elapsed_days(found->last->at, history.now)};
  return age <= longest ? found : nullptr;
}

// Both volumes of one titration, which were read on one day.
std::optional<science::TitratedAcids> titration(const model::History& history, Days longest) {
  const auto* first = fresh_series(history, "first-acid", longest);
  const auto* second = fresh_series(history, "second-acid", longest);
  if (first == nullptr || second == nullptr) return std::nullopt;
  if (first->days.back().day != second->days.back().day) return std::nullopt;
  science::Titration read{.to_ph_5 = Millilitres{first->last->value * 1000},
                          .from_ph_5_to_4_4 = Millilitres{second->last->value * 1000}};
  const auto* sample = history.find("sample");
  if (sample != nullptr && sample->last) read.sample = Millilitres{sample->last->value * 1000};
  return science::fos_tac(read);
}

void find_acids(const model::History& history, Days longest, Slurry& slurry) {
  const auto* acids = fresh_series(history, "vfa", longest);
  const auto* alkalinity = fresh_series(history, "alkalinity", longest);
  if (acids != nullptr) slurry.volatile_acids = MilligramsPerLitre{acids->last->value};
  const auto titrated = titration(history, longest);
  const bool both = acids != nullptr && alkalinity != nullptr;
  const auto* first = history.find("first-acid");
  if (titrated && (!both || first->last->at >= acids->last->at)) {
    slurry.acids_to_alkalinity = titrated->ratio;
    slurry.volatile_acids = titrated->volatile_acids;
    slurry.titrated = true;
  } else if (both) {
    slurry.acids_to_alkalinity = science::acids_to_alkalinity(
        MilligramsPerLitre{acids->last->value}, MilligramsPerLitre{alkalinity->last->value});
  }
}

Souring worst_sign(const Slurry& slurry, const model::Rules& rules) {
  const bool sour =
      (slurry.ph && *slurry.ph < rules(limits::sour_ph)) ||
      (slurry.acids_to_alkalinity && *slurry.acids_to_alkalinity > rules(limits::sour_ratio));
  if (sour) return Souring::kSour;
  const bool watch =
      (slurry.ph && *slurry.ph < rules(limits::sour_ph_watch)) ||
      (slurry.acids_to_alkalinity &&
       *slurry.acids_to_alkalinity > rules(limits::sour_ratio_watch)) ||
      (slurry.volatile_acids && slurry.volatile_acids->value > rules(limits::sour_vfa).value) ||
      slurry.smells_sour;
  return watch ? Souring::kWatch : Souring::kNo;
}

std::string milligrams(MilligramsPerLitre content) {
  return Printer::labelled(content.value, "mg/L");
}

// Each sign that is off, with its limit.
std::vector<std::string> signs(const Slurry& slurry, const model::Rules& rules, Souring level,
                               const Printer& print) {
  const bool sour = level == Souring::kSour;
  const Ph ph_limit = rules(sour ? limits::sour_ph : limits::sour_ph_watch);
  const Number ratio_limit = rules(sour ? limits::sour_ratio : limits::sour_ratio_watch);
  std::vector<std::string> found;
  if (slurry.ph && *slurry.ph < ph_limit) {
    found.push_back(fmt::format("{}, below {}", print(*slurry.ph), print(ph_limit)));
  }
  if (slurry.acids_to_alkalinity && *slurry.acids_to_alkalinity > ratio_limit) {
    found.push_back(fmt::format("acids to alkalinity {} by {}, above {}",
                                measure::print_number(slurry.acids_to_alkalinity->value, 2),
                                slurry.titrated ? "titration" : "laboratory",
                                measure::print_number(ratio_limit.value, 2)));
  }
  const MilligramsPerLitre most{rules(limits::sour_vfa).value};
  if (slurry.volatile_acids && *slurry.volatile_acids > most) {
    found.push_back(fmt::format("volatile acids {}, above {}", milligrams(*slurry.volatile_acids),
                                milligrams(most)));
  }
  if (slurry.smells_sour) found.emplace_back("it smells sour");
  return found;
}

}  // namespace

std::optional<double> fresh(const model::History& history, std::string_view quantity,
                            Days longest) {
  const auto* found = fresh_series(history, quantity, longest);
  if (found == nullptr) return std::nullopt;
  return found->last->value;
}

Slurry slurry_of(const model::History& history, const model::Rules& rules, const Warmth& warmth) {
  Slurry slurry;
  const Days longest = rules(limits::sour_fresh);
  if (const auto ph = fresh(history, "ph", longest)) slurry.ph = Ph{*ph};
  find_acids(history, longest, slurry);
  const model::Sensed* smell = history.last_sensed("smell");
  slurry.smells_sour = smell != nullptr && smell->word == "sour" &&
                       days_between(smell->day, history.today) <= longest.value;
  slurry.souring = worst_sign(slurry, rules);
  const auto total = fresh(history, "tan", rules(limits::ammonia_fresh));
  const auto ph = fresh(history, "ph", rules(limits::ammonia_fresh));
  if (total && ph && warmth.mean) {
    const auto free = science::free_ammonia(MilligramsPerLitre{*total}, Ph{*ph}, *warmth.mean);
    if (free) slurry.free_ammonia = free->nitrogen;
  }
  return slurry;
}

std::vector<RatioDay> ratio_days(const model::History& history, bool titrated) {
  const auto* over = history.find(titrated ? "second-acid" : "vfa");
  const auto* under = history.find(titrated ? "first-acid" : "alkalinity");
  if (over == nullptr || under == nullptr) return {};
  const auto* sample = history.find("sample");
  std::vector<RatioDay> found;
  for (const model::DayRoll& above : over->days) {
    for (const model::DayRoll& below : under->days) {
      if (above.day != below.day) continue;
      std::optional<Number> ratio;
      if (titrated) {
        science::Titration titration{.to_ph_5 = Millilitres{below.last * 1000},
                                     .from_ph_5_to_4_4 = Millilitres{above.last * 1000}};
        if (sample != nullptr && sample->last) {
          titration.sample = Millilitres{sample->last->value * 1000};
        }
        if (const auto read = science::fos_tac(titration)) ratio = read->ratio;
      } else {
        ratio = science::acids_to_alkalinity(MilligramsPerLitre{above.last},
                                             MilligramsPerLitre{below.last});
      }
      if (ratio) found.push_back({above.day, *ratio});
    }
  }
  return found;
}

void judge_sour(const model::History& history, const model::Rules& rules, const Slurry& slurry,
                model::Assessment& into) {
  if (slurry.souring == Souring::kNo) return;
  const Printer print(history.units);
  const bool sour = slurry.souring == Souring::kSour;
  const Urgency urgency = sour ? Urgency::kNow : Urgency::kToday;
  const auto off = signs(slurry, rules, slurry.souring, print);
  const Ph ph_limit = rules(sour ? limits::sour_ph : limits::sour_ph_watch);
  model::Told made;
  if (slurry.ph && *slurry.ph < ph_limit) {
    made = finding("digester.sour", urgency, sour ? limits::sour_ph : limits::sour_ph_watch, rules);
    made.value = model::Measured{"ph", measure::value_of(*slurry.ph), ""};
  } else {
    made = finding("digester.sour", urgency, sour ? limits::sour_ratio : limits::sour_ratio_watch,
                   rules);
    if (slurry.acids_to_alkalinity) {
      made.value = model::Measured{"acids to alkalinity",
                                   measure::value_of(*slurry.acids_to_alkalinity), ""};
    }
  }
  made.words.says = (sour ? "souring: " : "turning sour: ") + measure::joined(off, "; ");
  made.words.why =
      "acids pile up faster than they turn to gas: too much feed, too cold, or something that "
      "harms it";
  made.words.action =
      sour ? "stop feeding, stir, keep it warm, read pH daily; feed again, half as much, once it "
             "is back at " +
                 print(rules(limits::sour_ph_watch)) +
                 "; only if it stays down after a week, fresh cattle manure or a little lime"
           : "halve the feed, leave out food and fat, and read pH daily";
  into.findings.push_back(std::move(made));
}

void judge_ammonia(const model::History& history, const model::Rules& rules, const Slurry& slurry,
                   model::Assessment& into) {
  const model::Sensed* smell = history.last_sensed("smell");
  const bool smells = smell != nullptr && smell->word == "ammonia" &&
                      days_between(smell->day, history.today) <= rules(limits::sour_fresh).value;
  const auto free = slurry.free_ammonia;
  const bool poisoned = free && free->value > rules(limits::ammonia_above).value;
  const bool edge = free && free->value > rules(limits::ammonia_watch).value;
  if (!poisoned && !edge && !smells) return;
  const auto rule = poisoned ? limits::ammonia_above : limits::ammonia_watch;
  model::Told made = finding("digester.ammonia",
                                poisoned ? Urgency::kNow
                                : edge   ? Urgency::kToday
                                         : Urgency::kSoon,
                                rule, rules);
  if (poisoned || edge) {
    made.value =
        model::Measured{"free ammonia", {measure::Dimension::kNumber, free->value}, "mg/L"};
    made.words.says = fmt::format("free ammonia about {} as nitrogen, above {}",
                            milligrams(MilligramsPerLitre{std::round(free->value)}),
                            milligrams(MilligramsPerLitre{rules(rule).value}));
    made.words.why =
        "reckoned for dilute water from total ammonia, pH and temperature: in slurry it is rather "
        "less";
  } else {
    made.words.says = "it smells of ammonia";
    made.words.why = free ? "" : "no analysis of total ammonia with a pH says how much";
  }
  made.words.action =
      "thin it with water, feed straw or plants rather than manure, and nothing of poultry";
  into.findings.push_back(std::move(made));
}

}  // namespace kinds::digester
