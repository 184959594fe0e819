#include <fmt/format.h>

#include "kinds/finding.h"
#include "kinds/larvae/says.h"
#include "kinds/larvae/study.h"
#include "kinds/larvae/vocabulary.h"
#include "kinds/thresholds.h"
#include "measure/text.h"

namespace kinds::larvae {
namespace {

namespace limits = thresholds::larvae;

std::string interval_words(const Foreseen& foreseen, model::Day today) {
  std::string words = "likely " + measure::day_words(*foreseen.likely, today);
  if (!foreseen.has_interval) return words + ", no interval from a single day";
  // Near the threshold a little cold moves the late end by months: then it is no date to plan by.
  constexpr int kPlanned = 180;
  const std::string earliest = measure::day_words(*foreseen.earliest, today);
  if (!foreseen.latest || days_between(today, *foreseen.latest) > kPlanned)
    return words + fmt::format(", from {} on, or much later if it stays cool", earliest);
  return words +
         fmt::format(", between {} and {}", earliest, measure::day_words(*foreseen.latest, today));
}

std::string leaning_words(int runs) {
  return runs > 0 ? fmt::format("; leans on {} of this site's finished runs", runs) : "";
}

std::string limit_words(const Ordeal& ordeal, const Study& study) {
  const auto limit = [&](auto threshold) { return study.print()(study.rules()(threshold)); };
  switch (ordeal.of) {
    case Ordeal::Of::kDeadly:
      return fmt::format("at or above {}, where larvae die", limit(limits::hot_lethal));
    case Ordeal::Of::kFled:
      return fmt::format("above {} all day, where larvae crawl off and few live on",
                         limit(limits::hot_above));
    case Ordeal::Of::kFrost:
      return fmt::format("at or below {}, where eggs and young larvae die within days",
                         limit(limits::cold_harm));
  }
  return "";
}

// "2.2 lb a day for 10,000 larvae"
std::string a_day_words(const Study& study) {
  const std::string meal = study.print()(*study.feeding().appetite);
  const auto& count = study.course().count;
  return count ? fmt::format("{} a day for {} larvae", meal, measure::print_number(count->value, 0))
               : fmt::format("at the most {} a day on its area", meal);
}

constexpr std::string_view kHeatThem = "heat them, don't just dry them";

std::string eu_words(Unfit unfit, const std::string& name) {
  constexpr std::string_view kNotFed = "EU law does not let larvae for animals be fed";
  if (unfit == Unfit::kKitchen) return fmt::format("{} kitchen waste ({})", kNotFed, name);
  if (unfit == Unfit::kPapers) {
    return fmt::format(
        "{} is allowed by EU law only from non-ruminants or fish, as category 3 "
        "material with its papers",
        name);
  }
  if (unfit == Unfit::kFood) {
    return fmt::format(
        "EU law lets larvae for animals have {} only where it never passed through "
        "a kitchen (said once a bin)",
        name);
  }
  return fmt::format("{} {}", kNotFed, name);
}

std::string us_words(Unfit unfit, const std::string& name) {
  if (unfit == Unfit::kFood) {
    return fmt::format(
        "{} is not feed-grade: larvae raised on it cannot be sold as feed; ask your "
        "state before you feed them to animals (said once a bin)",
        name);
  }
  const std::string no_feed =
      fmt::format("{} is not feed-grade: larvae raised on it are no animal feed", name);
  if (unfit == Unfit::kManure) return no_feed;
  return fmt::format("{}; ask your state before an animal eats any, and {}", no_feed, kHeatThem);
}

constexpr std::string_view kWhoseLaw =
    "EU and US rules keep such larvae from animals (law=us or law=eu tells which hold here)";

}  // namespace

std::string of_constant(const Study& study) {
  const Warmth& warmth = study.warmth();
  const measure::Printer print = study.print();
  return fmt::format(
      "{} of {}",
      measure::print_number(measure::usual_unit(measure::Dimension::kDegreeDays, print.system())
                                .from_base(warmth.total.value),
                            0),
      print(warmth.constant));
}

std::string filled_words(const Study& study) {
  const Warmth& warmth = study.warmth();
  if (!warmth.days) return "";
  std::string words;
  const auto& days = *warmth.days;
  const int all = days.measured_days + days.interpolated_days + days.carried_days;
  if (days.interpolated_days > 0) {
    words =
        fmt::format("{} of {} filled in between readings", days.interpolated_days, days_words(all));
  }
  if (days.carried_days > 0) {
    words += fmt::format("{}{} of {} taken as the nearest one read", words.empty() ? "" : ", ",
                         days.carried_days, days_words(all));
  }
  const auto leave_out = [&](int left_out, std::string_view why) {
    if (left_out > 0)
      words = joined(words, fmt::format("{} too {} to count", days_words(left_out), why));
  };
  leave_out(warmth.too_cold, "cold");
  leave_out(warmth.too_hot, "hot");
  if (!warmth.by_air) return words;
  return joined(words, fmt::format("by the air plus {}, as the bin itself was not read",
                                   study.print().difference(study.rules()(limits::air_offset))));
}

std::string ordeal_words(const Ordeal& ordeal, const Study& study) {
  const std::string text = fmt::format("it was {} on {}, {}", study.print()(ordeal.worst),
                                       measure::day_words(ordeal.day, study.history().today),
                                       limit_words(ordeal, study));
  return ordeal.days > 1 ? fmt::format("{} (so on {})", text, days_words(ordeal.days)) : text;
}

std::string dark_words(const Study& study) {
  const DarkShare& dark = study.dark();
  return fmt::format("{} dark on {}", study.print()(measure::Fraction{dark.last->value}),
                     measure::day_words(*dark.last_day, study.history().today));
}

std::string larva_words(measure::Kilograms mass) {
  return measure::print_number(mass.value * kMilligrams, 1) + " mg";
}

std::string count_words(const Course& course) {
  const std::string count = course.count ? measure::print_number(course.count->value, 0) : "?";
  switch (course.counted_by) {
    case Course::CountedBy::kNumber:
      return "";
    case Course::CountedBy::kMass:
      return fmt::format("{} larvae by their mass, {} each{}", count, larva_words(*course.each),
                         course.each_weighed ? "" : " (not weighed)");
    case Course::CountedBy::kEggs:
      return fmt::format("{} larvae from the eggs", count);
  }
  return "";
}

std::string well_words(const Study& study, const std::string& stage) {
  std::string words = stage;
  const auto rolls = model::pooled_days(study.history().all(kTemperature));
  if (!rolls.empty()) words += " at " + study.print()(measure::Celsius{rolls.back().last});
  if (study.warmth().days) words += ", " + of_constant(study);
  return words;
}

std::string harvest_words(const Study& study) {
  const Course& course = study.course();
  const Diet& diet = study.diet();
  if (!study.warmth().days) {
    return fmt::format("no temperature read since {}, so its warmth is not known",
                       course.from_eggs ? "the hatch" : "seeding");
  }
  std::string says = fmt::format("{} of warmth, {} feed{}", of_constant(study), diet.word,
                                 diet.told ? "" : " (diet not given)");
  if (course.age) says += ", with the warmth before seeding";
  says = joined(says, filled_words(study));
  if (!course.seeding_told) says = joined(says, "seeding not logged, counted from the start");
  if (course.seeded_again) says = joined(says, "seeded more than once, counted from the first");
  if (study.dark().last) {
    says = joined(says, fmt::format("{} of {}", dark_words(study),
                                    study.print()(study.rules()(limits::harvest_dark))));
  }
  return says;
}

std::string harvest_briefly(const Study& study) {
  std::string says = of_constant(study) + " of warmth";
  if (study.dark().last) {
    says = joined(says, fmt::format("{} of {}", dark_words(study),
                                    study.print()(study.rules()(limits::harvest_dark))));
  }
  return says;
}

std::string feed_advice(const Study& study) {
  const Feeding& feeding = study.feeding();
  switch (advice_of(study)) {
    case Advice::kHarvestFirst:
      return "no more feed: harvest first";
    case Advice::kTooCold:
      return "no feed while it is this cold";
    case Advice::kTooHot:
      return "no feed until it has cooled";
    case Advice::kNotSeeded:
      return "none before it is seeded";
    case Advice::kNotHatched:
      return "none until the eggs hatch, but a little under them";
    case Advice::kUnknown:
      return "not known: neither the number of larvae nor the area was given";
    case Advice::kLookFirst:
      return fmt::format("{}; {} of {} feeds lately without a weight, so see how much is left",
                         a_day_words(study), feeding.unweighed_in_window, feeding.in_window);
    case Advice::kLiesThere:
      return fmt::format("none today: about {} of feed lies in it ({})",
                         days_words(feeding.days_lying), a_day_words(study));
    case Advice::kFeed:
      return fmt::format("about {} today ({})", study.print()(*feeding.appetite - feeding.lying),
                         a_day_words(study));
  }
  return "";
}

std::string harvest_line() {
  return "harvest the larvae";
}

std::string foreseen_words(const Foreseen& foreseen, const Study& study) {
  const std::string mean = study.print()(foreseen.mean);
  if (!foreseen.likely) {
    return fmt::format("no date to give: at {} larvae {}", mean,
                       foreseen.deadly ? "die" : "stand still");
  }
  const Course& course = study.course();
  std::string words =
      fmt::format("{}, if the days to come are like the {} read of late, {} on average{}",
                  interval_words(foreseen, study.history().today),
                  days_words(static_cast<int>(study.warmth().recent.size())), mean,
                  leaning_words(study.learned().runs));
  if (!course.age && !course.from_eggs) words += "; larvae taken as newly hatched when seeded";
  return words;
}

std::string expected_words(const Expected& expected, const Study& study) {
  const measure::Printer print = study.print();
  return fmt::format(
      "{} of larvae from the {} of feed so far{}",
      print.between(measure::value_of(expected.least), measure::value_of(expected.most)),
      print(expected.feed), leaning_words(expected.runs));
}

std::string law_keeps_words(Law law) {
  switch (law) {
    case Law::kEu:
      return "EU law keeps";
    case Law::kUs:
      return "the US feed rule keeps";
    case Law::kNotTold:
      return "EU and US feed rules keep";
    case Law::kNone:
      return "good practice keeps";
  }
  return "";
}

std::string feed_words(Unfit unfit, Law law, const model::Material& material) {
  const std::string& name = material.name;
  if (unfit == Unfit::kNever) return name + " never goes to larvae";
  const std::string smells =
      fmt::format("{} draws other flies and smells: a little at a time, buried", name);
  if (unfit == Unfit::kSmells) return smells;
  if (law == Law::kEu) return eu_words(unfit, name);
  if (law == Law::kUs) return us_words(unfit, name);
  const std::string germs =
      unfit == Unfit::kManure ? fmt::format("larvae carry the germs of {}", name) : smells;
  if (law == Law::kNotTold) return fmt::format("{}; {}; {}", germs, kWhoseLaw, kHeatThem);
  return fmt::format("{}; {}, before an animal eats any", germs, kHeatThem);
}

std::string not_by_records_words(const std::string& purpose) {
  return fmt::format(
      "'{}': for people or pets, not by these records: food and pet food are made "
      "under a licence, from feed and heating that it allows",
      purpose);
}

std::string to_animals_words(const std::vector<std::string>& feeds, const Study& study) {
  const model::Batch& batch = study.history().batch;
  return fmt::format(
      "{} was fed {}: {} its larvae from animals; where your authority allows them, heat them at "
      "{} for {} minutes, don't just dry them",
      batch.code, measure::listed(feeds, "and"), law_keeps_words(law_of(batch, kLaw)),
      study.print()(study.rules()(limits::heat_at)),
      measure::print_number(study.rules()(limits::heat_held).value * 24 * 60, 0));
}

}  // namespace kinds::larvae
