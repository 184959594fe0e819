#include <cmath>

#include "kinds/digester/facts.h"
#include "kinds/digester/says.h"
#include "kinds/digester/vocabulary.h"
#include "kinds/finding.h"
#include "kinds/thresholds.h"
#include "measure/text.h"
#include "measure/unit.h"

// Of its gas, and of the feed and the warmth that it comes from.
namespace kinds::digester {
namespace {

namespace limits = thresholds::digester;
using measure::Fraction;
using measure::Kelvins;
using measure::Printer;
using model::Finding;
using model::Progress;
using model::Reason;
using model::Words;
using science::NormalLitres;

NormalLitres normal(measure::Litres gas) {
  return NormalLitres{gas.value};
}

// A likely reason, what to do about it, and that in a few words.
struct Told {
  std::string why, action, brief;
};

Told told(const Reason& reason, const Study& study) {
  if (reason.id == kReasonSour)
    return {"the slurry turns sour", "see digester.sour first", "stop the souring"};
  if (reason.id == kReasonCold)
    return {fmt::format("it is cold, {} is {}", window_words(study),
                        study.print()(reason.facts(kMean))),
            "keep it warm and feed less", "keep it warm, feed less"};
  if (reason.id == kReasonUnderfed) {
    const double loading = reason.facts(kLoadingNow).value;
    if (loading <= 0)
      return {
          fmt::format("it is fed little, nothing in the last {}", days_words(reason.facts(kDays))),
          "feed it a little every day", "feed it a little daily"};
    return {"it is fed little, " + loading_words(loading), "feed it a little more every day",
            "feed it a little more"};
  }
  const auto checked = reason.facts.get(kDay);
  const std::string last =
      checked ? "last checked for leaks on " + measure::day_words(*checked, study.history().today)
              : "no check for leaks is logged";
  return {fmt::format("a leak, a blocked line or the meter ({}){}", last,
                      reason.facts.is(kPhUnread) ? "; or souring: no pH was read lately" : ""),
          "brush soapy water on every joint and look for bubbles, drain the trap, read pH",
          "soap the joints"};
}

std::string case_words(const Finding& finding, const Study& study) {
  const Printer print = study.print();
  const auto& facts = finding.facts;
  if (finding.case_of == kCaseBelowDue)
    return fmt::format(
        "{} of gas a day over {}, {} of the {} that its feed and temperature should give",
        gas_words(normal(facts(kGasADay)), print), days_words(facts(kDays)),
        print(Fraction{std::round(facts(kShare).value * 100) / 100}),
        gas_words(normal(facts(kGasDue)), print));
  if (finding.case_of == kCaseFell)
    return fmt::format("gas has fallen to {} a day, from {} over the {} before",
                       gas_words(normal(facts(kGasADay)), print),
                       gas_words(normal(facts(kGasBefore)), print), days_words(facts(kDaysBefore)));
  return std::string(finding.case_of == kCaseNoFlame ? "the gas did not burn"
                                                     : "the flame is weak") +
         (facts.is(kEnoughGas) ? ", though there is enough gas: too little methane in it"
                               : ", and too little gas is measured to say how much there is");
}

std::string brief_words(const Finding& finding) {
  if (finding.case_of == kCaseNoFlame) return "the gas did not burn";
  if (finding.case_of == kCaseWeak) return "weak flame";
  const double share = finding.facts(kShare).value * 100;
  return finding.case_of == kCaseFell ? fmt::format("gas fell to {:.0f} %", share)
                                      : fmt::format("{:.0f} % of its gas", share);
}

}  // namespace

Words low_gas_words(const Finding& finding, const Study& study) {
  Words words{.line = "", .says = case_words(finding, study)};
  for (const Reason& reason : finding.reasons) {
    const Told one = told(reason, study);
    const bool first = words.line.empty();
    if (first) words.line = one.brief + ": " + brief_words(finding);
    words.why += (first ? "likely " : "; ") + one.why;
    words.action += (first ? "" : "; ") + one.action;
  }
  return words;
}

std::optional<Progress> gas_line(const Study& study) {
  const auto& gas = study.compared();
  if (!gas) return std::nullopt;
  std::string says =
      fmt::format("{} a day over {}, at {} and dry", gas_words(gas->measured.a_day, study.print()),
                  days_words(gas->measured.days()), freezing_words(study.print()));
  if (gas->expected) {
    const double share = gas->measured.a_day / *gas->expected;
    says += share < 2 ? fmt::format("; {:.0f} % of what its feed and temperature should give",
                                    share * 100)
                      : fmt::format(
                            "; {:.0f} times what its feed and temperature should give: look at the "
                            "meter, its unit, and whether all feed was logged",
                            share);
  }
  const auto holder = study.history().batch.number(kHolder);
  if (holder && gas->measured.a_day.value > 0) {
    says += fmt::format("; the holder takes {:.0f} hours of it",
                        holder->si / gas->measured.metered_a_day.value * 24);
  }
  if (!study.feed().unknown.empty()) {
    says += "; gas of " + measure::joined(study.feed().unknown, ", ") + " is not reckoned";
  }
  return Progress{"gas", std::move(says), std::nullopt};
}

std::optional<Progress> due_line(const Study& study) {
  const auto& due = study.due();
  if (!due) return std::nullopt;
  const Printer print = study.print();
  std::string says = fmt::format(
      "{} to {} a day by what was fed and how warm it was, over {} (at {} and dry)",
      about_gas_words(due->least, print), about_gas_words(due->most, print),
      days_words(full_days(study.rules()(limits::lowgas_window))), freezing_words(print));
  if (due->washed_out) {
    says +=
        "; none by Chen and Hashimoto's model of a stirred digester: feed leaves it faster than "
        "the microbes grow";
  } else if (due->stirred) {
    says += fmt::format(
        "; {} by Chen and Hashimoto's model of a stirred digester long fed so (an "
        "unstirred one gives less)",
        about_gas_words(*due->stirred, print));
  }
  return Progress{"gas due", std::move(says), std::nullopt, true};
}

std::optional<model::Forecast> gas_forecast(const Study& study) {
  const auto ahead = foresee_gas(study.history(), study.rules(), study.feed(), study.warmth(),
                                 study.gas(), study.expected());
  if (!ahead) return std::nullopt;
  const Printer print = study.print();
  std::string basis = "by its feed and temperature, ";
  basis += ahead->own_days == 0 ? "not yet compared with a meter"
                                : fmt::format("and the {:.0f} % of it that it gave in {}",
                                              ahead->own * 100, days_words(ahead->own_days));
  const auto& mean = study.warmth().mean;
  model::Forecast made;
  made.what = "gas ahead";
  made.likely = ahead->last;
  made.says = fmt::format(
      "about {} a day ({} to {}; at {} and dry) over the next {} if it is fed as lately and "
      "stays within {} of {}; {}",
      about_gas_words(ahead->likely, print), about_gas_words(ahead->low, print),
      about_gas_words(ahead->high, print), freezing_words(print),
      days_words(full_days(study.rules()(limits::forecast_ahead))),
      print.difference(study.rules()(limits::forecast_spread)), mean ? print(*mean) : "what it was",
      basis);
  return made;
}

std::optional<Progress> feed_line(const Study& study) {
  const Feed& feed = study.feed();
  if (!feed.loading) {
    if (feed.working_volume || feed.loads.empty()) return std::nullopt;
    return Progress{"feed", "loading not worked out: its working volume was not said",
                    std::nullopt};
  }
  const auto at = study.warmth().mean.value_or(study.rules()(limits::overfed_at));
  const std::string most = loading_words(loading_limit(at, study.rules()).value);
  std::string says = feed.retention ? fmt::format("{} of at most {}; feed stays {}",
                                                  loading_words(feed.loading->value), most,
                                                  days_words(full_days(*feed.retention)))
                                    : fmt::format("none in the last {}; at most {}",
                                                  days_words(full_days(feed.window)), most);
  if (!feed.unknown.empty()) {
    says +=
        "; not counted, its volatile solids are not known: " + measure::joined(feed.unknown, ", ");
  }
  return Progress{"feed", std::move(says), std::nullopt};
}

std::string loading_words(double loading) {
  return Printer::labelled(std::round(loading * 100) / 100, limits::overfed_above.info->label);
}

std::string loading_words(double loading, double limit) {
  const std::string usual = loading_words(loading);
  if (loading == limit || usual != loading_words(limit)) return usual;
  return fmt::format("{} {}", measure::print_number(loading, 4), limits::overfed_above.info->label);
}

double two_figure_step(double number) {
  return std::pow(10, std::floor(std::log10(number)) - 1);
}

std::string daily_amount(const Feed& feed, double share, const Printer& print) {
  const measure::Unit& unit = measure::usual_unit(feed.lately.dimension, print.system());
  const double shown = unit.from_base(feed.lately.si / feed.window.value * share);
  const double step = shown > 0 ? two_figure_step(shown) : 1;
  constexpr double kRounding = 1e-9;
  return Printer::labelled(std::floor(shown / step + kRounding) * step, unit.symbol);
}

std::string daily_words(const Feed& feed, double share, const Printer& print) {
  return fmt::format("{} of {}", daily_amount(feed, share, print), feed.lately_of);
}

std::string slurry_words(measure::Litres volume, const Printer& print) {
  return print(measure::value_of(volume), kSlurryShown);
}

std::string gas_words(NormalLitres gas, const Printer& print) {
  return print({measure::Dimension::kVolume, gas.value}, kGasVolume);
}

std::string freezing_words(const Printer& print) {
  return print(measure::Celsius{0});
}

std::string about_gas_words(NormalLitres gas, const Printer& print) {
  const double unit =
      print.system() == measure::UnitSystem::kUs ? measure::unit(kGasVolume.us).to_base(1) : 1;
  const double shown = gas.value / unit;
  if (shown <= 0) return gas_words(gas, print);
  const double step = two_figure_step(shown);
  return gas_words(NormalLitres{std::round(shown / step) * step * unit}, print);
}

}  // namespace kinds::digester
