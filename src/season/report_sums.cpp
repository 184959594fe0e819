#include <fmt/format.h>

#include <map>
#include <set>

#include "measure/text.h"
#include "model/material_groups.h"
#include "season/report_parts.h"

// What was carried, summed: what it came to, inputs, yields.
namespace season {
namespace {

using Movements = std::vector<model::Movement>;

template <class Test>
Sum sum_of(const Movements& movements, Test test) {
  Sum sum;
  for (const model::Movement& one : movements) {
    if (test(one)) sum.add(one);
  }
  return sum;
}

bool brought(const model::Movement& one) {
  return one.from.empty();
}
bool taken(const model::Movement& one) {
  return one.to.empty();
}
bool carried(const model::Movement& one) {
  return !one.from.empty() && !one.to.empty();
}
// Water weighs more than all else together: a sum with it says nothing of the rest.
bool is_water(const model::Movement& one) {
  return one.material.group == model::group::kWater;
}
bool brought_dry(const model::Movement& one) {
  return brought(one) && !is_water(one);
}
bool taken_dry(const model::Movement& one) {
  return taken(one) && !is_water(one);
}
bool carried_dry(const model::Movement& one) {
  return carried(one) && !is_water(one);
}

// Sums in the order of their keys, those of the span before beside them.
template <class Key>
struct Pair {
  std::map<Key, Sum> now, before;
};
template <class Key, class Test, class KeyOf>
Pair<Key> sums(const ReportInput& input, Test test, KeyOf key_of) {
  Pair<Key> pair;
  for (const model::Movement& one : input.movements) {
    if (test(one)) pair.now[key_of(one)].add(one);
  }
  for (const model::Movement& one : input.movements_before) {
    if (test(one)) pair.before[key_of(one)].add(one);
  }
  return pair;
}
template <class Key>
const Sum& before_of(const Pair<Key>& pair, const Key& key) {
  static const Sum none;
  const auto found = pair.before.find(key);
  return found == pair.before.end() ? none : found->second;
}

int readings_of(const ReportInput& input) {
  int count = 0;
  for (const ReportBatch& batch : input.batches) {
    for (const model::Series& series : batch.history.series) {
      for (const model::DayRoll& roll : series.days) {
        if (roll.day >= input.span.from && roll.day <= input.span.to) count += roll.count;
      }
    }
  }
  return count;
}

// Those of the loop's figures that stand at the head; the others are in its own section.
bool is_large(std::string_view key) {
  return key == "site.harvest" || key == "site.beds_own" || key == "site.flock_own" ||
         key == "site.kept_from_landfill" || key == "site.money_replaced" ||
         key == "site.greenhouse";
}

measure::Day first_of_month(measure::Day day) {
  const date::year_month_day date{day};
  return measure::Day{date.year() / date.month() / date::day{1}};
}

}  // namespace

Section section_came(const ReportWords& words) {
  const ReportInput& input = words.input;
  Section section{"came", "What it came to", {}, {}, {}, {}, {}, std::nullopt};
  const auto add_mass = [&](const char* key, const char* name,
                            bool (*test)(const model::Movement&)) {
    const Sum now = sum_of(input.movements, test), before = sum_of(input.movements_before, test);
    section.figures.push_back(mass_figure(key, "", name, now, words, &before));
  };
  add_mass("came.brought", "brought to the site, but for water", brought_dry);
  add_mass("came.taken", "taken from the site, or used on it outside a batch", taken_dry);
  add_mass("came.carried", "carried from one batch to another, but for water", carried_dry);
  const auto counted = sums<std::string>(
      input,
      [](const model::Movement& one) {
        return taken(one) && one.amount.dimension == measure::Dimension::kCount;
      },
      [](const model::Movement& one) { return one.material.name; });
  for (const auto& [material, sum] : counted.now) {
    const Sum& before = before_of(counted, material);
    Cell cell = other_cell("came.counted", material, sum, words, &before);
    cell.figure->name = material + " taken";
    section.figures.push_back(*cell.figure);
  }
  const Sum all = sum_of(input.movements, [](const auto&) { return true; });
  const Sum was = sum_of(input.movements_before, [](const auto&) { return true; });
  const auto add_money = [&](const char* key, const char* name, std::int64_t Sum::*cents) {
    if (all.*cents > 0)
      section.figures.push_back(
          money_figure(key, "", name, all.*cents, words.compares ? &(was.*cents) : nullptr));
  };
  add_money("came.paid", "paid for what was brought", &Sum::paid_cents);
  add_money("came.sold", "received for what was taken", &Sum::sold_cents);
  for (const Compared& one : input.figures) {
    if (!is_large(one.now.key)) continue;
    Figure made = figure_of(one.now, "", words.print);
    // Two ranges that overlap say nothing of which was more.
    const auto& now = one.now.range;
    const bool tells =
        one.before && !(now && one.before->range && now->low <= one.before->range->high &&
                        one.before->range->low <= now->high);
    if (tells) {
      made.before = one.before->value.value.si;
      made.before_shown = model::shown(*one.before, words.print);
    }
    section.figures.push_back(std::move(made));
  }
  section.figures.push_back(count_figure("came.batches", "", "batches alive in these days",
                                         static_cast<double>(input.batches.size())));
  section.figures.push_back(
      count_figure("came.readings", "", "readings taken", static_cast<double>(readings_of(input))));
  if (!words.compares) {
    section.says.push_back(fmt::format("Nothing was carried from {} to {}, so nothing is compared.",
                                       measure::full_day_words(input.before.from),
                                       measure::full_day_words(input.before.to)));
  }
  return section;
}

namespace {
const std::string kAll = "all but water";
}  // namespace

Section section_inputs(const ReportWords& words) {
  Section section{"inputs", "What was brought in", {}, {}, {}, {}, {}, std::nullopt};
  using Key = std::pair<std::string, std::string>;
  const auto rows = sums<Key>(words.input, brought, [](const model::Movement& one) {
    return Key{one.material.group, one.material.name};
  });
  if (rows.now.empty()) {
    section.says.emplace_back("Nothing was brought to the site in these days.");
    return section;
  }
  ReportTable table{"inputs",
                    "Materials from outside the site",
                    {{"material", Role::kText},
                     {"group", Role::kText},
                     {"weight", Role::kNumber},
                     {"not weighed", Role::kNumber},
                     {"paid", Role::kNumber}},
                    {},
                    true};
  if (words.compares) table.columns.push_back({"weight before", Role::kNumber});
  table.columns.push_back({"rests on", Role::kAside});
  const auto add = [&](const std::string& name, const std::string& group, const Sum& sum,
                       const Sum& before) {
    const std::string of = name == kAll ? "" : name;
    Cell mass = sum.mass.value > 0 || of.empty()
                    ? figure_cell(mass_figure("inputs.mass", of, "weight", sum, words, &before))
                    : Cell{};
    std::vector<Cell> row{
        text_cell(name), text_cell(group), mass,
        of.empty() ? Cell{} : other_cell("inputs.other", of, sum, words, &before)};
    row.push_back(sum.paid_cents > 0
                      ? figure_cell(money_figure("inputs.paid", of, "paid", sum.paid_cents))
                      : Cell{});
    if (words.compares) row.push_back(before_cell(mass));
    row.push_back(text_cell(mass_basis(sum, words.print)));
    table.rows.push_back(std::move(row));
  };
  for (const auto& [key, sum] : rows.now) add(key.second, key.first, sum, before_of(rows, key));
  add(kAll, "", sum_of(words.input.movements, brought_dry),
      sum_of(words.input.movements_before, brought_dry));
  section.tables.push_back(std::move(table));

  std::map<std::pair<std::string, std::string>, Sum> by_batch;
  for (const model::Movement& one : words.input.movements) {
    if (!one.to.empty()) {
      by_batch[{one.material.name, one.from.empty() ? "outside" : one.from}].add(one);
    }
  }
  ReportTable sources{"sources",
                      "What batches were given, by material and source",
                      {{"material", Role::kText},
                       {"from", Role::kText},
                       {"weight", Role::kNumber},
                       {"not weighed", Role::kNumber},
                       {"times", Role::kNumber}},
                      {},
                      false};
  for (const auto& [key, sum] : by_batch) {
    const std::string of = key.first + " from " + key.second;
    sources.rows.push_back(
        {text_cell(key.first), text_cell(key.second), mass_cell("sources.mass", of, sum, words),
         other_cell("sources.other", of, sum, words),
         figure_cell(count_figure("sources.times", of, "times", sum.movements))});
  }
  section.tables.push_back(std::move(sources));
  return section;
}

namespace {

Bars bars_of(const std::string& product, const std::map<measure::Day, Sum>& months,
             const ReportWords& words) {
  bool weighs = false;
  for (const auto& [month, sum] : months) weighs = weighs || sum.mass.value > 0;
  const measure::Unit& unit = measure::usual_unit(measure::Dimension::kMass, words.input.units);
  Bars bars{product, weighs ? std::string(unit.symbol) : "", {}, ""};
  // Within one year, the months need no year.
  const bool one_year = date::year_month_day{words.input.span.from}.year() ==
                        date::year_month_day{words.input.span.to}.year();
  std::vector<std::string> said;
  const measure::Day last = first_of_month(words.input.span.to);
  for (measure::Day month = first_of_month(words.input.span.from); month <= last;
       month = first_of_month(month + date::days{31})) {
    const auto found = months.find(month);
    Bar bar{measure::month_words(month), 0, "none"};
    if (found != months.end()) {
      const Cell other = other_cell("", "", found->second, words);
      bar.value = weighs         ? unit.from_base(found->second.mass.value)
                  : other.figure ? other.figure->si
                                 : 0;
      bar.shown = weighs ? mass_words(found->second, words.print) : other.text;
      if (!weighs && other.figure && other.figure->unit != "1") bars.unit = other.figure->unit;
      said.push_back(bar.month.substr(0, one_year ? 3 : bar.month.size()) + " " + bar.shown);
    }
    bars.bars.push_back(std::move(bar));
  }
  bars.says = product + ": " + measure::joined(said, ", ") + "; no other month.";
  return bars;
}

}  // namespace

Section section_yields(const ReportWords& words) {
  Section section{"yields", "What the batches gave", {}, {}, {}, {}, {}, std::nullopt};
  const auto out = [](const model::Movement& one) { return !one.from.empty(); };
  using Key = std::pair<std::string, bool>;  // the product, and whether it went into a batch here
  const auto rows = sums<Key>(words.input, out, [](const model::Movement& one) {
    return Key{one.material.name, !one.to.empty()};
  });
  if (rows.now.empty()) {
    section.says.emplace_back("Nothing was taken out of a batch in these days.");
    return section;
  }
  ReportTable table{"yields",
                    "Products of the span",
                    {{"product", Role::kText},
                     {"went", Role::kText},
                     {"weight", Role::kNumber},
                     {"not weighed", Role::kNumber},
                     {"received", Role::kNumber}},
                    {},
                    false};
  if (words.compares) table.columns.push_back({"before", Role::kNumber});
  table.columns.push_back({"rests on", Role::kAside});
  for (const auto& [key, sum] : rows.now) {
    const Sum& before = before_of(rows, key);
    const std::string where = key.second ? "to another batch" : "from the site, or used on it";
    const std::string of = key.first + " " + where;
    const Cell mass = mass_cell("yields.mass", of, sum, words, &before);
    const Cell other = other_cell("yields.other", of, sum, words, &before);
    std::vector<Cell> row{text_cell(key.first), text_cell(where), mass, other,
                          sum.sold_cents > 0 ? figure_cell(money_figure("yields.sold", of,
                                                                        "received", sum.sold_cents))
                                             : Cell{}};
    if (words.compares) row.push_back(before_cell(mass.figure ? mass : other));
    row.push_back(text_cell(mass_basis(sum, words.print)));
    table.rows.push_back(std::move(row));
  }
  section.tables.push_back(std::move(table));

  std::map<std::string, std::map<measure::Day, Sum>> by_month;
  for (const model::Movement& one : words.input.movements) {
    if (out(one)) by_month[one.material.name][first_of_month(one.day)].add(one);
  }
  ReportTable months{"months",
                     "Products by month",
                     {{"product", Role::kText},
                      {"month", Role::kText},
                      {"weight", Role::kNumber},
                      {"not weighed", Role::kNumber}},
                     {},
                     false};
  for (const auto& [product, of_product] : by_month) {
    section.bars.push_back(bars_of(product, of_product, words));
    for (const auto& [month, sum] : of_product) {
      const std::string of = product + " in " + measure::month_words(month);
      months.rows.push_back({text_cell(product), text_cell(measure::month_words(month)),
                             mass_cell("months.mass", of, sum, words),
                             other_cell("months.other", of, sum, words)});
    }
  }
  section.tables.push_back(std::move(months));
  return section;
}

}  // namespace season
