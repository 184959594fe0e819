#include <array>

#include "kinds/table.h"
#include "kinds/thresholds.h"
#include "kinds/words.h"

// A compost pile, windrow or turning drum.
namespace kinds {
namespace {

namespace limits = thresholds::pile;
using measure::Celsius;
using measure::Dimension;
using model::Urgency;

constexpr std::array kQuantities{
    Quantity{"temperature", "temp", Dimension::kTemperature, -30, 95,
             "in the pile, at a probe position", {}, 15},
    Quantity{"air", "ambient", Dimension::kTemperature, -40, 50, "of the air beside it"},
    Quantity{"moisture", "", Dimension::kFraction, 0, 1, "of mass as it lies"},
    Quantity{"oxygen", "o2", Dimension::kFraction, 0, 0.21, "of the air in the pile"},
    Quantity{"ph", "", Dimension::kAcidity, 3, 11, "of a slurry of it"},
    Quantity{"height", "", Dimension::kLength, 0, 6, "of the pile", {"ft", "m"}},
    Quantity{"volume", "", Dimension::kVolume, 0, 1e6, "of the pile"},
};

constexpr std::array kWords{
    Word{"turned", "turn", "", "mixed through, outside to inside"},
    Word{"watered", "wetted", "", "water was put on"},
    Word{"covered", "", "", "a cover was put on"},
    Word{"uncovered", "", "", "the cover was taken off"},
    Word{"aerated", "", "", "air was blown or poked in"},
    Word{"screened", "sieved", "", "sieved"},
    Word{"capped", "", "", "a layer of finished compost or chips was put over it"},
    Word{"dry", "", "moisture", "a squeezed handful falls apart"},
    Word{"damp", "moist", "moisture", "a squeezed handful holds and gives a drop"},
    Word{"soggy", "wet", "moisture", "water runs from a squeezed handful"},
    Word{"earthy", "sweet", "smell", "like a forest floor"},
    Word{"sour", "", "smell", "like vinegar"},
    Word{"ammonia", "", "smell", "sharp, of ammonia"},
    Word{"rotten", "putrid", "smell", "of rotten eggs or worse"},
};

constexpr std::array kSettings{
    SettingSpec{"method", Dimension::kNumber, "turned static vessel cold", "how it is made"},
    SettingSpec{"volume", Dimension::kVolume, "", "when it was built"},
};

std::string hot_action(Celsius hottest, const model::Rules& rules) {
  if (hottest >= rules(limits::hot_fire)) {
    return "open it and spread it away from anything that burns, with water at hand";
  }
  return "turn it or open it, and water it if it is dry";
}

// The position whose latest reading is the highest, among those read lately.
const model::Series* hottest(const model::History& history, const model::Rules& rules) {
  const model::Series* found = nullptr;
  for (const model::Series* series : history.all("temperature")) {
    const auto age = history.now - series->last->at;
    if (age > std::chrono::duration<double, date::days::period>(rules(limits::hot_fresh).value)) {
      continue;
    }
    if (found == nullptr || series->last->value > found->last->value) found = series;
  }
  return found;
}

void judge_heat(const model::History& history, const model::Rules& rules,
                model::Assessment& into) {
  const model::Series* series = hottest(history, rules);
  if (series == nullptr) return;
  const Celsius now{series->last->value};
  if (now <= rules(limits::hot_above)) return;
  const measure::Printer print(history.units);
  model::Finding made = finding("pile.hot", Urgency::kNow, limits::hot_above, rules);
  made.value = model::Measured{"temperature", measure::value_of(now), ""};
  made.says = fmt::format("{} is too hot: {}, above {}", position_words(*series), print(now),
                          print(rules(limits::hot_above)));
  made.action = hot_action(now, rules);
  if (now >= rules(limits::hot_fire)) {
    made.caution =
        "Compost this hot can catch fire by itself: keep people and buildings clear, do not dig into "
        "it alone, and call the fire service if you see smoke.";
  } else if (now >= rules(limits::hot_severe)) {
    made.why = "at this heat the microbes die back and the treatment window is left";
  }
  into.findings.push_back(std::move(made));
}

model::Assessment assess_pile(const model::History& history, const model::Rules& rules) {
  model::Assessment assessment;
  const model::Series* series = hottest(history, rules);
  assessment.stage = series == nullptr ? "unread"
                     : Celsius{series->last->value} >= rules(limits::warm_from) ? "hot"
                                                                              : "warming";
  judge_heat(history, rules, assessment);
  return assessment;
}

}  // namespace

const Kind kPile{
    .name = "pile",
    .meaning = "a compost pile, windrow or turning drum",
    .quantities = kQuantities,
    .words = kWords,
    .settings = kSettings,
    .positions = "core edge top north south east west",
    .temperature = "temperature",
    .percentage = "moisture",
    .product = "compost",
    .rhythm = "temperature",
    .unread_after = &limits::unread_days_info,
    .keeps_mass = true,
    .assess = assess_pile,
    .objects_to = nullptr,
};

}  // namespace kinds
