#include <fmt/format.h>

#include "kinds/finding.h"
#include "kinds/pile/facts.h"
#include "kinds/pile/says.h"
#include "kinds/thresholds.h"
#include "measure/text.h"

// What is said of a pile's days ahead.
namespace kinds::pile {
namespace {

namespace limits = thresholds::pile;
using measure::Celsius;

std::string interval(Celsius likely, Celsius low, Celsius high, const measure::Printer& print) {
  const measure::Unit& unit = measure::usual_unit(measure::Dimension::kTemperature, print.system());
  return fmt::format("{} ({:.0f} to {:.0f})", degrees(likely, print), unit.from_base(low.value),
                     unit.from_base(high.value));
}

std::string leaning_words(const Leaning& leaning, const measure::Printer& print) {
  std::vector<std::string> parts;
  if (leaning.site_piles > 0) {
    parts.push_back(fmt::format("the site's {} finished pile{}", leaning.site_piles,
                                leaning.site_piles == 1 ? "" : "s"));
  }
  if (leaning.replayed > 0)
    parts.push_back(fmt::format("{} forecasts of its own past", leaning.replayed));
  std::string text = "four readings in five should fall within";
  text += parts.empty() ? ", as on other sites' piles" : ", by " + measure::joined(parts, " and ");
  if (leaning.as_today) text += "; so far its past says no more than no change";
  if (leaning.after_turning) {
    text += fmt::format("; a turning cools it to about {} for some hours",
                        degrees(Celsius{*leaning.after_turning}, print));
  }
  return text;
}

std::string span_words(const model::Forecast& one, model::Day today) {
  std::string text = measure::day_words(*one.likely, today);
  if (one.earliest && one.latest && *one.earliest != *one.latest) {
    text += fmt::format(", between {} and {}", measure::day_words(*one.earliest, today),
                        measure::day_words(*one.latest, today));
  } else if (one.earliest && !one.latest) {
    text += fmt::format(", {} at the earliest", measure::day_words(*one.earliest, today));
  }
  return text;
}

}  // namespace

std::string degrees(Celsius temperature, const measure::Printer& print) {
  const measure::Unit& unit = measure::usual_unit(measure::Dimension::kTemperature, print.system());
  return fmt::format("{:.0f} {}", unit.from_base(temperature.value), unit.symbol);
}

std::string week_words(const std::vector<HeatForecast::Day>& next, const Leaning& leaning,
                       const Study& study) {
  std::vector<std::string> parts;
  for (const std::size_t i : {std::size_t{0}, std::size_t{1}, std::size_t{3}, next.size() - 1}) {
    if (i >= next.size()) continue;
    const std::string when =
        i == 0 ? "tomorrow" : measure::day_words(next[i].day, study.history().today);
    const std::string text = when + " " +
                             interval(Celsius{next[i].likely}, Celsius{next[i].low},
                                      Celsius{next[i].high}, study.print());
    if (parts.empty() || parts.back() != text) parts.push_back(text);
  }
  return fmt::format("at its warmest place {}; {}", measure::joined(parts, ", "),
                     leaning_words(leaning, study.print()));
}

std::string too_hot_words(const model::Forecast& hot, const Study& study) {
  return fmt::format("past {} on {}", study.print()(study.rules()(limits::hot_above)),
                     span_words(hot, study.history().today));
}

std::string too_hot_line(const Study& study) {
  return fmt::format("past {}: be there to turn it",
                     study.print()(study.rules()(limits::hot_above)));
}

std::string ready_line() {
  return "compost ready";
}

std::string met_line(const Treatment& one) {
  return fmt::format("{} met", one.name);
}

std::string cooled_words(const model::Forecast& cooled, const HotSpell& spell, const Study& study) {
  std::string text = fmt::format(
      "below {} about {}, if it is left alone; a turning may warm it again",
      study.print()(study.rules()(limits::cold_below)), span_words(cooled, study.history().today));
  if (spell.piles > 0) {
    text += fmt::format("; the site's {} finished pile{} stayed hot {:.0f} days", spell.piles,
                        spell.piles == 1 ? "" : "s", spell.days);
  }
  return text;
}

std::string cured_then_words(const model::Forecast& ready, const Study& study) {
  return fmt::format("about {}, with {} of curing", span_words(ready, study.history().today),
                     days_words(whole(study.rules()(limits::ready_curing))));
}

std::string cures_until_words(model::Day over, const Study& study) {
  return fmt::format("{} at the earliest, if it does not warm again",
                     measure::day_words(over, study.history().today));
}

std::string met_words(const Treatment& one, std::optional<model::Day> cooler, const Study& study) {
  const model::Day today = study.history().today;
  std::string text =
      fmt::format("{} at the earliest, if every day keeps {}",
                  measure::day_words(*one.earliest, today), rule_words(one.rule, study.print()));
  if (cooler) {
    text += fmt::format("; left alone it may be cooler than that from {}",
                        measure::day_words(*cooler, today));
  }
  return text;
}

model::Words heating_words(const model::Finding& finding, const Study& study) {
  const measure::Printer print = study.print();
  const model::Facts& facts = finding.facts;
  std::string foreseen;
  if (const auto likely = facts.get(kForeseen)) {
    foreseen = interval(*likely, facts(kForeseenLow), facts(kForeseenHigh), print) +
               " is foreseen for tomorrow";
  }
  model::Words words;
  words.line = fmt::format("turn or open it: {}, heading for {}", degrees(facts(kNow), print),
                           degrees(facts(kLimit), print));
  if (facts.is(kByTrend)) {
    const std::string_view link = !facts.has(kForeseen) ? ""
                                  : facts.is(kByModel)  ? ", and "
                                                        : ", but ";
    words.says = fmt::format("{} is {} and rising; {}{}at this rate it passes {}",
                             place_words(facts(kPosition)), print(facts(kNow)), foreseen, link,
                             print(facts(kLimit)));
  } else {
    words.says = fmt::format("it is {}, {}, and it is on its way past {}", print(facts(kNow)),
                             foreseen, print(facts(kLimit)));
  }
  words.action = "turn it or open it before then, and read it again tomorrow";
  return words;
}

}  // namespace kinds::pile
