#include "kinds/flock/ration.h"

#include <algorithm>
#include <array>

#include "kinds/flock/days.h"
#include "kinds/thresholds.h"
#include "kinds/finding.h"
#include "measure/text.h"
#include "science/animals/hens.h"

namespace kinds::flock {
namespace {

namespace limits = thresholds::flock;
using measure::Fraction;
using measure::Kilograms;
using measure::Number;
using model::Urgency;

constexpr std::array<std::string_view, 8> kNotFeed{"bedding", "brown", "wood",   "paper",
                                                   "char",    "water", "manure", "compost"};

bool is_among(const auto& groups, const model::Material& material) {
  return std::find(groups.begin(), groups.end(), material.group) != groups.end();
}

void add_larvae(const model::Movement& movement, Kilograms mass, const model::Rules& rules,
                Ration& into) {
  const Fraction water = movement.material.moisture().value_or(rules(limits::larvae_moisture));
  const Kilograms dry = mass * (1 - water.value);
  into.larvae += mass;
  into.larvae_dry += dry;
  const auto protein = movement.material.share(model::Property::kProtein);
  if (protein) into.larvae_protein += dry * protein->value;
}

// What a hen gets of a part of the dry matter: added, or noted as not known.
void add_part(const model::Movement& movement, Kilograms mass, model::Property part,
              const model::Rules& rules, Kilograms& sum, std::set<std::string>& unknown) {
  const model::Material& material = movement.material;
  auto water = material.moisture();
  if (!water && material.group == "larvae") water = rules(limits::larvae_moisture);
  const auto share = material.share(part);
  if (!water || !share) {
    unknown.insert(material.name);
  } else {
    sum += mass * ((1 - water->value) * share->value);
  }
}

void add_movement(const model::Movement& movement, const model::Rules& rules, Ration& into) {
  const model::Material& material = movement.material;
  if (is_among(kNotFeed, material)) return;
  const bool shell = material.group == "mineral";  // shell and grit: calcium, no ration
  if (shell && !material.share(model::Property::kCalcium)) return;
  const bool larvae = material.group == "larvae";
  if (!larvae && !shell) ++into.entries;
  const auto mass = movement.mass();
  if (!mass) {
    (shell ? into.no_calcium : into.no_weight).insert(material.name);
    return;
  }
  add_part(movement, *mass, model::Property::kCalcium, rules, into.calcium, into.no_calcium);
  if (shell) return;
  into.fed += *mass;
  add_part(movement, *mass, model::Property::kProtein, rules, into.protein, into.no_protein);
  if (larvae) {
    add_larvae(movement, *mass, rules, into);
    return;
  }
  if (movement.from.empty() && material.group == "feed") into.bought += *mass;
  if (const auto water = material.moisture()) {
    into.other_dry += *mass * (1 - water->value);
  } else {
    into.no_water.insert(material.name);
  }
}

std::string named(const std::set<std::string>& names) {
  const std::vector<std::string> words(names.begin(), names.end());
  return measure::joined(words, ", ");
}

// The days over which feed is judged, and what is known of them.
struct Span {
  model::Day from, to;
  int days;
  Ration ration;
  bool reliable;  // feed was recorded often and long enough to say what the hens eat
};

Span feed_span(const model::History& history, const model::Rules& rules) {
  const int wanted = static_cast<int>(rules(limits::ration_days).value);
  Span span{std::max(history.batch.started_day, history.today - date::days{wanted}),
            history.today - date::days{1},
            0,
            {},
            false};
  span.days = days_between(span.from, span.to) + 1;
  span.ration = ration_between(history, rules, span.from, span.to);
  span.reliable = span.days >= rules(limits::ration_least_days).value &&
                  span.ration.entries >= rules(limits::ration_entries).value &&
                  span.ration.no_weight.empty();
  return span;
}

// Dry matter of the ration a day without the larvae, and how it is known.
struct Other {
  Kilograms dry;
  Kilograms most_larvae;  // dry, a day, at the limit
  std::string basis;
};

std::optional<Other> other_feed(const model::History& history, const model::Rules& rules,
                                Kilograms larvae_dry_a_day) {
  const double limit = rules(limits::share_above).value;
  const Span span = feed_span(history, rules);
  if (span.reliable && span.ration.no_water.empty()) {
    const Kilograms dry = span.ration.other_dry / span.days;
    return Other{dry, dry * (limit / (1 - limit)),
                 fmt::format("beside the feed of the last {}", days_words(span.days))};
  }
  const auto birds = birds_on(history, history.today);
  if (!birds || *birds <= Number{0}) return std::nullopt;
  const double each = rules(limits::need_feed).value;
  const Kilograms all{birds->value * each / 1000 * (1 - rules(limits::feed_moisture).value)};
  return Other{std::max(all - larvae_dry_a_day, Kilograms{}), all * limit,
               fmt::format("of a ration of {} a hen a day, as too little feed is recorded",
                           measure::Printer::labelled(each, "g"))};
}

model::Told short_finding(std::string_view rule, std::string_view what, auto need,
                             const model::Rules& rules, const science::NutrientIntake& intake,
                             const std::string& over) {
  model::Told made = finding(rule, Urgency::kToday, need, rules);
  const double grams = intake.per_hen_day.value * 1000;
  made.value = model::Measured{std::string(what), {measure::Dimension::kNumber, grams}, "g/hen/d"};
  made.words.says = fmt::format("{} of {} a hen a day by the records, of {}",
                          measure::Printer::labelled(grams, "g"), what,
                          measure::Printer::labelled(rules(need).value, "g"));
  made.words.why = over + ", not counting what they find outside";
  return made;
}

}  // namespace

Ration ration_between(const model::History& history, const model::Rules& rules, model::Day from,
                      model::Day to) {
  Ration ration;
  for (const model::Movement& movement : history.in) {
    if (movement.day >= from && movement.day <= to) add_movement(movement, rules, ration);
  }
  return ration;
}

void judge_share(const model::History& history, const model::Rules& rules,
                 model::Assessment& into) {
  const int wanted = static_cast<int>(rules(limits::share_days).value);
  const model::Day from =
      std::max(history.batch.started_day, history.today - date::days{wanted - 1});
  const int days = days_between(from, history.today) + 1;
  const Ration ration = ration_between(history, rules, from, history.today);
  if (ration.larvae <= Kilograms{0}) return;
  const Kilograms dry = ration.larvae_dry / days;
  const auto other = other_feed(history, rules, dry);
  if (!other) {
    into.progress.push_back({"larvae in the ration",
                             "not known: neither the number of hens nor enough feed is recorded",
                             std::nullopt});
    return;
  }
  const auto share = science::larvae_share_of_ration(dry, other->dry, rules(limits::share_above));
  if (!share) return;
  const measure::Printer print(history.units);
  const std::string shown =
      fmt::format("{} of the ration's dry matter over {}", print(share->share), days_words(days));
  into.progress.push_back(
      {"larvae in the ration",
       fmt::format("{}, {}; {} at most", shown, other->basis, print(rules(limits::share_above))),
       share->share.value});
  if (!share->above_limit) return;
  model::Told made = finding("flock.share", Urgency::kToday, limits::share_above, rules);
  made.value = model::Measured{"share of larvae", measure::value_of(share->share), ""};
  made.words.says = fmt::format("larvae are {}, above {}", shown, print(rules(limits::share_above)));
  made.words.why = other->basis;
  const double as_fed = other->most_larvae.value * (ration.larvae / ration.larvae_dry);
  made.words.action = fmt::format("give at most {} of them a day, and the layer feed beside it",
                            print(Kilograms{as_fed}));
  into.findings.push_back(std::move(made));
}

std::string judge_needs(const model::History& history, const model::Rules& rules,
                        model::Assessment& into) {
  const Span span = feed_span(history, rules);
  const auto days = hen_days(history, span.from, span.to);
  if (!span.reliable || !days) return "";
  const std::string over = fmt::format("over {}", days_words(span.days));
  const Fraction enough = rules(limits::short_below);
  const auto is_short = [&](const std::optional<science::NutrientIntake>& intake) {
    return intake && intake->of_need < enough;
  };
  const auto grams = [&](auto need) { return Kilograms{rules(need).value / 1000}; };
  std::string found;
  const auto note = [&](std::string_view what) {
    found += (found.empty() ? "" : ", ") + std::string(what);
  };

  const auto feed = science::nutrient_intake(span.ration.fed, *days, grams(limits::need_feed));
  if (is_short(feed)) {
    auto made = short_finding("flock.feed", "feed", limits::need_feed, rules, *feed, over);
    made.words.action = "see that the feeder never runs empty, or log the feed that is missing here";
    into.findings.push_back(std::move(made));
    note("feed");
  }
  const auto protein =
      science::nutrient_intake(span.ration.protein, *days, grams(limits::need_protein));
  if (is_short(protein) && span.ration.no_protein.empty()) {
    auto made =
        short_finding("flock.protein", "protein", limits::need_protein, rules, *protein, over);
    made.words.action = "feed less scratch and more layer feed or larvae";
    into.findings.push_back(std::move(made));
    note("protein");
  }
  const auto calcium =
      science::nutrient_intake(span.ration.calcium, *days, grams(limits::need_calcium));
  if (is_short(calcium) && span.ration.no_calcium.empty()) {
    auto made =
        short_finding("flock.calcium", "calcium", limits::need_calcium, rules, *calcium, over);
    const auto content = science::content_needed(grams(limits::need_calcium), feed->per_hen_day);
    made.words.action = "put out oyster shell";
    if (content) {
      made.words.action += fmt::format("; a ration of {} a hen a day would have to hold {} calcium",
                                 measure::Printer::labelled(feed->per_hen_day.value * 1000, "g"),
                                 measure::Printer(history.units)(*content));
    }
    into.findings.push_back(std::move(made));
    note("calcium");
  }
  std::set<std::string> unknown = span.ration.no_protein;
  unknown.insert(span.ration.no_calcium.begin(), span.ration.no_calcium.end());
  if (!unknown.empty()) {
    into.progress.push_back(
        {"needs",
         fmt::format("protein or calcium not known of {}, so a want of them is not judged",
                     named(unknown)),
         std::nullopt});
  }
  return found;
}

}  // namespace kinds::flock
