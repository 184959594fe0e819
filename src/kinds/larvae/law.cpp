#include "kinds/larvae/law.h"

#include <algorithm>
#include <array>
#include <set>

#include "kinds/finding.h"
#include "kinds/larvae/course.h"
#include "measure/text.h"

namespace kinds::larvae {
namespace {

using model::Urgency;

constexpr std::string_view kBanned = "larvae.banned";
constexpr std::string_view kCare = "larvae.care";  // not banned, but to be done with care
constexpr std::string_view kEu =
    "Regulation (EU) 2017/893 in annex X of (EU) 142/2011; catering waste: (EC) 1069/2009 art. "
    "11, from memory";
constexpr std::string_view kUs = "AAFCO T60.117: feedstock of feed-grade materials alone";
constexpr std::string_view kPractice = "common practice";

template <std::size_t N>
bool is_one_of(const model::Material& material, const std::array<std::string_view, N>& names) {
  return std::find(names.begin(), names.end(), material.name) != names.end();
}

bool is_manure(const model::Material& material) {
  return material.is("manure") || material.group == "manure";
}

bool is_animal(const model::Material& material) {
  return material.is("animal");
}

// Animal matter that EU law lets farmed insects have: category 3 fishmeal, blood products and
// hydrolysed protein of non-ruminants, eggs. Milk is no animal matter here: the catalogue calls it
// dairy.
constexpr std::array<std::string_view, 4> kEuAllowed{"fish meal", "blood meal", "feather meal",
                                                     "spoiled eggs"};

Objection objection(bool refuses, std::string says, std::string_view source,
                    std::string_view rule = kBanned) {
  return {refuses, std::string(rule), std::move(says), std::string(source)};
}

// What a law says of a bin for good once such a feed went in.
Objection of_the_bin(std::string says, std::string_view source) {
  Objection made = objection(false, std::move(says), source);
  made.once = true;
  return made;
}

std::optional<Objection> by_eu(const model::Material& material) {
  const std::string& name = material.name;
  if (is_manure(material)) {
    return objection(true, fmt::format("EU law does not let larvae for animals be fed {}", name),
                     kEu);
  }
  if (is_kitchen_waste(material)) {
    return objection(
        true, fmt::format("EU law does not let larvae for animals be fed kitchen waste ({})", name),
        kEu);
  }
  if (is_animal(material)) {
    const bool allowed = is_one_of(material, kEuAllowed);
    return objection(
        !allowed,
        allowed ? fmt::format("{} is allowed by EU law only from non-ruminants or fish, as "
                              "category 3 material with its papers",
                              name)
                : fmt::format("EU law does not let larvae for animals be fed {}", name),
        kEu);
  }
  if (material.group == "food") {
    return of_the_bin(fmt::format("EU law lets larvae for animals have {} only where it never "
                                  "passed through a kitchen; this is said once a bin",
                                  name),
                      kEu);
  }
  return std::nullopt;
}

std::optional<Objection> by_us(const model::Material& material) {
  const std::string& name = material.name;
  if (is_manure(material)) {
    return objection(
        true, fmt::format("{} is not feed-grade: larvae raised on it are no animal feed", name),
        kUs);
  }
  if (material.group == "food" || is_animal(material)) {
    return of_the_bin(
        fmt::format("{} is not feed-grade: larvae raised on it cannot be sold as feed; ask your "
                    "state before you feed them to animals; this is said once a bin",
                    name),
        kUs);
  }
  return std::nullopt;
}

std::optional<Objection> by_practice(const model::Material& material, bool law_told) {
  const std::string& name = material.name;
  if (is_manure(material)) {
    return objection(
        false,
        fmt::format("larvae carry the germs of {}{}", name,
                    law_told ? ": heat or dry them before an animal eats them"
                             : ", and EU and US rules keep such larvae from animals; the "
                               "setting law=us or law=eu tells which hold here"),
        kPractice);
  }
  if (is_animal(material) || material.is("salty") || material.is("oil")) {
    return objection(
        false, fmt::format("{} draws other flies and smells: a little at a time, buried", name),
        kPractice, kCare);
  }
  return std::nullopt;
}

// Those of its feeds up to a moment that are refused where larvae go to animals, by name.
std::set<std::string> banned_feeds(const model::History& history, const model::Rules& rules,
                                   model::Instant until) {
  std::set<std::string> banned;
  for (const model::Movement& movement : history.in) {
    const auto against = objects_to_feed(movement.material, history.batch, rules);
    if (movement.at <= until && against && against->refuses) banned.insert(movement.material.name);
  }
  return banned;
}

std::string law_name(const model::History& history) {
  const std::string law = history.batch.text("law", "");
  return law == "eu" ? "EU law" : law == "us" ? "the US feed rule" : "good practice";
}

std::string listed(const std::set<std::string>& names) {
  const std::vector<std::string_view> words(names.begin(), names.end());
  return measure::listed(words, "and");
}

}  // namespace

bool is_kitchen_waste(const model::Material& material) {
  static constexpr std::array<std::string_view, 7> kNames{
      "food scraps", "cooked leftovers", "cooked grain",  "cooking oil",
      "grease",      "bokashi",          "coffee filters"};
  return is_one_of(material, kNames);
}

std::optional<Objection> objects_to_feed(const model::Material& material, const model::Batch& batch,
                                         const model::Rules&) {
  if (material.is("forbidden") || material.is("synthetic")) {
    return objection(true, fmt::format("{} never goes to larvae", material.name), kPractice);
  }
  const std::string law = batch.text("law", "");
  std::optional<Objection> against;
  if (law == "eu") against = by_eu(material);
  if (law == "us") against = by_us(material);
  return against ? against : by_practice(material, !law.empty());
}

std::string banned_caution(const model::History& history, const model::Rules& rules) {
  const auto banned = banned_feeds(history, rules, history.now);
  if (banned.empty()) return "";
  return fmt::format("It was fed {}: {} keeps these larvae from animals.", listed(banned),
                     law_name(history));
}

void judge_banned(const model::History& history, const model::Rules& rules,
                  model::Assessment& into) {
  for (const model::Movement& movement : history.out) {
    if (!is_larvae(movement) || movement.to_kind != "flock") continue;
    const auto banned = banned_feeds(history, rules, movement.at);
    if (banned.empty()) continue;
    const auto against = std::find_if(history.in.begin(), history.in.end(), [&](const auto& one) {
      return banned.contains(one.material.name);
    });
    model::Told made = finding(kBanned, Urgency::kToday,
                               objects_to_feed(against->material, history.batch, rules)->source);
    made.words.says =
        fmt::format("larvae went to {} from a bin that was fed {}", movement.to, listed(banned));
    made.words.why = law_name(history) + " keeps such larvae from animals";
    made.words.action = "feed no more of them, and ask your veterinary or feed authority";
    into.findings.push_back(std::move(made));
    return;
  }
}

}  // namespace kinds::larvae
