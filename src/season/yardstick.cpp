#include "season/yardstick.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "kinds/kind.h"
#include "measure/text.h"
#include "measure/unit.h"

namespace season {
namespace {

using measure::Dimension;
using measure::Mistake;
using measure::Result;

std::string underscored(std::string text) {
  std::replace(text.begin(), text.end(), ' ', '_');
  return text;
}

bool is_called(const model::Material& material, const std::string& name) {
  return material.name == name || std::find(material.aliases.begin(), material.aliases.end(),
                                            name) != material.aliases.end();
}

const model::Measure* figure(const Plot& plot, const std::string& name) {
  for (const model::Measure& one : plot.assessment.measures) {
    if (one.key == name || one.name == name ||
        one.key == plot.history.batch.kind + "." + underscored(name)) {
      return &one;
    }
  }
  return nullptr;
}

std::optional<Yardstick> read_by_name(const std::string& name, const std::vector<Plot>& plots) {
  for (const Plot& plot : plots) {
    const kinds::Kind* kind = kinds::find_kind(plot.history.batch.kind);
    const kinds::Quantity* quantity = kind ? kinds::find_quantity(*kind, name) : nullptr;
    if (quantity != nullptr) {
      return Yardstick{Of::kReading, Roll::kMean, std::string(quantity->name), "", "", {}};
    }
  }
  return std::nullopt;
}

// What the word names in any of the batches.
std::optional<Yardstick> named(const std::string& name, const std::vector<Plot>& plots,
                               bool is_read) {
  if (is_read) return read_by_name(name, plots);
  if (name == "yield") return Yardstick{Of::kYield, Roll::kTotal, name, "", "", {}};
  if (name == "days") return Yardstick{Of::kDays, Roll::kTotal, name, "", "", {}};
  for (const Plot& plot : plots) {
    for (const model::Movement& movement : plot.history.out) {
      if (is_called(movement.material, name)) {
        return Yardstick{Of::kProduct, Roll::kTotal, movement.material.name, "", "", {}};
      }
    }
  }
  // The kind's own figure before the bare readings: it knows what adds up and what does not.
  for (const Plot& plot : plots) {
    if (const model::Measure* one = figure(plot, name)) {
      return Yardstick{Of::kFigure, Roll::kTotal, one->key, one->name, "", {}};
    }
  }
  if (auto reading = read_by_name(name, plots)) return reading;
  for (const Plot& plot : plots) {
    const kinds::Kind* kind = kinds::find_kind(plot.history.batch.kind);
    const kinds::Word* word = kind ? kinds::find_word(*kind, name) : nullptr;
    if (word != nullptr && word->sense.empty()) {
      return Yardstick{Of::kDeed, Roll::kTotal, std::string(word->word), "", "", {}};
    }
  }
  return std::nullopt;
}

std::vector<std::string> all_names(const std::vector<Plot>& plots) {
  std::set<std::string> names{"yield", "days"};
  for (const Plot& plot : plots) {
    for (const model::Movement& one : plot.history.out) names.insert(one.material.name);
    for (const model::Series& one : plot.history.series) names.insert(one.quantity);
    for (const model::Measure& one : plot.assessment.measures) names.insert(one.key);
  }
  return {names.begin(), names.end()};
}

bool lies_in(const std::optional<Span>& span, model::Day day) {
  return !span || (day >= span->from && day <= span->to);
}

Mistake unknown(const Plot& plot, std::string_view why) {
  return {plot.label, fmt::format("{} {}", plot.label, why)};
}

Result<PlotValue> taken_of(const Plot& plot, const Yardstick& yardstick) {
  double mass = 0, volume = 0, count = 0, energy = 0;
  int masses = 0, volumes = 0, counts = 0, energies = 0;
  for (const model::Movement& movement : plot.history.out) {
    if (!lies_in(yardstick.span, movement.day)) continue;
    if (yardstick.of == Of::kProduct && movement.material.name != yardstick.name) continue;
    if (movement.amount.dimension == Dimension::kCount) {
      count += movement.amount.si;
      ++counts;
    } else if (movement.amount.dimension == Dimension::kEnergy) {
      energy += movement.amount.si;
      ++energies;
    } else if (const auto weight = movement.mass()) {
      mass += weight->value;
      ++masses;
    } else {
      volume += movement.amount.si;
      ++volumes;
    }
  }
  const int most = std::max({masses, volumes, counts, energies});
  const int all = masses + volumes + counts + energies;
  // Nothing taken is a yield of nothing, in whatever the others are measured by.
  PlotValue value{mass, Dimension::kMass, "", {}, "", ""};
  if (all > 0 && most == counts) value = {count, Dimension::kCount, "", {}, "", ""};
  if (all > 0 && most == volumes) value = {volume, Dimension::kVolume, "", {}, "", ""};
  if (all > 0 && most == energies) value = {energy, Dimension::kEnergy, "", {}, "", ""};
  if (most < all) {
    value.leaves_out = fmt::format("{}: {} of {} movements out measured another way, left out",
                                   plot.label, all - most, all);
  }
  return value;
}

Result<PlotValue> reading_of(const Plot& plot, const std::string& quantity, Roll roll,
                             const std::optional<Span>& span) {
  const kinds::Kind* kind = kinds::find_kind(plot.history.batch.kind);
  const kinds::Quantity* spec = kind ? kinds::find_quantity(*kind, quantity) : nullptr;
  const auto days = model::pooled_days(plot.history.all(quantity));
  double sum = 0, least = 0, greatest = 0, mean = 0;
  int counted = 0;
  for (const model::DayRoll& day : days) {
    if (!lies_in(span, day.day)) continue;
    least = counted == 0 ? day.least : std::min(least, day.least);
    greatest = counted == 0 ? day.greatest : std::max(greatest, day.greatest);
    sum += day.total;
    mean += day.mean();
    ++counted;
  }
  if (counted == 0) return unknown(plot, fmt::format("has no reading of {}", quantity));
  PlotValue value{mean / counted, spec ? spec->dimension : Dimension::kNumber, "", {}, "", ""};
  switch (roll) {
    case Roll::kMean:
      break;
    case Roll::kTotal:
      value.si = sum;
      break;
    case Roll::kHighest:
      value.si = greatest;
      break;
    case Roll::kLowest:
      value.si = least;
      break;
  }
  return value;
}

Result<PlotValue> undivided(const Plot& plot, const Yardstick& yardstick) {
  const model::Batch& batch = plot.history.batch;
  switch (yardstick.of) {
    case Of::kYield:
    case Of::kProduct:
      return taken_of(plot, yardstick);
    case Of::kReading:
      return reading_of(plot, yardstick.name, yardstick.roll, yardstick.span);
    case Of::kFigure: {
      const model::Measure* one = figure(plot, yardstick.name);
      if (one == nullptr) return unknown(plot, "has no figure " + yardstick.name);
      return PlotValue{
          one->value.value.si, one->value.value.dimension, one->value.label, {}, "", ""};
    }
    case Of::kDeed: {
      const auto times = std::count_if(
          plot.history.deeds.begin(), plot.history.deeds.end(), [&](const model::Deed& deed) {
            return deed.word == yardstick.name && lies_in(yardstick.span, deed.day);
          });
      return PlotValue{static_cast<double>(times), Dimension::kCount, "", {}, "", ""};
    }
    case Of::kDays:
      if (!batch.ended_day) return unknown(plot, "has not ended, so its days are not known");
      return PlotValue{static_cast<double>((*batch.ended_day - batch.started_day).count()),
                       Dimension::kDuration,
                       "",
                       {},
                       "",
                       ""};
  }
  return unknown(plot, "has no such number");
}

}  // namespace

Result<Yardstick> read_yardstick(std::string_view text, const std::vector<Plot>& plots) {
  std::string name = measure::folded(text), per;
  if (const std::size_t at = name.find(" per "); at != std::string::npos) {
    per = name.substr(at + 5);
    name = name.substr(0, at);
  }
  std::optional<Roll> roll;
  for (const auto& [word, of] : {std::pair{"mean ", Roll::kMean},
                                 {"total ", Roll::kTotal},
                                 {"highest ", Roll::kHighest},
                                 {"lowest ", Roll::kLowest}}) {
    if (!name.starts_with(word)) continue;
    roll = of;
    name = name.substr(std::string_view(word).size());
  }
  auto found = named(name, plots, roll.has_value());
  if (!found && roll && named(name, plots, false)) {
    return Mistake{std::string(text),
                   fmt::format("mean, total, highest and lowest go with what is read; {} is not",
                               measure::quoted(name))};
  }
  if (!found) {
    const std::vector<std::string> names = all_names(plots);
    const std::vector<std::string_view> known(names.begin(), names.end());
    std::string why = fmt::format("these batches have no {}", measure::quoted(name));
    if (const auto near = measure::nearest(name, known)) {
      why += fmt::format("; did you mean {}?", *near);
    } else {
      why += "; they have " + measure::listed(known, "and");
    }
    return Mistake{std::string(text), why};
  }
  if (roll) found->roll = *roll;
  found->per = per;
  return *found;
}

Result<PlotValue> value_of(const Plot& plot, const Yardstick& yardstick) {
  auto value = undivided(plot, yardstick);
  if (!value || yardstick.per.empty()) return value;
  PlotValue divided = *value;
  divided.per_name = yardstick.per;
  if (const auto told = plot.history.batch.number(yardstick.per)) {
    divided.per = told->dimension;
    if (told->si <= 0) return unknown(plot, fmt::format("has {} 0", yardstick.per));
    divided.si /= told->si;
    return divided;
  }
  const auto read = reading_of(plot, yardstick.per, Roll::kMean, yardstick.span);
  if (!read) {
    return unknown(plot, fmt::format("was started without {0}=, and {0} was not read; so nothing "
                                     "can be reckoned per {0}",
                                     yardstick.per));
  }
  if (read->si <= 0) return unknown(plot, fmt::format("has a mean {} of 0", yardstick.per));
  divided.per = read->dimension;
  divided.si /= read->si;
  return divided;
}

Scale scale_of(const PlotValue& value, measure::UnitSystem system) {
  const bool us = system == measure::UnitSystem::kUs;
  const bool plain = value.dimension == Dimension::kCount || value.dimension == Dimension::kNumber;
  const measure::Unit& unit = measure::usual_unit(value.dimension, system);
  Scale scale;
  if (plain) {
    scale.unit = scale.si_unit = value.dimension == Dimension::kNumber ? value.label : "";
  } else {
    scale = {unit.factor, value.per ? 0 : unit.zero, std::string(unit.symbol),
             std::string(measure::base_unit(value.dimension))};
  }
  if (!value.per) return scale;
  if (*value.per == Dimension::kArea) {
    constexpr double kHundredSquareFeet = 9.290304;  // m2
    scale.factor = us ? scale.factor / kHundredSquareFeet : scale.factor;
    scale.unit += us ? "/100 ft2" : "/m2";
    scale.si_unit += "/m2";
    return scale;
  }
  const measure::Unit& per = measure::usual_unit(*value.per, system);
  if (*value.per == Dimension::kCount || *value.per == Dimension::kNumber) {
    scale.unit += "/" + value.per_name;
    scale.si_unit += "/" + value.per_name;
    return scale;
  }
  scale.factor /= per.factor;
  scale.unit += "/" + std::string(per.symbol);
  scale.si_unit += "/" + std::string(measure::base_unit(*value.per));
  return scale;
}

std::string described(const Yardstick& yardstick) {
  std::string text = yardstick.name;
  switch (yardstick.of) {
    case Of::kYield:
      text = "all that was taken out";
      break;
    case Of::kProduct:
      text += " taken out";
      break;
    case Of::kReading:
      switch (yardstick.roll) {
        case Roll::kMean:
          text = "the mean of the days' " + text;
          break;
        case Roll::kTotal:
          text = "all " + text + " added up";
          break;
        case Roll::kHighest:
          text = "the highest " + text;
          break;
        case Roll::kLowest:
          text = "the lowest " + text;
          break;
      }
      break;
    case Of::kFigure:
      text = yardstick.said;
      break;
    case Of::kDeed:
      text = "how often " + text;
      break;
    case Of::kDays:
      text = "days from start to end";
      break;
  }
  if (!yardstick.per.empty()) text += ", per " + yardstick.per;
  return text;
}

}  // namespace season
