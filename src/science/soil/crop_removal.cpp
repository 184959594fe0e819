#include "science/soil/crop_removal.h"

#include <algorithm>
#include <array>

namespace science {
namespace {

using measure::Kilograms;

constexpr std::string_view kNewEngland =
    "New England Vegetable Management Guide, Removal of Nutrients from the Soil, table 4";
constexpr std::string_view kOntario = "Field Crop News (Ontario) 2025, nutrient removal";

// As that table prints it: pounds an acre, for a yield in short tons an acre.
constexpr OxideContent per_acre(double nitrogen, double phosphate, double potash, double tons) {
  constexpr double kKilogramsPerTonne = 0.5;  // of 1 lb a short ton
  return {KilogramsPerTonne{nitrogen / tons * kKilogramsPerTonne},
          KilogramsPerTonne{phosphate / tons * kKilogramsPerTonne},
          KilogramsPerTonne{potash / tons * kKilogramsPerTonne}};
}

constexpr OxideContent per_tonne(double nitrogen, double phosphate, double potash) {
  return {KilogramsPerTonne{nitrogen}, KilogramsPerTonne{phosphate}, KilogramsPerTonne{potash}};
}

// The table prints 20 lb of phosphate in 25 tons of carrots, 17 mg of phosphorus in 100 g: half of
// what food tables find (35 mg, 0.35 kg a tonne). Nitrogen and potassium of the two agree.
constexpr std::string_view kCarrot =
    "New England Vegetable Management Guide, Removal of Nutrients from the Soil, table 4; "
    "phosphorus 35 mg in 100 g: USDA FoodData Central, raw carrots; judgement of the trade";
constexpr OxideContent carrot() {
  OxideContent content = per_acre(80, 20, 200, 25);
  content.phosphate = KilogramsPerTonne{0.35 / kPhosphorusInPhosphate.value};
  return content;
}

// Left out of the New England table: eggplant (prints a tenth of the potash that others find),
// broccoli (2 lb of phosphate in 5 tons, far below what food tables give: from memory), cucumber
// (ranges up to fourfold), snap bean (its yield is in bushels of no stated weight).
constexpr std::array kCropRemovals{
    CropRemoval{"cabbage", "harvest", per_acre(125, 30, 130, 20), kNewEngland},
    CropRemoval{"carrot", "roots", carrot(), kCarrot},
    CropRemoval{"cauliflower", "harvest", per_acre(45, 18, 43, 6), kNewEngland},
    CropRemoval{"celery", "whole plant", per_acre(195, 80, 435, 50), kNewEngland},
    CropRemoval{"kale", "harvest", per_acre(125, 30, 110, 10), kNewEngland},
    CropRemoval{"lettuce", "harvest", per_acre(75, 35, 150, 15), kNewEngland},
    CropRemoval{"muskmelon", "fruit", per_acre(95, 17, 120, 11), kNewEngland},
    CropRemoval{"onion", "bulbs", per_acre(110, 20, 110, 20), kNewEngland},
    CropRemoval{"dry-bean", "seed", per_tonne(41.6, 13.8, 13.8), kOntario},
};

}  // namespace

std::optional<CropRemoval> find_crop_removal(std::string_view crop) {
  const auto found = std::ranges::find(kCropRemovals, crop, &CropRemoval::crop);
  if (found == kCropRemovals.end()) return std::nullopt;
  return *found;
}

NutrientMass removed_by_harvest(Kilograms harvest, const OxideContent& content) {
  return nutrients_in(harvest, to_elements(content));
}

}  // namespace science
