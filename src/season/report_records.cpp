#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>

#include "kinds/kind.h"
#include "kinds/thresholds.h"
#include "measure/text.h"
#include "season/report_parts.h"

// What someone outside asks for: treatment, intervals, how complete it is, and by what method.
namespace season {
namespace {

namespace bed_limits = kinds::thresholds::bed;

// The days between raw manure and a harvest, where no bed's own rule says them: the site's.
int interval(model::Threshold<measure::Days> days, const ReportWords& words) {
  return static_cast<int>(words.input.rules(days).value);
}

// A load of raw manure, and what each crop on its ground waits for.
struct RawLoad {
  model::Movement load;
  std::string way;
  std::string away;                       // of what left the site: both days
  std::vector<kinds::RawOnGround> waits;  // one for each crop
};

// The crop is named where it is not the only one, or not the one that got the load.
std::string waits_words(const RawLoad& one) {
  if (!one.away.empty()) return one.away;
  std::vector<std::string> parts;
  for (const kinds::RawOnGround& wait : one.waits) {
    const std::string safe =
        wait.safe ? measure::full_day_words(*wait.safe) : "nobody eats this crop";
    const bool named = one.waits.size() > 1 || wait.earlier;
    parts.push_back(named && !wait.crop.empty() ? wait.crop + ": " + safe : safe);
  }
  return measure::joined(parts, "; ");
}

// Those that went to soil in the span, and earlier ones for which a crop of the span waits; what
// went out of the site's batches went to soil, for all that the records say.
std::vector<RawLoad> raw_loads(const ReportWords& words) {
  std::vector<RawLoad> all;
  const Span& span = words.input.span;
  for (const model::Movement& one : words.input.movements) {
    if (one.manure.empty() || !one.to.empty()) continue;
    const auto after = [&](model::Threshold<measure::Days> days) {
      return measure::full_day_words(one.day + date::days{interval(days, words)});
    };
    const model::ManureTrail& trail = one.manure.front();
    std::vector<std::string> way{trail.material};
    way.insert(way.end(), trail.way.begin(), trail.way.end());
    way.push_back(one.purpose);
    all.push_back(
        {one,
         measure::joined(way, " → "),
         fmt::format("{} or {}", after(bed_limits::wait_apart), after(bed_limits::wait_contact)),
         {}});
  }
  for (const ReportBatch& batch : words.input.batches) {
    if (!kinds::has_role(batch.history.batch.kind, &kinds::Roles::ground)) continue;
    for (const kinds::RawOnGround& one :
         kinds::study(batch.history, batch.rules)->raw_on_ground()) {
      const bool in_span = one.load.day >= span.from && one.load.day <= span.to;
      if (!in_span && (one.load.day > span.to || !one.safe || *one.safe < span.from)) continue;
      const auto same = std::find_if(all.begin(), all.end(), [&](const RawLoad& other) {
        return other.load.id == one.load.id && other.load.at == one.load.at && other.way == one.way;
      });
      if (same == all.end()) {
        all.push_back({one.load, one.way, "", {one}});
      } else {
        same->waits.push_back(one);
      }
    }
  }
  std::stable_sort(all.begin(), all.end(), [](const RawLoad& a, const RawLoad& b) {
    return std::pair(a.load.at, a.load.id) < std::pair(b.load.at, b.load.id);
  });
  return all;
}

ReportTable intervals_table(const ReportWords& words) {
  ReportTable table{"intervals",
                    "Loads with raw manure in them that went to soil, and the way they came",
                    {{"day", Role::kText},
                     {"material", Role::kText},
                     {"the way of the manure", Role::kText},
                     {"weight", Role::kNumber},
                     {"first safe harvest", Role::kText}},
                    {},
                    false};
  for (const RawLoad& one : raw_loads(words)) {
    const model::Movement& load = one.load;
    Sum sum;
    sum.add(load);
    const std::string of =
        fmt::format("{} {} from {}", measure::iso_date(load.day), load.material.name, load.from);
    Cell weight = load.id == 0 ? text_cell("not known")
                  : sum.mass.value > 0
                      ? figure_cell(mass_figure("intervals.mass", of, "weight", sum, words))
                      : other_cell("intervals.other", of, sum, words);
    table.rows.push_back({text_cell(words.day(load.day)), text_cell(load.material.name),
                          text_cell(one.way), std::move(weight), text_cell(waits_words(one))});
  }
  return table;
}

ReportTable statements_table(const ReportWords& words) {
  ReportTable table{"statements",
                    "Loads that count as treated by a supplier's statement (7 CFR 205.203(c)(2))",
                    {{"day", Role::kText},
                     {"material", Role::kText},
                     {"to", Role::kText},
                     {"weight", Role::kNumber},
                     {"statement", Role::kText}},
                    {},
                    false};
  for (const model::Movement& one : words.input.movements) {
    if (one.material.statement.empty() || one.to.empty() || !one.from.empty()) continue;
    Sum sum;
    sum.add(one);
    const std::string of =
        fmt::format("{} {} to {}", measure::iso_date(one.day), one.material.name, one.to);
    table.rows.push_back(
        {text_cell(words.day(one.day)), text_cell(one.material.name), text_cell(one.to),
         sum.mass.value > 0 ? figure_cell(mass_figure("statements.mass", of, "weight", sum, words))
                            : other_cell("statements.other", of, sum, words),
         text_cell(one.material.statement)});
  }
  return table;
}

// Days of the span on which a batch has a reading.
std::set<measure::Day> days_read(const model::History& history, const Span& span) {
  std::set<measure::Day> days;
  for (const model::Series& series : history.series) {
    for (const model::DayRoll& roll : series.days) {
      if (roll.day >= span.from && roll.day <= span.to) days.insert(roll.day);
    }
  }
  return days;
}

std::set<measure::Day> days_entered(const model::History& history, const Span& span) {
  std::set<measure::Day> days = days_read(history, span);
  const auto add = [&](const auto& list) {
    for (const auto& one : list) {
      if (one.day >= span.from && one.day <= span.to) days.insert(one.day);
    }
  };
  add(history.deeds);
  add(history.sensed);
  add(history.notes);
  add(history.in);
  add(history.out);
  return days;
}

Figure share_figure(std::string key, std::string of, std::string name, double share) {
  Figure made;
  made.key = std::move(key);
  made.of = std::move(of);
  made.name = std::move(name);
  made.si = share;
  made.unit = "1";
  made.shown = measure::print_number(share * 100, 0) + " %";
  made.estimated = false;
  return made;
}

ReportTable materials_table(const ReportWords& words) {
  ReportTable table{"materials",
                    "Figures of the materials that were carried",
                    {{"material"}, {"figure"}, {"value", Role::kNumber}, {"source"}},
                    {},
                    false,
                    true};
  std::map<std::string, const model::Material*> used;
  for (const model::Movement& one : words.input.movements)
    used.emplace(one.material.name, &one.material);
  for (const auto& [name, material] : used) {
    for (const model::Figure& one : material->figures) {
      const model::PropertyInfo& property = model::info(one.property);
      Figure made;
      made.key = "materials." + std::string(property.key);
      made.of = name;
      made.name = std::string(property.key);
      made.si = one.value;
      made.unit = property.unit == "%" ? "1" : std::string(property.unit);
      made.shown =
          measure::Printer::labelled(one.value / property.factor, std::string(property.unit));
      made.basis = one.source;
      table.rows.push_back({text_cell(name), text_cell(std::string(property.key)),
                            figure_cell(made), text_cell(one.source)});
    }
  }
  return table;
}

ReportTable rules_table(const ReportWords& words) {
  ReportTable table{"rules",
                    "Limits that the findings above lean on",
                    {{"rule"}, {"limit", Role::kNumber}, {"source"}},
                    {},
                    false};
  std::set<std::string> seen;
  for (const ReportBatch& batch : words.input.batches) {
    for (const model::Told& one : batch.assessment.findings) {
      if (one.threshold.empty() || !one.limit || !seen.insert(one.threshold).second) continue;
      const model::Measured& limit = *one.limit;
      const std::string shown = limit.label.empty()
                                    ? words.print(limit.value)
                                    : measure::Printer::labelled(limit.value.si, limit.label);
      table.rows.push_back({text_cell(one.threshold), text_cell(shown), text_cell(one.source)});
    }
  }
  return table;
}

}  // namespace

Section section_treatment(const ReportWords& words) {
  Section section{"treatment", "Treatment and harvest intervals", {}, {}, {}, {}, {}, std::nullopt};
  ReportTable outcomes{"treatment",
                       "What each batch's records show under the standards it was started for",
                       {{"batch"}, {"shown"}},
                       {},
                       false};
  for (const ReportBatch& batch : words.input.batches) {
    const auto record =
        kinds::study(batch.history, batch.rules)->record(kinds::RecordOf::kTreatment);
    if (!record) continue;
    for (const std::string& line : record->outcome) {
      outcomes.rows.push_back({text_cell(batch.label), text_cell(line)});
    }
  }
  if (outcomes.rows.empty()) {
    section.says.emplace_back("No batch of these days keeps a record of treatment.");
  } else {
    section.says.emplace_back(
        "The record of each day, for a certifier: roundbook show BATCH --treatment.");
    section.tables.push_back(std::move(outcomes));
  }
  ReportTable intervals = intervals_table(words);
  if (intervals.rows.empty()) {
    section.says.emplace_back("No raw manure went to soil in these days.");
  } else {
    section.says.push_back(fmt::format(
        "Raw manure is worked into the soil at least {} days before the harvest of a crop whose "
        "edible part touches the soil, and {} days before any other crop for people to eat (7 CFR "
        "205.203(c)(1)). Effluent counts as raw manure. Local rules and the certifier stand above "
        "this.",
        interval(bed_limits::wait_contact, words), interval(bed_limits::wait_apart, words)));
    section.tables.push_back(std::move(intervals));
  }
  for (const ReportBatch& one : words.input.batches) {
    const auto study = kinds::study(one.history, one.rules);
    for (const model::Movement* taken : study->taken_early()) {
      section.says.push_back(fmt::format("Taken inside its harvest interval: {} {} of {}, on {}.",
                                         taken->typed, taken->material.name, one.label,
                                         measure::full_day_words(taken->day)));
    }
  }
  ReportTable statements = statements_table(words);
  if (!statements.rows.empty()) section.tables.push_back(std::move(statements));
  return section;
}

Section section_completeness(const ReportWords& words) {
  Section section{"completeness", "How complete the records are", {}, {}, {}, {}, {}, std::nullopt};
  ReportTable table{"completeness",
                    "Days with a reading, of the days that each batch was alive in the span",
                    {{"batch", Role::kText},
                     {"days alive", Role::kNumber},
                     {"days with a reading", Role::kNumber},
                     {"days with any entry", Role::kNumber},
                     {"share read", Role::kNumber}},
                    {},
                    true};
  double alive_all = 0, read_all = 0, entered_all = 0;
  const auto add = [&](const std::string& name, const std::string& of, double alive, double read,
                       double entered) {
    table.rows.push_back(
        {text_cell(name), figure_cell(count_figure("completeness.alive", of, "days alive", alive)),
         figure_cell(count_figure("completeness.read", of, "days with a reading", read)),
         figure_cell(count_figure("completeness.entered", of, "days with any entry", entered)),
         figure_cell(
             share_figure("completeness.share", of, "share read", alive > 0 ? read / alive : 0))});
  };
  for (const ReportBatch& batch : words.input.batches) {
    const model::Batch& of = batch.history.batch;
    const Span span = alive_within(of, words.input.span);
    const double alive = span.days();
    const auto read = static_cast<double>(days_read(batch.history, span).size());
    const auto entered = static_cast<double>(days_entered(batch.history, span).size());
    add(batch.label, batch.label, alive, read, entered);
    alive_all += alive;
    read_all += read;
    entered_all += entered;
  }
  if (words.input.batches.empty()) {
    section.says.emplace_back("No batch was alive in these days.");
    return section;
  }
  add("all", "", alive_all, read_all, entered_all);
  section.tables.push_back(std::move(table));
  return section;
}

constexpr const char* kWeights =
    "Weights: what was put on a scale is summed as it is. What was measured by volume is "
    "weighed by the material's bulk density, where one is known; else its volume stands by "
    "itself and no weight is summed.";
constexpr const char* kMovements =
    "A movement between two batches is one row of the logbook: it leaves the one and enters the "
    "other, and is counted once in what was carried.";
constexpr const char* kPictures =
    "Pictures of long series are thinned for drawing: each point stands for a stretch of time and "
    "holds its lowest, mean and highest reading, so that no peak is lost. The tables and sums use "
    "every reading.";
constexpr const char* kBefore =
    "The span before: the same days a year earlier where the span begins on 1 January, else as "
    "many days right before it.";

Section section_method(const ReportWords& words) {
  Section section{"method", "How these numbers were made", {}, {}, {}, {}, {}, std::nullopt};
  section.says = {
      "~ before a number: some of it is an estimate; the table says of what.",
      kWeights,
      kMovements,
      fmt::format("Days are the site's own ({}). A batch's figures run from its first day to the "
                  "last day of the span; sums and counts are of the span alone.",
                  words.input.site.zone.name()),
      kPictures,
      kBefore};
  ReportTable rules = rules_table(words), materials = materials_table(words);
  if (!rules.rows.empty()) section.tables.push_back(std::move(rules));
  if (!materials.rows.empty()) section.tables.push_back(std::move(materials));
  return section;
}

}  // namespace season
