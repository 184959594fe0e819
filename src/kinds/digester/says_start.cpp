#include <cmath>

#include "kinds/digester/facts.h"
#include "kinds/digester/says.h"
#include "kinds/digester/start.h"
#include "kinds/digester/vocabulary.h"
#include "kinds/finding.h"
#include "kinds/thresholds.h"
#include "measure/text.h"
#include "measure/unit.h"

// Of its start: the filling, the wait for gas that burns, and what mends a mix.
namespace kinds::digester {
namespace {

namespace limits = thresholds::digester;
using measure::Litres;
using measure::Printer;
using model::Finding;
using model::Reason;
using model::Words;

std::string parts_words(double parts) {
  return fmt::format("1 part of manure to {} part{} of water by volume",
                     measure::print_number(parts, 1), std::fabs(parts - 1) < 0.05 ? "" : "s");
}

std::string waited_words(const Study& study) {
  const Startup& startup = study.startup();
  const int days = days_between(*startup.filled_on, study.history().today);
  const std::string needed = measure::print_number(startup.needed.value, 0);
  if (!startup.waited_is_read) {
    return fmt::format("{} since it was filled; about {} are usual, and no temperature was read",
                       days_words(days), needed);
  }
  return fmt::format("{} since it was filled, worth {} at {}; about {} are usual", days_words(days),
                     days_words(full_days(startup.waited)),
                     study.print()(study.rules()(limits::start_at)), needed);
}

// A volume to two figures, as a bucket measures it.
std::string about(Litres volume, const Printer& print) {
  const double unit = measure::usual_unit(measure::Dimension::kVolume, print.system()).to_base(1);
  const double shown = volume.value / unit;
  if (!(shown > 0)) return slurry_words(volume, print);
  const double step = two_figure_step(shown);
  return "about " + slurry_words(Litres{std::round(shown / step) * step * unit}, print);
}

// What brings the mix to its 1 to N, and what comes of doing without.
std::string mend_words(const model::Facts& facts, const Study& study) {
  const auto add = facts.get(kAdd);
  if (!add) return "";
  const Printer print = study.print();
  const bool thin = facts.is(kThin);
  const std::string what = thin ? "manure" : "water";
  const std::string too = thin ? "thinner" : "thicker";
  const std::string ratio =
      fmt::format("1 part of manure to {} of water",
                  measure::print_number(study.rules()(limits::start_water).value, 1));
  const auto room = facts.get(kRoom);
  if (!room) {
    return fmt::format(
        "add {} of {} for {}; its volume was not given: if it has no room for that, draw slurry "
        "off first",
        about(*add, print), what, ratio);
  }
  const auto draw = facts.get(kDrawOff);
  if (!draw) {
    return fmt::format("add {} of {} for {}; it has room for {}", about(*add, print), what, ratio,
                       about(*room, print));
  }
  const std::string first = fmt::format("draw {} off first and add {} of {}", about(*draw, print),
                                        about(facts(kAddAfter), print), what);
  if (facts.is(kSomeFits)) {
    return fmt::format(
        "add {} of {}, as much as it has room for, and take it somewhat {}; for {} {}",
        about(*room, print), what, too, ratio, first);
  }
  return fmt::format("for {} {}, as it has room for {}; or take it as it is, {} than it should be",
                     ratio, first, *room > Litres{0} ? about(*room, print) : "no more", too);
}

std::string reason_words(const Reason& reason, const Study& study) {
  const Printer print = study.print();
  if (reason.id == kReasonCold)
    return fmt::format("it is cold: {} is {}, and it wants {}", window_words(study),
                       print(reason.facts(kMean)), print(study.rules()(limits::cold_below)));
  if (reason.id == kReasonUnread)
    return "its temperature is not read often enough to say whether it is cold";
  if (reason.id == kReasonNoMicrobes)
    return "nothing in it brings the microbes: no manure from hoofed animals, no effluent";
  if (reason.id == kReasonMix) return "the mix: " + parts_words(reason.facts(kParts).value);
  if (reason.id == kReasonOtherFeed)
    return reason.facts(kMaterial) + " went in before it worked, which turns it sour";
  return "it is sour: " + print(reason.facts(kPhNow));
}

// Of one that is not filled as it should be: its first fault.
std::string off_line(const Finding& finding) {
  for (const Reason& reason : finding.reasons) {
    if (reason.id == kReasonNoMicrobes) return "add effluent or cow manure: no microbes in it";
    if (reason.id == kReasonMix)
      return fmt::format("mend the mix: 1 manure to {} water",
                         measure::print_number(reason.facts(kParts).value, 1));
    if (reason.id == kReasonOtherFeed)
      return fitting({fmt::format("feed it nothing yet: {} went in", reason.facts(kMaterial)),
                      "feed it nothing yet: food went in"});
  }
  return "get the filling right before you feed it";
}

}  // namespace

Words start_words(const Finding& finding, const Study& study) {
  const std::string days = days_words(finding.facts(kDays));
  if (finding.case_of == kCaseUnknown)
    return {.line = "look whether it burns: silent " + days,
            .says = fmt::format("whether its gas burns is not known: nothing logged for {}", days),
            .why = "what nobody looked at is neither late nor fine",
            .action =
                "look at the flame outdoors and log flame=blue or flame=none, read its "
                "temperature, and feed it nothing until you know"};
  const bool only_cold = finding.case_of == kCaseOnlyCold, late = finding.case_of != kCaseOff;
  Words words{.line = only_cold ? fmt::format("warm it or wait, no feed: {} without gas", days)
                      : late    ? fmt::format("do not feed, find why: {} without gas", days)
                                : off_line(finding),
              .says = late ? "no gas that burns yet: " + waited_words(study)
                           : "filled, but not as it should be"};
  std::vector<std::string> why;
  for (const Reason& reason : finding.reasons) why.push_back(reason_words(reason, study));
  words.why = measure::joined(why, "; ");
  if (why.empty()) words.why = "nothing in the records says why; a leak lets gas out unseen";
  const std::string mend = mend_words(finding.facts, study);
  words.action =
      only_cold ? "warm it or wait, and do not feed it yet"
      : late ? joined("do not feed it; see to these in this order, and check the joints for leaks",
                      mend.empty() ? "" : "for the mix: " + mend)
             : joined(mend, "set right what is named before you feed it");
  return words;
}

std::vector<model::Progress> startup_lines(const Study& study) {
  std::vector<model::Progress> lines;
  const Startup& startup = study.startup();
  if (study.running()) return lines;
  const Printer print = study.print();
  const model::Rules& rules = study.rules();
  const auto add = [&](const char* goal, std::string says, std::optional<double> share,
                       bool at_leisure = false) {
    lines.push_back({goal, std::move(says), share, at_leisure});
  };
  // Once it is filled, what went in well is no news.
  const bool filled = startup.filled_on.has_value();
  const auto volume = study.history().batch.number(kVolume);
  if (startup.filled_on) {
    add(kFilled.word.data(),
        fmt::format("yes, {}", measure::day_words(*startup.filled_on, study.history().today)), 1.0);
  } else if (volume && volume->si > 0) {
    lines.push_back(kinds::progress(kFilled.word, startup.held.value, volume->si,
                                    fmt::format("{} of {}", slurry_words(startup.held, print),
                                                slurry_words(Litres{volume->si}, print))));
  }
  const bool manure = startup.manure > Litres{0};
  const std::string wanted = measure::print_number(rules(limits::start_water).value, 1);
  add("manure to water",
      manure
          ? fmt::format("{}; wanted 1 to {}", parts_words(startup.water / startup.manure), wanted)
          : fmt::format("no manure is recorded; wanted: 1 part to {} of water by volume", wanted),
      std::nullopt, filled && manure && !mix_is_off(startup, rules));
  add("starter",
      startup.inoculum > Litres{0} ? slurry_words(startup.inoculum, print) + " of effluent"
      : startup.hoofed ? "the manure of hoofed animals brings its own; some effluent of a "
                         "working digester makes it quicker"
                       : "none: add manure from hoofed animals, or effluent of a working digester",
      std::nullopt, filled && (startup.hoofed || startup.inoculum > Litres{0}));
  if (filled) {
    lines.push_back(kinds::progress("gas that burns", startup.waited.value, startup.needed.value,
                                    "waiting, " + waited_words(study)));
  }
  add("first gas",
      fmt::format("is let off for {}, not used",
                  days_words(full_days(rules(limits::start_letoff)))),
      std::nullopt, filled);
  return lines;
}

}  // namespace kinds::digester
