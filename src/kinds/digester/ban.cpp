#include "kinds/digester/ban.h"

#include "kinds/thresholds.h"
#include "kinds/finding.h"

namespace kinds::digester {
namespace {

namespace limits = thresholds::digester;
using measure::Printer;
using model::Urgency;

}  // namespace

bool is_limited(const model::Material& material) {
  return material.is("oil") || material.is("citrus");
}

std::optional<Ban> ban_on(const model::Material& material, const model::Batch& batch,
                          const model::Rules& rules) {
  const std::string& name = material.name;
  if (material.is("forbidden") || material.is("synthetic")) {
    return Ban{true, name + " must not go into a digester: it poisons it or comes out on the beds",
               "common practice; 7 CFR 205.105 for synthetics in organic growing"};
  }
  if (material.is("poultry")) {
    const bool taken = batch.text("poultry", "no") == "yes";
    return Ban{!taken,
               taken ? name + " brings ammonia: little by little, and watch the pH"
                     : name +
                           " is refused: its nitrogen turns to ammonia, which stops the gas "
                           "(start the batch with poultry=yes to take it)",
               "common practice; GTZ 1989 table 3.4 runs poultry up with cattle manure"};
  }
  if (is_limited(material)) {
    return Ban{
        false,
        fmt::format(
            "{} in small amounts only: with other oil and citrus no more than {} of the feed", name,
            Printer(measure::UnitSystem::kMetric)(rules(limits::limited_most))),
        rules.in_force(*limits::limited_most.info).source};
  }
  if (material.group == "wood" || material.is("woody-large") || material.group == "char") {
    return Ban{false, name + " does not digest: it floats, forms a crust and blocks the outlet",
               "common practice"};
  }
  if (name == "soil" || name == "sand" || name == "clay" || material.is("glossy")) {
    return Ban{false, name + " settles or blocks, and takes up the room of the slurry",
               "common practice"};
  }
  if (material.is("animal")) {
    return Ban{false,
               name + " stinks, draws pests and may carry germs that a digester does not kill",
               "common practice"};
  }
  return std::nullopt;
}

void judge_banned(const model::History& history, const model::Rules& rules, const Feed& feed,
                  model::Assessment& into) {
  const model::Movement* banned = nullptr;
  for (const model::Movement& movement : history.in) {
    const auto ban = ban_on(movement.material, history.batch, rules);
    const int days = days_between(movement.day, history.today);
    if (ban && ban->refuses && days < rules(limits::banned_told).value) banned = &movement;
  }
  if (banned != nullptr) {
    const auto ban = ban_on(banned->material, history.batch, rules);
    model::Told made = finding("digester.banned", Urgency::kToday, ban->source);
    made.words.says = fmt::format("{} went in on {}", banned->material.name,
                            measure::day_words(banned->day, history.today));
    made.words.why = ban->says;
    made.words.action = "feed no more of it; read pH and watch the flame for two weeks";
    into.findings.push_back(std::move(made));
  }
  if (!feed.limited || *feed.limited <= rules(limits::limited_most)) return;
  const Printer print(history.units);
  model::Told made = finding("digester.banned", Urgency::kToday, limits::limited_most, rules);
  made.value = model::Measured{"oil and citrus", measure::value_of(*feed.limited), ""};
  made.words.says = fmt::format("oil, grease and citrus are {} of the feed of {}, above {}",
                          print(*feed.limited), days_words(static_cast<int>(feed.window.value)),
                          print(rules(limits::limited_most)));
  made.words.why = "they sour it, float and slow the microbes";
  made.words.action = "leave them out until the share is down; a pile or the larvae take them better";
  into.findings.push_back(std::move(made));
}

}  // namespace kinds::digester
