#include "kinds/pile/record.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "kinds/finding.h"
#include "kinds/pile/says.h"
#include "kinds/thresholds.h"
#include "measure/text.h"

namespace kinds::pile {
namespace {

namespace limits = thresholds::pile;
using measure::Celsius;
using measure::iso_date;

std::string_view grade_words(Grade grade) {
  switch (grade) {
    case Grade::kCounts:
      return "counts";
    case Grade::kBelow:
      return "below";
    case Grade::kOver:
      return "above";
    case Grade::kHeldBack:
      return "cold place not read again";
    case Grade::kCoreOnly:
      return "core alone read";
    case Grade::kGap:
      return "not read";
  }
  return "not read";
}

// The coldest position of the days that count, and its lowest reading.
std::string coldest_words(const Treatment& one, const measure::Printer& print) {
  const GradedDay* coldest = nullptr;
  std::map<std::string, int> governed;
  for (const GradedDay& day : one.days) {
    if (day.grade != Grade::kCounts) continue;
    if (one.window && (day.day < one.window->first || day.day > one.window->last)) continue;
    ++governed[day.position];
    if (coldest == nullptr || day.value < coldest->value) coldest = &day;
  }
  if (coldest == nullptr) return "";
  std::vector<std::string> parts;
  for (const auto& [position, times] : governed) {
    parts.push_back(
        fmt::format("{} on {}", position.empty() ? "unnamed place" : position, days_words(times)));
  }
  return fmt::format("coldest was the {}; lowest reading that counted {} on {}",
                     measure::listed(parts, "and"), print(Celsius{coldest->value}),
                     iso_date(coldest->day));
}

void add_outcome(const Treatment& one, const Study& study, model::Record& into) {
  const measure::Printer print = study.print();
  std::string line = fmt::format("{} ({}): {}", one.name, one.text, outcome_words(one.outcome));
  if (one.outcome == Outcome::kShown)
    line += fmt::format(" on {}, {}", iso_date(*one.shown_on), count_words(one, print));
  if (const std::string reason = reason_words(one, study); !reason.empty()) line += ": " + reason;
  if (one.earliest && one.outcome == Outcome::kNotYet)
    line += fmt::format("; {} at the earliest", iso_date(*one.earliest));
  into.outcome.push_back(line);
  const auto fact = [&](std::string_view name, std::string value) {
    if (!value.empty())
      into.facts.push_back({fmt::format("{} {}", one.name, name), std::move(value)});
  };
  fact("asks", asks_words(one, study));
  fact("text", fmt::format("{}; {}", one.text, one.edition));
  if (one.window) {
    fact("days", fmt::format("{} to {}: {}", iso_date(one.window->first),
                             iso_date(one.window->last), count_words(one, print)));
  }
  // What came after the days that met it no longer bears on it.
  const bool met = one.tally.met.has_value();
  const int gaps = met && one.window ? one.window->gaps : one.tally.gaps;
  if (gaps > 0) fact("not read", fmt::format("{}, none of them counted", days_words(gaps)));
  if (one.since)
    fact("count restarted", fmt::format("{}: {} went in", iso_date(*one.since), one.since_what));
  fact("positions", coldest_words(one, print));
  std::vector<std::string> breaks;
  for (const Break& day : one.tally.breaks) {
    if (met && one.window && day.day > one.window->last) break;
    breaks.push_back(fmt::format("{} {} at the {}", iso_date(day.day), print(Celsius{day.value}),
                                 day.position.empty() ? "pile" : day.position));
  }
  fact("days that did not count", measure::joined(breaks, ", "));
  if (one.other_reading) fact("other reading", other_reading_words(one));
}

// "131 °F", or "131-140 °F" where the day was read more than once.
std::string range_words(const PositionDay& one, const measure::Printer& print) {
  const std::string highest = print(Celsius{one.greatest});
  if (one.greatest - one.least < kSameKelvins) return highest;
  const std::string lowest = print(Celsius{one.least});
  return lowest.substr(0, lowest.find(' ')) + "-" + highest;
}

model::Record::Table temperatures(const Course& course, const std::vector<Treatment>& treatments,
                                  const measure::Printer& print) {
  model::Record::Table table{
      "temperatures", "temperatures, lowest to highest of the day", {"day"}, {}};
  for (const std::string& position : course.positions) {
    table.header.push_back(position.empty() ? "unnamed place" : position);
  }
  table.header.push_back("turned");
  for (const Treatment& one : treatments) table.header.emplace_back(one.name);
  for (model::Day day = course.start; day <= course.until; day += date::days{1}) {
    std::vector<std::string> row{iso_date(day)};
    const DaySeen* seen = course.on(day);
    for (const std::string& position : course.positions) {
      std::string cell;
      if (seen != nullptr) {
        for (const PositionDay& one : seen->positions) {
          if (one.position != position) continue;
          cell = range_words(one, print);
        }
      }
      row.push_back(cell);
    }
    row.push_back(course.turnings_between(day, day) > 0 ? "turned" : "");
    for (const Treatment& one : treatments) {
      const auto graded = std::find_if(one.days.begin(), one.days.end(),
                                       [&](const GradedDay& other) { return other.day == day; });
      row.emplace_back(graded == one.days.end() ? "before the count" : grade_words(graded->grade));
    }
    table.rows.push_back(std::move(row));
  }
  return table;
}

model::Record::Table materials(const model::History& history, const measure::Printer& print) {
  model::Record::Table table{
      "materials", "what went in", {"day", "material", "amount", "mass", "from"}, {}};
  for (const model::Movement& one : history.in) {
    const auto mass = one.mass();
    table.rows.push_back(
        {iso_date(one.day), one.material.name, one.typed,
         mass ? print(*mass) + (one.weighed() ? "" : ", by bulk density") : "not known",
         one.from.empty() ? "outside" : one.from});
  }
  return table;
}

void add_facts(const Study& study, model::Record& into) {
  const model::History& history = study.history();
  const model::Rules& rules = study.rules();
  const Course& course = study.course();
  const Inputs& inputs = study.inputs();
  const measure::Printer print = study.print();
  into.facts.push_back({"pile", history.batch.code});
  if (!history.batch.place.empty()) into.facts.push_back({"place", history.batch.place});
  into.facts.push_back({"method", method_words(study)});
  into.facts.push_back({"begun", iso_date(course.start)});
  into.facts.push_back({history.batch.ended_day ? "ended" : "as of", iso_date(course.until)});
  const StartRatio& ratio = study.ratio();
  std::string text = ratio.value ? measure::print_number(ratio.value->value, 1) + ":1"
                                 : "not known: " + ratio_unknown_words(ratio);
  if (ratio.value) {
    text += ratio.measured ? ", by a laboratory"
            : inputs.estimated
                ? ", from what went in, some by bulk density, and the materials' figures"
                : ", from the weights that went in and the materials' figures";
  }
  into.facts.push_back({"carbon to nitrogen at the start", text});
  if (inputs.blend) into.facts.push_back({"moisture of the mix", print(inputs.blend->moisture)});
  into.facts.push_back({"turnings", std::to_string(course.turnings.size())});
  into.facts.push_back(
      {"time and temperature",
       fmt::format("{} of a treatment by 40 CFR 503.32(a)(3), as information: it proves "
                   "nothing for compost",
                   measure::print_number(time_temperature(course).value, 1))});
  into.facts.push_back(
      {"how days are counted",
       fmt::format(
           "a day of the site's calendar counts where every reading at every position keeps the "
           "limits; a day without a reading never counts, and up to {} of them in a row does "
           "not break a row; one turning a day; a position last read too cold holds the days "
           "back until it is read again or the pile is turned",
           measure::print_number(rules(limits::treat_gap).value, 0))});
}

}  // namespace

model::Record record_of(const Study& study) {
  const measure::Printer print = study.print();
  const std::vector<Treatment>& treatments = study.treatments();
  model::Record made;
  made.title = fmt::format("Treatment of {}", study.history().batch.code);
  add_facts(study, made);
  for (const Treatment& one : treatments) add_outcome(one, study, made);
  if (treatments.empty()) made.outcome.push_back("no standard was asked for (standard=none)");
  if (!study.course().days.empty()) {
    made.tables.push_back(temperatures(study.course(), treatments, print));
  }
  if (!study.history().in.empty()) made.tables.push_back(materials(study.history(), print));
  return made;
}

}  // namespace kinds::pile
