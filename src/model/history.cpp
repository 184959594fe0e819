#include "model/history.h"

#include <algorithm>
#include <map>

namespace model {

const Setting* Batch::setting(std::string_view key) const {
  const auto found = std::find_if(settings.begin(), settings.end(),
                                  [&](const Setting& setting) { return setting.key == key; });
  return found == settings.end() ? nullptr : &*found;
}

std::string Batch::text(std::string_view key, std::string_view otherwise) const {
  const Setting* found = setting(key);
  return found == nullptr ? std::string(otherwise) : found->typed;
}

std::optional<measure::Value> Batch::number(std::string_view key) const {
  const Setting* found = setting(key);
  return found == nullptr ? std::nullopt : found->value;
}

std::optional<measure::Kilograms> Movement::mass() const {
  if (amount.dimension == measure::Dimension::kMass) return measure::Kilograms{amount.si};
  const auto density = material.kilograms_per_litre();
  if (amount.dimension == measure::Dimension::kVolume && density) {
    return measure::Kilograms{amount.si * *density};
  }
  return std::nullopt;
}

std::optional<measure::Litres> Movement::volume() const {
  if (amount.dimension == measure::Dimension::kVolume) return measure::Litres{amount.si};
  const auto density = material.kilograms_per_litre();
  if (amount.dimension == measure::Dimension::kMass && density && *density > 0) {
    return measure::Litres{amount.si / *density};
  }
  return std::nullopt;
}

double Series::total_on(Day day) const {
  const auto found =
      std::find_if(days.begin(), days.end(), [&](const DayRoll& roll) { return roll.day == day; });
  return found == days.end() ? 0 : found->total;
}

const Series* History::find(std::string_view quantity, std::string_view position) const {
  const auto found = std::find_if(series.begin(), series.end(), [&](const Series& one) {
    return one.quantity == quantity && one.position == position;
  });
  return found == series.end() ? nullptr : &*found;
}

std::vector<const Series*> History::all(std::string_view quantity) const {
  std::vector<const Series*> found;
  for (const Series& one : series) {
    if (one.quantity == quantity && one.last) found.push_back(&one);
  }
  return found;
}

const Deed* History::last_deed(std::string_view word) const {
  const auto found = std::find_if(deeds.rbegin(), deeds.rend(),
                                  [&](const Deed& deed) { return deed.word == word; });
  return found == deeds.rend() ? nullptr : &*found;
}

int History::deeds_since(std::string_view word, Day day) const {
  return static_cast<int>(std::count_if(deeds.begin(), deeds.end(), [&](const Deed& deed) {
    return deed.word == word && deed.day >= day;
  }));
}

const Sensed* History::last_sensed(std::string_view sense) const {
  const auto found = std::find_if(sensed.rbegin(), sensed.rend(),
                                  [&](const Sensed& one) { return one.sense == sense; });
  return found == sensed.rend() ? nullptr : &*found;
}

Load load_of(const Movement& movement) {
  if (movement.holds) return *movement.holds;
  Load load;
  load.mass = movement.mass();
  const auto moisture = movement.material.moisture();
  if (!load.mass || !moisture) return load;
  const measure::Kilograms dry = *load.mass * (1 - moisture->value);
  const auto part = [&](const std::optional<measure::Fraction>& share) {
    if (dry.value == 0) return std::optional(measure::Kilograms{0});
    return share ? std::optional(dry * share->value) : std::nullopt;
  };
  load.carbon = part(movement.material.carbon());
  load.nitrogen = part(movement.material.nitrogen());
  load.phosphorus = part(movement.material.share(Property::kPhosphorus));
  load.potassium = part(movement.material.share(Property::kPotassium));
  return load;
}

std::string label(const Batch& batch, bool latest) {
  return latest ? batch.code : batch.code + "/" + std::to_string(batch.run);
}

std::vector<DayRoll> pooled_days(const std::vector<const Series*>& series) {
  std::map<Day, DayRoll> days;
  for (const Series* one : series) {
    for (const DayRoll& roll : one->days) {
      const auto [at, fresh] = days.emplace(roll.day, roll);
      if (fresh) continue;
      DayRoll& pooled = at->second;
      pooled.count += roll.count;
      pooled.total += roll.total;
      pooled.least = std::min(pooled.least, roll.least);
      pooled.greatest = std::max(pooled.greatest, roll.greatest);
      if (roll.last_at > pooled.last_at) {
        pooled.last_at = roll.last_at;
        pooled.last = roll.last;
      }
    }
  }
  std::vector<DayRoll> pooled;
  for (const auto& [day, roll] : days) pooled.push_back(roll);
  return pooled;
}

}  // namespace model
