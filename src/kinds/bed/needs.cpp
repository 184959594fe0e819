#include "kinds/bed/needs.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <optional>
#include <string>
#include <vector>

#include "measure/amount.h"
#include "measure/text.h"
#include "science/numbers/units.h"

namespace kinds::bed {
namespace {

using measure::Mistake;
using science::KilogramsPerHectare;
using science::NutrientRate;

constexpr std::string_view kExample = "N 160, P2O5 50, K2O 75 lb/acre";

struct Nutrient {
  std::string_view symbol;
  KilogramsPerHectare NutrientRate::*of;
  double element;  // of one kilogram
};
constexpr std::array kNutrients{
    Nutrient{"n", &NutrientRate::nitrogen, 1},
    Nutrient{"p", &NutrientRate::phosphorus, 1},
    Nutrient{"p2o5", &NutrientRate::phosphorus, science::kPhosphorusInPhosphate.value},
    Nutrient{"k", &NutrientRate::potassium, 1},
    Nutrient{"k2o", &NutrientRate::potassium, science::kPotassiumInPotash.value},
};

// Kilograms a hectare in one of it; none for another unit.
std::optional<double> rate_unit(std::string_view unit) {
  const double acre = science::to_kilograms_per_hectare(science::PoundsPerAcre{1}).value;
  if (unit == "lb/acre" || unit == "lbs/acre" || unit == "lb/ac") return acre;
  if (unit == "lb/1000ft2" || unit == "lb/1000sqft") return acre * 43.56;  // an acre: 43,560 ft2
  if (unit == "kg/ha") return 1;
  if (unit == "g/m2") return 10;
  return std::nullopt;
}

// "p2o5 50 lb/acre" in its three parts; the unit may be missing.
struct Part {
  const Nutrient* nutrient;
  double amount;
  std::string unit;
};

measure::Result<Part> read_part(const std::string& typed) {
  const auto wrong = [&](std::string_view why) {
    return Mistake{typed,
                   fmt::format("{} {}; write it like '{}'", measure::quoted(typed), why, kExample)};
  };
  std::vector<std::string> words = measure::split(measure::folded(typed), ' ');
  if (words.size() < 2) return wrong("is not a nutrient and its amount");
  const auto nutrient = std::find_if(kNutrients.begin(), kNutrients.end(),
                                     [&](const Nutrient& one) { return one.symbol == words[0]; });
  if (nutrient == kNutrients.end()) return wrong("begins with none of N, P, P2O5, K, K2O");
  std::string rest = measure::joined({words.begin() + 1, words.end()}, "");
  const std::size_t letters = rest.find_first_not_of("0123456789.,");
  const auto amount = measure::parse_number(rest.substr(0, letters));
  if (!amount || *amount < 0) return wrong("has no amount");
  return Part{&*nutrient, *amount, letters == std::string::npos ? "" : rest.substr(letters)};
}

}  // namespace

measure::Result<NutrientRate> read_needs(std::string_view text) {
  std::vector<Part> parts;
  for (const std::string& typed : measure::split(text, ',')) {
    auto part = read_part(typed);
    if (!part) return part.mistake();
    parts.push_back(*part);
  }
  if (parts.empty())
    return Mistake{"", fmt::format("nothing is asked for; write it like '{}'", kExample)};
  NutrientRate rate;
  std::string unit;
  for (auto part = parts.rbegin(); part != parts.rend(); ++part) {
    if (!part->unit.empty()) unit = part->unit;
    const auto factor = rate_unit(unit);
    if (!factor) {
      return Mistake{std::string(text),
                     fmt::format("{} is not in lb/acre, lb/1000ft2, kg/ha or g/m2; write it like "
                                 "'{}'",
                                 measure::quoted(text), kExample)};
    }
    auto& sum = rate.*(part->nutrient->of);
    if (sum > KilogramsPerHectare{0}) {
      return Mistake{
          std::string(text),
          fmt::format("{} names one nutrient twice; P2O5 is P, K2O is K", measure::quoted(text))};
    }
    sum = KilogramsPerHectare{part->amount * *factor * part->nutrient->element};
  }
  return rate;
}

}  // namespace kinds::bed
