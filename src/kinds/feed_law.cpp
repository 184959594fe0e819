#include "kinds/feed_law.h"

#include <algorithm>
#include <array>

namespace kinds {

Law law_of(const model::Batch& batch, std::string_view setting) {
  const std::string told = batch.text(setting, "");
  if (told == "eu") return Law::kEu;
  if (told == "us") return Law::kUs;
  return told.empty() ? Law::kNotTold : Law::kNone;
}

bool is_kitchen_waste(const model::Material& material) {
  static constexpr std::array<std::string_view, 7> kNames{
      "food scraps", "cooked leftovers", "cooked grain",  "cooking oil",
      "grease",      "bokashi",          "coffee filters"};
  return std::find(kNames.begin(), kNames.end(), material.name) != kNames.end();
}

}  // namespace kinds
