#include "kinds/digester/slurry.h"

#include <algorithm>
#include <vector>

#include "kinds/digester/facts.h"
#include "kinds/digester/study.h"
#include "kinds/digester/vocabulary.h"
#include "kinds/finding.h"
#include "kinds/thresholds.h"
#include "science/gas/chemistry.h"

namespace kinds::digester {
namespace {

namespace limits = thresholds::digester;
using measure::Days;
using measure::Number;
using measure::Ph;
using By = model::Ending::By;
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
  const auto* first = fresh_series(history, kFirstAcid, longest);
  const auto* second = fresh_series(history, kSecondAcid, longest);
  if (first == nullptr || second == nullptr) return std::nullopt;
  if (first->days.back().day != second->days.back().day) return std::nullopt;
  science::Titration read{.to_ph_5 = Millilitres{first->last->value * 1000},
                          .from_ph_5_to_4_4 = Millilitres{second->last->value * 1000}};
  const auto* sample = history.find(kSample);
  if (sample != nullptr && sample->last) read.sample = Millilitres{sample->last->value * 1000};
  return science::fos_tac(read);
}

void find_acids(const model::History& history, Days longest, Slurry& slurry) {
  const auto* acids = fresh_series(history, kAcids, longest);
  const auto* alkalinity = fresh_series(history, kAlkalinity, longest);
  if (acids != nullptr) slurry.volatile_acids = MilligramsPerLitre{acids->last->value};
  const auto titrated = titration(history, longest);
  const bool both = acids != nullptr && alkalinity != nullptr;
  const auto* first = history.find(kFirstAcid);
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
  if (const auto ph = fresh(history, kAcidity, longest)) slurry.ph = Ph{*ph};
  find_acids(history, longest, slurry);
  const model::Sensed* smell = history.last_sensed(kSenseSmell);
  slurry.smells_sour = smell != nullptr && smell->word == kSourSmell.word &&
                       days_between(smell->day, history.today) <= longest.value;
  slurry.souring = worst_sign(slurry, rules);
  const auto total = fresh(history, kTotalAmmonia, rules(limits::ammonia_fresh));
  const auto ph = fresh(history, kAcidity, rules(limits::ammonia_fresh));
  if (total) slurry.total_ammonia = MilligramsPerLitre{*total};
  if (total && ph && warmth.mean) {
    const auto free = science::free_ammonia(MilligramsPerLitre{*total}, Ph{*ph}, *warmth.mean);
    if (free) slurry.free_ammonia = free->nitrogen;
  }
  return slurry;
}

std::vector<RatioDay> ratio_days(const model::History& history, bool titrated) {
  const auto* over = history.find(titrated ? kSecondAcid : kAcids);
  const auto* under = history.find(titrated ? kFirstAcid : kAlkalinity);
  if (over == nullptr || under == nullptr) return {};
  const auto* sample = history.find(kSample);
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

Found judge_sour(const Study& study) {
  const Slurry& slurry = study.slurry();
  if (slurry.souring == Souring::kNo) return std::nullopt;
  const model::Rules& rules = study.rules();
  const bool sour = slurry.souring == Souring::kSour;
  const auto by_ph = sour ? limits::sour_ph : limits::sour_ph_watch;
  const bool is_by_ph = slurry.ph && *slurry.ph < rules(by_ph);
  const Urgency urgency = sour ? Urgency::kNow : Urgency::kToday;
  model::Finding made = is_by_ph
                            ? finding(kRuleSour, urgency, by_ph, rules)
                            : finding(kRuleSour, urgency,
                                      sour ? limits::sour_ratio : limits::sour_ratio_watch, rules);
  made.case_of = sour ? kCaseSour : kCaseTurning;
  made.job = kJobFeed;
  if (is_by_ph) {
    made.value = model::Measured{kAcidity.name.data(), measure::value_of(*slurry.ph), ""};
  } else if (slurry.acids_to_alkalinity) {
    made.value =
        model::Measured{"acids to alkalinity", measure::value_of(*slurry.acids_to_alkalinity), ""};
  }
  if (slurry.ph) made.facts.set(kPhNow, *slurry.ph);
  if (slurry.acids_to_alkalinity) made.facts.set(kRatio, *slurry.acids_to_alkalinity);
  made.facts.set(kTitrated, slurry.titrated);
  if (slurry.volatile_acids) made.facts.set(kAcidsNow, Number{slurry.volatile_acids->value});
  made.facts.set(kSmellsSour, slurry.smells_sour);
  made.ends = {{.by = By::kReading, .name = std::string(kAcidity)},
               {.by = By::kReading, .name = std::string(kSecondAcid)},
               {.by = By::kJudgement, .name = std::string(kEarthy)}};
  return made;
}

Found judge_ammonia(const Study& study) {
  const model::Rules& rules = study.rules();
  const model::History& history = study.history();
  const model::Sensed* smell = history.last_sensed(kSenseSmell);
  const bool smells = smell != nullptr && smell->word == kAmmonia.word &&
                      days_between(smell->day, history.today) <= rules(limits::sour_fresh).value;
  const auto free = study.slurry().free_ammonia;
  const bool poisoned = free && free->value > rules(limits::ammonia_above).value;
  const bool edge = free && free->value > rules(limits::ammonia_watch).value;
  const bool reckoned = poisoned || edge;
  const auto total = study.slurry().total_ammonia;
  const bool much = total && total->value > rules(limits::ammonia_total).value;
  if (!reckoned && !much && !smells) return std::nullopt;
  const auto rule = poisoned ? limits::ammonia_above
                    : edge   ? limits::ammonia_watch
                    : much   ? limits::ammonia_total
                             : limits::ammonia_watch;
  model::Finding made = finding(kRuleAmmonia,
                                poisoned       ? Urgency::kNow
                                : edge || much ? Urgency::kToday
                                               : Urgency::kSoon,
                                rule, rules);
  made.case_of = reckoned ? kCaseFree : much ? kCaseTotal : kCaseSmell;
  made.job = kJobFeed;
  const auto milligrams = [](double value) {
    return measure::Value{measure::Dimension::kNumber, value};
  };
  if (reckoned) {
    made.value = model::Measured{"free ammonia", milligrams(free->value), "mg/L"};
  } else if (much) {
    made.value = model::Measured{"total ammonia", milligrams(total->value), "mg/L"};
  }
  if (free) made.facts.set(kFreeAmmoniaNow, Number{free->value});
  if (total) made.facts.set(kTotalNow, Number{total->value});
  made.ends = {{.by = By::kReading, .name = std::string(kTotalAmmonia)},
               {.by = By::kReading, .name = std::string(kAcidity)}};
  return made;
}

Found judge_nitrogen(const Study& study) {
  const auto ratio = study.mix().c_to_n;
  if (!ratio || *ratio >= study.rules()(limits::mix_cn_danger)) return std::nullopt;
  model::Finding made =
      finding(kRuleNitrogen, Urgency::kToday, limits::mix_cn_danger, study.rules());
  made.job = kJobFeed;
  made.value = model::Measured{"carbon to nitrogen of the feed", measure::value_of(*ratio), ""};
  made.facts.set(kFeedRatio, *ratio);
  made.ends = {{.by = By::kAdding}};
  return made;
}

}  // namespace kinds::digester
