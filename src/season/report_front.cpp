#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "kinds/kind.h"
#include "measure/text.h"
#include "model/material_groups.h"
#include "season/report_parts.h"

// The season's page as a visitor reads it: a few sentences, four figures, and chapters.
namespace season {
namespace {

// More rows than a screen's height holds.
constexpr std::size_t kMostLives = 60;

const Compared* figure_named(const ReportWords& words, std::string_view key) {
  for (const Compared& one : words.input.figures) {
    if (one.now.key == key) return &one;
  }
  return nullptr;
}

// Whether the ranges of the two overlap: then nothing says which is more.
bool blur(const Compared& one) {
  return one.now.range && one.before && one.before->range &&
         one.now.range->low <= one.before->range->high &&
         one.before->range->low <= one.now.range->high;
}

struct Told {
  std::string shown, before;
};
std::optional<Told> told(const ReportWords& words, std::string_view key) {
  const Compared* found = figure_named(words, key);
  if (found == nullptr) return std::nullopt;
  Told made{model::shown(found->now, words.print), ""};
  if (found->before && !blur(*found)) made.before = model::shown(*found->before, words.print);
  return made;
}

// What animals gave that is counted, the most first: eggs.
struct Counted {
  std::string material;
  double now = 0, before = 0;
};
std::optional<Counted> counted_food(const ReportWords& words) {
  std::map<std::string, Counted> all;
  const auto add = [&](const std::vector<model::Movement>& of, double Counted::*into) {
    for (const model::Movement& one : of) {
      if (one.amount.dimension != measure::Dimension::kCount || !one.to.empty() ||
          !kinds::has_role(one.from_kind, &kinds::Roles::animals)) {
        continue;
      }
      Counted& counted = all[one.material.name];
      counted.material = one.material.name;
      counted.*into += one.amount.si;
    }
  };
  add(words.input.movements, &Counted::now);
  add(words.input.movements_before, &Counted::before);
  const auto most = std::max_element(all.begin(), all.end(), [](const auto& a, const auto& b) {
    return a.second.now < b.second.now;
  });
  if (most == all.end() || most->second.now == 0) return std::nullopt;
  return most->second;
}

std::string count_shown(double count) {
  return measure::print_number(count, 0);
}

void tell_harvest(const ReportWords& words, Front& front) {
  const auto harvest = told(words, "site.harvest");
  const auto food = counted_food(words);
  std::vector<std::string> now, before;
  if (harvest) {
    now.push_back(harvest->shown + " from its beds");
    if (!harvest->before.empty()) before.push_back(harvest->before);
    front.figures.push_back({"harvested from the beds", harvest->shown, harvest->before});
  }
  if (food) {
    now.push_back(count_shown(food->now) + " " + food->material);
    const std::string was = words.compares ? count_shown(food->before) : "";
    if (!was.empty()) before.push_back(was + " " + food->material);
    front.figures.push_back({food->material, count_shown(food->now), was});
  }
  if (now.empty()) {
    front.says.push_back(words.input.site.name + " harvested nothing in these days.");
    return;
  }
  std::string text =
      fmt::format("{} harvested {}", words.input.site.name, measure::listed(now, "and"));
  if (!before.empty()) {
    text += fmt::format("; in the span before it was {}", measure::listed(before, "and"));
  }
  front.says.push_back(text + ".");
}

void tell_kept(const ReportWords& words, Front& front) {
  const auto kept = told(words, "site.kept_from_landfill");
  if (!kept) return;
  std::string text = fmt::format(
      "{} of food, brewery, dairy and paper waste went into its batches and not into "
      "a bin",
      kept->shown);
  if (!kept->before.empty()) text += fmt::format("; before it was {}", kept->before);
  front.says.push_back(text + ".");
  front.figures.push_back({"kept out of the bin", kept->shown, kept->before});
}

void tell_loop(const ReportWords& words, Front& front) {
  std::vector<std::string> parts;
  bool first = true;
  for (const LoopShare& one : words.input.loop.shares) {
    const auto share = told(words, "site." + one.key + "_own");
    if (!share) continue;
    parts.push_back(fmt::format("{} of what was {}", share->shown, one.name));
    if (first) {
      front.figures.push_back(
          {"of what was " + one.name + ", its own", share->shown, share->before});
    }
    first = false;
  }
  if (parts.empty()) return;
  front.says.push_back(
      fmt::format("The site's own batches gave {}.", measure::listed(parts, "and")));
}

measure::Day month_of(measure::Day day) {
  const date::year_month_day date{day};
  return measure::Day{date.year() / date.month() / date::day{1}};
}

std::vector<measure::Day> months_of(const Span& span) {
  std::vector<measure::Day> months;
  for (measure::Day month = month_of(span.from); month <= span.to;
       month = month_of(month + date::days{31})) {
    months.push_back(month);
  }
  return months;
}

// A ground keeps its name from crop to crop.
std::string ground_of(const std::string& label) {
  return label.substr(0, label.find('/'));
}

std::optional<MonthGrid> harvest_grid(const ReportWords& words) {
  const std::vector<measure::Day> months = months_of(words.input.span);
  std::map<std::string, std::vector<Sum>> grounds;
  for (const model::Movement& one : words.input.movements) {
    if (!kinds::has_role(one.from_kind, &kinds::Roles::ground) ||
        one.material.group != model::group::kCrop) {
      continue;
    }
    auto& row = grounds[ground_of(one.from)];
    row.resize(months.size());
    const auto at = std::lower_bound(months.begin(), months.end(), month_of(one.day));
    row[static_cast<std::size_t>(at - months.begin())].add(one);
  }
  if (grounds.empty()) return std::nullopt;
  MonthGrid grid{"The harvest, by bed and month", {}, {}, ""};
  for (const measure::Day month : months) {
    grid.months.push_back(measure::month_words(month).substr(0, 3));
  }
  std::vector<std::string> said;
  for (const auto& [ground, sums] : grounds) {
    MonthGrid::Row row{ground, {}, {}};
    Sum all;
    for (const Sum& sum : sums) {
      row.values.push_back(sum.mass.value);
      row.shown.push_back(sum.mass.value > 0 ? mass_words(sum, words.print) : "");
      all.mass += sum.mass;
      all.estimated = all.estimated || sum.estimated;
    }
    said.push_back(ground + " " + mass_words(all, words.print));
    grid.rows.push_back(std::move(row));
  }
  grid.says = "In all: " + measure::joined(said, ", ") + ".";
  return grid;
}

std::optional<Lives> lives_of(const ReportWords& words) {
  const Span& span = words.input.span;
  const double days = span.days();
  const auto share = [&](measure::Day day) { return (day - span.from).count() / days; };
  Lives lives{"Every batch in its time", {}, {}, ""};
  for (const measure::Day month : months_of(span)) {
    const double at = std::max(0.0, share(month));
    lives.months.emplace_back(at, measure::month_words(month).substr(0, 3));
  }
  for (const kinds::Kind* kind : kinds::all_kinds()) {
    for (const ReportBatch& one : words.input.batches) {
      const model::Batch& batch = one.history.batch;
      if (batch.kind != kind->name) continue;
      const Span alive = alive_within(batch, span);
      lives.rows.push_back({one.label, share(alive.from), share(alive.to + date::days{1}),
                            !batch.ended_day,
                            fmt::format("{}: {} to {}", one.label, words.day(batch.started_day),
                                        batch.ended_day ? words.day(*batch.ended_day)
                                                        : std::string("now, still open"))});
    }
  }
  if (lives.rows.size() < 2) return std::nullopt;
  const std::size_t all = lives.rows.size();
  if (all > kMostLives) lives.rows.resize(kMostLives);
  const auto open =
      std::count_if(lives.rows.begin(), lives.rows.end(), [](const auto& row) { return row.open; });
  lives.says = fmt::format("{} of {} batches; a bar with an open end goes on ({} do).",
                           lives.rows.size(), all, open);
  return lives;
}

// The figures that a kind wants seen beside each other, over each batch's life.
std::optional<Beside> beside_of(const kinds::Kind& kind, const ReportWords& words) {
  if (kind.drawing.beside.empty()) return std::nullopt;
  Beside beside{"", {}, ""};
  std::vector<std::string> said;
  for (const ReportBatch& one : words.input.batches) {
    if (one.history.batch.kind != kind.name) continue;
    Beside::Row row{one.label + ", since " + words.day(one.history.batch.started_day), {}};
    for (const std::string_view key : kind.drawing.beside) {
      for (const model::Measure& measure : one.assessment.measures) {
        if (measure.key != key) continue;
        row.bars.push_back(
            {measure.name, measure.value.value.si, model::shown(measure, words.print)});
        said.push_back(measure.name + " " + row.bars.back().shown);
      }
    }
    if (row.bars.size() > 1) beside.rows.push_back(std::move(row));
  }
  if (beside.rows.empty()) return std::nullopt;
  for (const Beside::Bar& bar : beside.rows.front().bars) {
    beside.title += (beside.title.empty() ? "" : ", ") + bar.name;
  }
  beside.title = measure::capitalised(beside.title);
  beside.says = "Over each batch's whole life: " + measure::joined(said, ", ") + ".";
  return beside;
}

std::optional<Beside> years_beside(const ReportWords& words) {
  Beside beside{"This span and the one before", {}, "Each row has a scale of its own."};
  for (const Compared& one : words.input.figures) {
    if (!one.before || one.now.value.value.si < 0 || one.before->value.value.si < 0 || blur(one))
      continue;
    beside.rows.push_back(
        {one.now.name,
         {{"now", one.now.value.value.si, model::shown(one.now, words.print)},
          {"before", one.before->value.value.si, model::shown(*one.before, words.print)}}});
  }
  if (beside.rows.empty()) return std::nullopt;
  return beside;
}

std::string kind_sentence(const std::vector<const kinds::Kind*>& kinds, const ReportWords& words) {
  std::vector<std::string> parts;
  for (const kinds::Kind* kind : kinds) {
    const auto count =
        std::count_if(words.input.batches.begin(), words.input.batches.end(),
                      [&](const ReportBatch& one) { return one.history.batch.kind == kind->name; });
    if (count > 0) parts.push_back(fmt::format("{} ({})", kind->meaning, count));
  }
  return parts.empty() ? "" : "In these days: " + measure::listed(parts, "and") + ".";
}

// What carries the weight of a chapter: of the figures of its kinds, what was made.
std::string heat_sentence(const ReportWords& words) {
  double compost = 0;
  for (const model::Movement& one : words.input.movements) {
    const bool made = kinds::has_role(one.from_kind, &kinds::Roles::composts) &&
                      one.material.group == model::group::kCompost;
    if (made) compost += one.mass().value_or(measure::Kilograms{}).value;
  }
  if (compost == 0) return "No compost was taken out in these days.";
  return fmt::format("{} of compost was taken out of its piles.",
                     words.print(measure::Kilograms{compost}));
}

std::string water_sentence(const ReportWords& words) {
  double used = 0;
  for (const model::Movement& one : words.input.movements) {
    if (!kinds::has_role(one.from_kind, &kinds::Roles::stores_water)) continue;
    used += one.volume().value_or(measure::Litres{}).value;
  }
  if (used == 0) return "No rainwater was drawn in these days.";
  return fmt::format("{} of rainwater was drawn from its tanks in these days.",
                     words.print(measure::value_of(measure::Litres{used}), {"gal", "L"}));
}

std::string growing_sentence(const ReportWords& words) {
  const auto harvest = told(words, "site.harvest");
  return harvest ? fmt::format("{} was harvested from the beds.", harvest->shown)
                 : "Nothing was harvested from the beds in these days.";
}

std::string feeding_sentence(const ReportWords& words) {
  const auto food = counted_food(words);
  return food ? fmt::format("The animals gave {} {}.", count_shown(food->now), food->material) : "";
}

struct Opening {
  kinds::Chapter of;
  const char* key;
  const char* title;
  std::string (*sentence)(const ReportWords&);
};
constexpr Opening kOpenings[] = {
    {kinds::Chapter::kGrowing, "growing", "Growing", growing_sentence},
    {kinds::Chapter::kFeeding, "feeding", "Feeding", feeding_sentence},
    {kinds::Chapter::kHeat, "heat", "Heat and gas", heat_sentence},
    {kinds::Chapter::kWater, "water", "Water and sun", water_sentence},
};

void add_kinds(const Opening& opening, const ReportWords& words,
               const std::vector<Section>& sections, Chapter& chapter) {
  std::vector<const kinds::Kind*> of;
  for (const kinds::Kind* kind : kinds::all_kinds()) {
    if (kind->drawing.chapter != opening.of) continue;
    of.push_back(kind);
    const std::string key = "kind." + std::string(kind->name);
    const bool there = std::any_of(sections.begin(), sections.end(),
                                   [&](const Section& one) { return one.key == key; });
    if (there) chapter.sections.push_back(key);
    if (auto beside = beside_of(*kind, words)) chapter.beside.push_back(std::move(*beside));
  }
  const std::string kinds_there = kind_sentence(of, words);
  chapter.says = opening.sentence(words);
  if (!kinds_there.empty()) chapter.says += (chapter.says.empty() ? "" : " ") + kinds_there;
}

}  // namespace

Front front_of(const ReportWords& words, const std::vector<Section>& sections) {
  Front front;
  tell_harvest(words, front);
  tell_kept(words, front);
  tell_loop(words, front);
  for (const Opening& opening : kOpenings) {
    Chapter chapter{opening.key, opening.title, "", {}, std::nullopt, std::nullopt, {}};
    add_kinds(opening, words, sections, chapter);
    if (opening.of == kinds::Chapter::kGrowing) {
      chapter.grid = harvest_grid(words);
      chapter.sections.emplace_back("yields");
    }
    if (opening.of == kinds::Chapter::kFeeding) chapter.sections.emplace_back("inputs");
    if (!chapter.sections.empty()) front.chapters.push_back(std::move(chapter));
  }
  Chapter replaced{"replaced",
                   "What it replaced and let out",
                   "",
                   {"came", "loop", "greenhouse", "nutrients", "balances"},
                   std::nullopt,
                   std::nullopt,
                   {}};
  if (const auto net = told(words, "site.greenhouse")) {
    replaced.says = fmt::format(
        "By the default factors of the literature, {} of carbon dioxide and what equals it were "
        "kept out of the air, net; below zero means that more was let out.",
        net->shown);
  }
  if (auto years = years_beside(words)) replaced.beside.push_back(std::move(*years));
  front.chapters.push_back(std::move(replaced));
  Chapter learned{
      "learned",
      "What we learned, and how complete it is",
      "'roundbook compare' sets two ways of working beside each other. What needs care, "
      "what the treatment records show and how complete they are stand here.",
      {"care", "treatment", "completeness", "flows", "method"},
      std::nullopt,
      lives_of(words),
      {}};
  front.chapters.push_back(std::move(learned));
  return front;
}

}  // namespace season
