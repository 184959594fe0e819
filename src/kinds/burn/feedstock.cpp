#include "kinds/burn/feedstock.h"

#include <algorithm>
#include <array>

#include "kinds/burn/vocabulary.h"
#include "measure/text.h"
#include "model/danger.h"
#include "model/material_groups.h"

namespace kinds::burn {
namespace {

namespace group = model::group;
using science::CharFeedstock;

struct Named {
  std::string_view material;
  CharFeedstock feedstock;
};

// Materials that the table sorts apart from the rest of their group.
constexpr std::array kNamed{
    Named{"rice straw", CharFeedstock::kRice},
    Named{"rice hulls", CharFeedstock::kRice},
    Named{"nut shells", CharFeedstock::kNutShells},
    Named{"peanut shells", CharFeedstock::kNutShells},
    Named{"olive husks", CharFeedstock::kNutShells},
    Named{"tree trimmings", CharFeedstock::kWood},
    Named{"hedge trimmings", CharFeedstock::kWood},
};

struct Grouped {
  std::string_view group;
  CharFeedstock feedstock;
};

constexpr std::array kGroups{
    Grouped{group::kWood, CharFeedstock::kWood},
    Grouped{group::kBrown, CharFeedstock::kHerbaceous},
    Grouped{group::kGreen, CharFeedstock::kHerbaceous},
    Grouped{group::kBedding, CharFeedstock::kHerbaceous},
    Grouped{group::kManure, CharFeedstock::kManure},
};

std::optional<CharFeedstock> sort_of_text(std::string_view text) {
  if (const model::Material* known = model::in_catalogue(text)) return sort_of(*known);
  return measure::folded(text) == "wood" ? std::optional(CharFeedstock::kWood) : std::nullopt;
}

}  // namespace

std::optional<CharFeedstock> sort_of(const model::Material& material) {
  for (const Named& row : kNamed) {
    if (row.material == material.name) return row.feedstock;
  }
  for (const Grouped& row : kGroups) {
    if (row.group == material.group) return row.feedstock;
  }
  return std::nullopt;
}

bool is_foul(const model::Material& material) {
  return material.is(kFlagForbidden) || model::is_foul_fuel(material.name);
}

std::string foul_in(const model::History& history, const Course& course) {
  for (const model::Movement& one : history.in) {
    if (is_feedstock(one, course) && is_foul(one.material)) return one.material.name;
  }
  const std::string said = history.batch.text(kFeedstock, "");
  if (model::is_foul_fuel(said)) return said;
  for (const model::Note& note : history.notes) {
    if (model::tells_of(note.text, model::Danger::kFoulFuel)) return note.text;
  }
  return {};
}

std::vector<FeedstockPart> feedstock_mix(const model::History& history, const Course& course) {
  std::vector<FeedstockPart> parts;
  for (const model::Movement& movement : history.in) {
    // Paper lights the fire and leaves ash.
    if (!is_feedstock(movement, course) || movement.material.group == group::kPaper) continue;
    const auto sort = sort_of(movement.material);
    if (!sort) return {};
    const auto mass = movement.mass();
    parts.push_back({*sort, mass ? mass->value : 0});
  }
  // Loads of one sort need no weights; of several, a load without one leaves the mix unknown.
  const bool one_sort = std::all_of(parts.begin(), parts.end(), [&](const FeedstockPart& part) {
    return part.feedstock == parts.front().feedstock;
  });
  if (!parts.empty() && one_sort) return {{parts.front().feedstock, 1}};
  const bool weighed = std::all_of(parts.begin(), parts.end(),
                                   [](const FeedstockPart& part) { return part.weight > 0; });
  if (!weighed) return {};
  if (parts.empty()) {
    if (const auto sort = sort_of_text(history.batch.text(kFeedstock, ""))) return {{*sort, 1}};
  }
  return parts;
}

}  // namespace kinds::burn
