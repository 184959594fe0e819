#include "kinds/panel/says.h"

#include <algorithm>
#include <array>

#include "kinds/finding.h"
#include "kinds/panel/facts.h"
#include "measure/amount.h"
#include "measure/text.h"

namespace kinds::panel {
namespace {

using measure::Fraction;
using measure::KilowattHours;
using model::Words;

// "31 %": no more digits than a hand can act on.
std::string briefly(Fraction share) {
  return fmt::format("{:.0f} %", share.value * 100);
}

Words weak_words(const model::Facts& facts, const measure::Printer& print) {
  const char* which = facts.is(kBestDays) ? "best" : "clear";
  return {
      .line = fmt::format("wipe them clean: {} days make {} less", which, briefly(facts(kFall))),
      .says = fmt::format("{} days make {} less than they did: {} a day on {} of the last {}, "
                          "where {} was expected from {} such days before",
                          which, print(facts(kFall)), print(facts(kRecent)), facts(kRecentDays),
                          days_words(facts(kWindow)), print(facts(kExpected)), facts(kBeforeDays)),
      .why = facts.is(kBySun) ? "measured against the height of the sun" : "",
      .action =
          "wipe off dust, pollen and droppings, look for new shade, and log cleaned; if it "
          "stays low, have it measured",
      .tag = "cleaning"};
}

Words low_words(const model::Facts& facts, const measure::Printer& print) {
  const Fraction now = facts(kNow), floor = facts(kFloor);
  return {
      .line = fmt::format("switch off what can wait: battery at {}", briefly(now)),
      .says = fmt::format(fmt::runtime(now > floor ? "the battery is at {}, near its floor of {}"
                                                   : "the battery is at {}, its floor is {}"),
                          print(now), print(floor)),
      .why = "deeper discharge wears it out",
      .action = "switch off what can wait until it is charged",
      .tag = "low battery"};
}

Words over_words(const model::Facts& facts, const measure::Printer& print, model::Day today) {
  const std::string day = measure::day_words(facts(kDay), today);
  return {.line = fmt::format("check the number: {} {}", print(facts(kMade)), day),
          .says = fmt::format("{} was logged for {}, and {} cannot make more than {} that day",
                              print(facts(kMade)), day, print(facts(kRated)), print(facts(kMost))),
          .action = "check the number and the unit, and watts= as given at the start",
          .tag = "check energy="};
}

Words sun_words(const model::Facts& facts) {
  static constexpr std::array kMonths{"January",   "February", "March",    "April",
                                      "May",       "June",     "July",     "August",
                                      "September", "October",  "November", "December"};
  const char* month = kMonths[static_cast<std::size_t>(facts(kMonth)) - 1];
  const std::string told = measure::print_number(facts(kHoursTold).value, 1);
  const std::string most = measure::print_number(facts(kHoursMost).value, 1);
  return {.line = fmt::format("correct sun=: {} {} hours, most {}", month, told, most),
          .says = fmt::format(
              "{} has {} sun hours a day as given; above the atmosphere there are only {}", month,
              told, most),
          .action =
              "correct sun= with 'roundbook amend'; until then too much is expected of the panels",
          .tag = "correct sun="};
}

}  // namespace

Words words_of(const model::Finding& finding, const Study& study) {
  const measure::Printer print = study.print();
  if (finding.rule == kRuleWeak) return weak_words(finding.facts, print);
  if (finding.rule == kRuleLow) return low_words(finding.facts, print);
  if (finding.rule == kRuleOver) return over_words(finding.facts, print, study.history().today);
  return sun_words(finding.facts);
}

std::string made_words(const Study& study) {
  const auto& [day, of_day] = *study.made().rbegin();
  const measure::Printer print = study.print();
  const model::Day today = study.history().today;
  std::string says = fmt::format("{} {}", print(of_day.energy),
                                 day == today ? "today" : measure::day_words(day, today));
  const auto should = study.expected_on(day);
  if (should && *should > KilowattHours{0}) {
    says += fmt::format(", {} of a mean day's {}", print(Fraction{of_day.energy / *should}),
                        print(*should));
  }
  return says;
}

std::string carrying_words(const Carrying& carrying, const Study& study) {
  const measure::Printer print = study.print();
  std::string says =
      fmt::format("full, it lasts {} at the present use ({} a day over {})",
                  print(carrying.carries), print(carrying.use), days_words(carrying.days));
  if (carrying.carries < carrying.wanted) {
    says += fmt::format("; {} would want {}", print(carrying.wanted), print(carrying.needed));
  }
  return says;
}

std::string uses_words(KilowattHours a_day, const Study& study) {
  std::vector<std::string> parts;
  for (const Use& use : study.uses()) {
    if (use.si <= 0) continue;
    const double hours = a_day.value * 1000 / use.si;
    parts.push_back(fmt::format(
        "{} {}", use.name,
        hours >= 24 ? "all day and night" : measure::print_number(hours, 1) + " hours"));
  }
  if (parts.empty()) return "";
  return fmt::format("a day's {} carries {}", study.print()(a_day),
                     measure::joined(parts, ", or "));
}

std::string at_most_words(KilowattHours most, const Study& study) {
  return fmt::format(
      "{} today with no atmosphere; sun='...' with the place's peak sun hours tells what to expect",
      study.print()(most));
}

std::string made_basis(const Study& study) {
  const auto& days = study.made();
  const auto shared =
      std::count_if(days.begin(), days.end(), [](const auto& one) { return one.second.shared; });
  return fmt::format(
      "on {}{}", days_words(static_cast<int>(days.size())),
      shared > 0 ? fmt::format(", {} of them shared out from the meter's rise", shared) : "");
}

std::string expected_basis(const Study& study) {
  return fmt::format("by the sun hours told, {} lost{}; heat not counted",
                     study.print()(study.loss()),
                     study.losses().empty() ? " (none were given)" : "");
}

}  // namespace kinds::panel
