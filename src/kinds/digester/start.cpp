#include "kinds/digester/start.h"

#include <cmath>
#include <vector>

#include "kinds/digester/words.h"
#include "kinds/thresholds.h"
#include "kinds/finding.h"
#include "measure/text.h"
#include "measure/unit.h"

namespace kinds::digester {
namespace {

namespace limits = thresholds::digester;
using measure::Days;
using measure::Litres;
using measure::Printer;
using model::Day;
using model::Urgency;

std::string parts_words(const Startup& startup) {
  const double parts = startup.manure > Litres{0} ? startup.water / startup.manure : 0;
  return fmt::format("1 part of manure to {} part{} of water by volume",
                     measure::print_number(parts, 1), std::fabs(parts - 1) < 0.05 ? "" : "s");
}

std::string waited_words(const model::History& history, const model::Rules& rules,
                         const Startup& startup) {
  const int days = days_between(*startup.filled_on, history.today);
  if (!startup.waited_is_read) {
    return fmt::format("{} since it was filled; about {} are usual, and no temperature was read",
                       days_words(days), measure::print_number(startup.needed.value, 0));
  }
  return fmt::format("{} since it was filled, worth {} at {}; about {} are usual", days_words(days),
                     days_words(full_days(startup.waited)),
                     Printer(history.units)(rules(limits::start_at)),
                     measure::print_number(startup.needed.value, 0));
}

bool mix_is_off(const Startup& startup, const model::Rules& rules) {
  if (startup.manure <= Litres{0}) return false;
  const double parts = startup.water / startup.manure;
  return parts < rules(limits::start_water_least).value ||
         parts > rules(limits::start_water_most).value;
}

// A volume to two figures, as a bucket measures it.
std::string about(Litres volume, const Printer& print) {
  const double unit = measure::usual_unit(measure::Dimension::kVolume, print.system()).to_base(1);
  const double shown = volume.value / unit;
  if (!(shown > 0)) return slurry_words(volume, print);
  const double step = two_figure_step(shown);
  return "about " + slurry_words(Litres{std::round(shown / step) * step * unit}, print);
}

// What brings the mix to its 1 to N: how much of what, within the room that is left; where there is
// too little room, how much to draw off first, and what comes of doing without.
std::string mend_words(const model::History& history, const model::Rules& rules,
                       const Startup& startup) {
  if (!mix_is_off(startup, rules)) return "";
  const Printer print(history.units);
  const double wanted = rules(limits::start_water).value;
  const double least = rules(limits::start_water_least).value;
  const double most = rules(limits::start_water_most).value;
  const bool is_thin = startup.water > startup.manure * most;
  const std::string what = is_thin ? "manure" : "water";
  const auto lacking = [&](double parts) {
    return is_thin ? startup.water / parts - startup.manure
                   : startup.manure * parts - startup.water;
  };
  const Litres add = wanted > 0 ? lacking(wanted) : Litres{};
  if (!(add > Litres{0})) return "";  // a rule of the site that asks for no such mix
  const std::string ratio =
      fmt::format("1 part of manure to {} of water", measure::print_number(wanted, 1));
  const auto volume = history.batch.number("volume");
  if (!volume || !(volume->si > 0)) {
    return fmt::format(
        "add {} of {} for {}; its volume was not told: where it has no room for that, draw slurry "
        "off first",
        about(add, print), what, ratio);
  }
  const Litres room = std::max(Litres{volume->si} - startup.held, Litres{0});
  if (add <= room) {
    return fmt::format("add {} of {} for {}; it has room for {}", about(add, print), what, ratio,
                       about(room, print));
  }
  // Less is in it by the share that is drawn off, and less is lacking by the same.
  const double left = volume->si / (startup.held + add).value;
  const std::string first =
      fmt::format("draw {} off first and add {} of {}", about(startup.held * (1 - left), print),
                  about(add * left, print), what);
  const std::string too = is_thin ? "thinner" : "thicker";
  const Litres some = lacking(is_thin ? most : least);
  if (some <= room) {
    return fmt::format(
        "add {} of {}, as much as it has room for, and take it somewhat {}; for {} {}",
        about(room, print), what, too, ratio, first);
  }
  return fmt::format("for {} {}, as it has room for {}; or take it as it is, {} than it should be",
                     ratio, first, room > Litres{0} ? about(room, print) : "no more", too);
}

// Why there is no gas that burns, in the order in which it is worth looking: temperature first.
std::vector<std::string> reasons(const model::History& history, const model::Rules& rules,
                                 const Startup& startup, const Warmth& warmth) {
  const Printer print(history.units);
  std::vector<std::string> found;
  if (warmth.cold) {
    found.push_back(fmt::format("it is cold: {} is {}, and it wants {}",
                                window_words(warmth, rules), print(*warmth.mean),
                                print(rules(limits::cold_below))));
  } else if (!warmth.mean) {
    found.emplace_back("its temperature is not read often enough to say whether it is cold");
  }
  if (!startup.hoofed && startup.inoculum <= Litres{0}) {
    found.emplace_back(
        "nothing in it brings the microbes: no manure of hoofed animals, no effluent");
  }
  if (mix_is_off(startup, rules)) found.push_back("the mix: " + parts_words(startup));
  if (!startup.other_feed.empty()) {
    found.push_back(startup.other_feed + " went in before it worked, which turns it sour");
  }
  const model::Series* ph = history.find("ph");
  if (ph != nullptr && ph->last && measure::Ph{ph->last->value} < rules(limits::sour_ph_watch)) {
    found.push_back("it is sour: " + print(measure::Ph{ph->last->value}));
  }
  return found;
}

}  // namespace

void list_startup(const model::History& history, const model::Rules& rules, const Startup& startup,
                  model::Assessment& into) {
  if (startup.running()) return;
  const Printer print(history.units);
  const auto add = [&](const char* goal, std::string says, std::optional<double> share,
                       bool at_leisure = false) {
    into.progress.push_back({goal, std::move(says), share, at_leisure});
  };
  // Once it is filled, what went in well is no news.
  const bool filled = startup.filled_on.has_value();
  const auto volume = history.batch.number("volume");
  if (startup.filled_on) {
    add("filled", fmt::format("yes, {}", measure::day_words(*startup.filled_on, history.today)),
        1.0);
  } else if (volume && volume->si > 0) {
    into.progress.push_back(progress("filled", startup.held.value, volume->si,
                                     fmt::format("{} of {}", slurry_words(startup.held, print),
                                                 slurry_words(Litres{volume->si}, print))));
  }
  add("manure to water",
      startup.manure > Litres{0}
          ? fmt::format("{}; wanted 1 to {}", parts_words(startup),
                        measure::print_number(rules(limits::start_water).value, 1))
          : fmt::format("no manure is recorded; wanted: 1 part to {} of water by volume",
                        measure::print_number(rules(limits::start_water).value, 1)),
      std::nullopt, filled && startup.manure > Litres{0} && !mix_is_off(startup, rules));
  add("starter",
      startup.inoculum > Litres{0} ? slurry_words(startup.inoculum, print) + " of effluent"
      : startup.hoofed ? "the manure of hoofed animals brings its own; some effluent of a "
                         "working digester makes it quicker"
                       : "none: add manure of hoofed animals, or effluent of a working digester",
      std::nullopt, filled && (startup.hoofed || startup.inoculum > Litres{0}));
  if (startup.filled_on) {
    into.progress.push_back(progress("gas that burns", startup.waited.value, startup.needed.value,
                                     "waiting, " + waited_words(history, rules, startup)));
  }
  add("first gas",
      fmt::format("is let off for {}, not used",
                  days_words(static_cast<int>(rules(limits::start_letoff).value))),
      std::nullopt, filled);
}

void judge_start(const model::History& history, const model::Rules& rules, const Startup& startup,
                 const Warmth& warmth, model::Assessment& into) {
  if (startup.running() || !startup.filled_on) return;
  const int days = days_between(*startup.filled_on, history.today);
  const bool late = days > startup.needed.value;
  const bool off = mix_is_off(startup, rules) ||
                   (!startup.hoofed && startup.inoculum <= Litres{0}) ||
                   !startup.other_feed.empty();
  if (!late && !off) return;
  // Late by the calendar only: the cold explains it, and waiting or warming mends it.
  const bool only_cold = late && startup.waited_is_read && startup.waited < startup.needed && !off;
  model::Told made =
      finding("digester.start", late && !only_cold ? Urgency::kToday : Urgency::kSoon,
              limits::start_days, rules);
  made.value =
      model::Measured{"time since filling", measure::value_of(Days{static_cast<double>(days)}), ""};
  made.words.says = late ? "no gas that burns yet: " + waited_words(history, rules, startup)
                   : "filled, but not as it should be";
  made.words.why = measure::joined(reasons(history, rules, startup, warmth), "; ");
  if (made.words.why.empty()) made.words.why = "nothing in the records says why; a leak lets gas out unseen";
  const std::string mend = mend_words(history, rules, startup);
  made.words.action =
      only_cold ? "warm it or wait, and do not feed it yet"
      : late ? joined("do not feed it; see to these in this order, and check the joints for leaks",
                      mend.empty() ? "" : "for the mix: " + mend)
             : joined(mend, "set right what is named before you feed it");
  made.old_caution = kGasCaution;
  into.findings.push_back(std::move(made));
}

void judge_first_gas(const model::History& history, const model::Rules& rules,
                     const Startup& startup, model::Assessment& into) {
  if (!startup.gas_on || !startup.filled_on || startup.taken_over) return;
  const auto letoff = date::days{static_cast<int>(rules(limits::start_letoff).value)};
  const Day until = *startup.gas_on + letoff;
  const bool let_off = history.deeds_since("vented", *startup.gas_on) > 0;
  if (history.today >= until && (let_off || startup.running())) return;
  model::Told made = finding("digester.firstgas", Urgency::kToday, limits::start_letoff, rules);
  made.words.says =
      fmt::format("its first gas came on {}", measure::day_words(*startup.gas_on, history.today));
  made.words.why =
      "the first gas holds air and too little methane: it can explode in the holder, and burns "
      "badly";
  made.words.action = fmt::format("let it off outdoors, use none before {}, and log vented",
                            measure::day_words(until, history.today));
  made.old_caution = kGasCaution;
  into.findings.push_back(std::move(made));
}

void judge_restart(const model::History& history, const model::Rules& rules, const Warmth& warmth,
                   model::Assessment& into) {
  if (!is_resting(history) || !warmth.mean || warmth.cold) return;
  const Printer print(history.units);
  model::Told made = finding("digester.restart", Urgency::kReady, limits::cold_below, rules);
  made.value = model::Measured{"temperature", measure::value_of(*warmth.mean), ""};
  made.words.says = fmt::format("resting, and warm enough again: {} is {}", window_words(warmth, rules),
                          print(*warmth.mean));
  made.words.action = "check it for leaks, feed it little by little, and let the first gas off";
  made.old_caution = kGasCaution;
  into.findings.push_back(std::move(made));
}

}  // namespace kinds::digester
