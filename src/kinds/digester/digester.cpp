#include <algorithm>
#include <array>

#include "kinds/digester/ban.h"
#include "kinds/digester/cold.h"
#include "kinds/digester/due.h"
#include "kinds/digester/expected.h"
#include "kinds/digester/feed.h"
#include "kinds/digester/gas.h"
#include "kinds/digester/lowgas.h"
#include "kinds/digester/measures.h"
#include "kinds/digester/mix.h"
#include "kinds/digester/outlook.h"
#include "kinds/digester/safety.h"
#include "kinds/digester/slurry.h"
#include "kinds/digester/start.h"
#include "kinds/digester/trend.h"
#include "kinds/digester/upkeep.h"
#include "kinds/digester/words.h"
#include "kinds/old_kind.h"
#include "kinds/registry.h"
#include "kinds/thresholds.h"
#include "kinds/finding.h"

// A biogas digester: manure and feed in, gas and effluent out, warmed by the sun behind glass or
// not.
namespace kinds {
namespace {

namespace limits = thresholds::digester;
using measure::Dimension;

constexpr measure::ShownIn kGasVolume{"ft3", "L"};
constexpr measure::ShownIn kMillilitres{"mL", "mL"};

constexpr std::array kQuantities{
    standing_still(
        {"temperature", "temp slurry", Dimension::kTemperature, -5, 65, "of the slurry", {}, 3}),
    Quantity{"air", "ambient", Dimension::kTemperature, -40, 60, "of the air beside it"},
    Quantity{"ph", "", Dimension::kAcidity, 3.5, 9.5, "of the slurry"},
    Quantity{"gas", "", Dimension::kVolume, 0, 1e5,
             "gas made since the reading before, as measured", kGasVolume, 0, true},
    Quantity{"meter", "", Dimension::kVolume, 0, 1e9, "what the gas meter's counter shows",
             kGasVolume, 0, false, true},
    Quantity{"gas-temperature", "gas_temperature", Dimension::kTemperature, -30, 60,
             "of the gas measured"},
    // Holders and bags stand at a few mbar, a fixed dome at up to a metre of water (common
    // practice, from memory): 1013 mbar is the air's own pressure, 20 bar a slip.
    Quantity{"gas-pressure",
             "gas_pressure pressure",
             Dimension::kPressure,
             0,
             10,
             "of the gas, above the air outside",
             {"inH2O", "mbar"}},
    // Fat alone gives 72 % (VDI 4630, from memory); more is a slip or gas that was cleaned.
    Quantity{"methane", "ch4", Dimension::kFraction, 0, 0.85, "of the gas"},
    Quantity{"cooking",
             "burned",
             Dimension::kDuration,
             0,
             2,
             "hours a flame burned since the entry before",
             {"hours", "hours"},
             0,
             true},
    Quantity{"vfa", "acids fos", Dimension::kNumber, 0, 60000,
             "volatile acids by a laboratory, mg/L as acetic acid"},
    Quantity{"alkalinity", "tac", Dimension::kNumber, 100, 60000,
             "by a laboratory, mg/L as calcium carbonate"},
    Quantity{"tan", "", Dimension::kNumber, 0, 20000,
             "total ammonia nitrogen by a laboratory, mg/L"},
    Quantity{"first-acid", "", Dimension::kVolume, 1e-4, 0.5,
             "titration: 0.1 N sulfuric acid down to pH 5.0", kMillilitres},
    Quantity{"second-acid", "", Dimension::kVolume, 0, 0.2,
             "titration: further acid down to pH 4.4", kMillilitres},
    Quantity{"sample", "", Dimension::kVolume, 1e-3, 0.5,
             "titration: slurry taken, 20 mL where not said", kMillilitres},
};

constexpr std::array kWords{
    Word{"filled", "", "", "filled to its working level: the wait for gas begins"},
    Word{"stirred", "stir", "", "stirred, or its crust broken"},
    Word{"vented", "vent", "", "gas was let off unused"},
    Word{"drained", "", "", "the water trap was drained"},
    Word{"renewed", "", "", "the scrubber's filling was renewed"},
    Word{"checked", "leaks-checked leak-checked checked-leaks checked-for-leaks", "",
         "joints and hoses were checked for leaks"},
    Word{"leaking",
         "leak leaks it-leaks it-smells-of-gas smells-of-gas smell-of-gas smells-gas gas-smell "
         "gas-leak rotten-eggs hissing",
         "leak", "it smells of gas, or gas escapes"},
    Word{"mended",
         "leak-mended leaks-mended mended-leak leak-fixed repaired tight no-leak no-leaks", "leak",
         "the leak is mended, or none was found"},
    Word{"covered", "", "", "a cover was put over it"},
    Word{"uncovered", "", "", "the cover was taken off"},
    Word{"rested", "", "", "shut down for the winter in good order"},
    Word{"none", "unlit no-flame", "flame", "the gas does not burn"},
    Word{"weak", "yellow weak-flame", "flame", "it burns small, yellow or goes out"},
    Word{"strong", "blue blue-flame", "flame", "it burns blue and steady"},
    Word{"earthy", "tarry", "smell", "the slurry smells mild"},
    Word{"sour", "", "smell", "the slurry smells like vinegar or silage"},
    Word{"ammonia", "", "smell", "the slurry smells sharp, of ammonia"},
};

constexpr std::array kSettings{
    SettingSpec{"volume", Dimension::kVolume, "", "working volume, the slurry's room",
                "what it was filled with"},
    SettingSpec{"site", Dimension::kNumber, "glass heated open buried", "where it stands"},
    SettingSpec{"holder", Dimension::kVolume, "", "of the gas holder"},
    SettingSpec{"altitude", Dimension::kLength, "", "above the sea, for the gas pressure",
                "sea level"},
    SettingSpec{"burner", Dimension::kVolume, "", "gas its burner takes in an hour",
                "the rule digester.gas.burner"},
    SettingSpec{"poultry", Dimension::kNumber, "no yes", "whether it takes poultry manure", "no"},
};

void judge(const model::History& history, const model::Rules& rules,
           const digester::Startup& startup, const digester::GasRecords& records,
           model::Assessment& into) {
  digester::judge_swing(history, rules, into);
  digester::judge_sour(history, rules, records.slurry, into);
  digester::judge_ammonia(history, rules, records.slurry, into);
  digester::judge_banned(history, rules, records.feed, into);
  digester::judge_start(history, rules, startup, records.warmth, into);
  digester::judge_first_gas(history, rules, startup, into);
  if (!startup.running()) return;
  digester::judge_overfed(history, rules, records.feed, records.warmth, into);
  digester::judge_short(history, rules, records.feed, records.warmth, into);
  const bool first_gas =
      std::any_of(into.findings.begin(), into.findings.end(),
                  [](const auto& one) { return one.rule == "digester.firstgas"; });
  digester::judge_low_gas(history, rules, records, first_gas, into);
  digester::judge_upkeep(history, rules, *startup.gas_on, into);
}

void add_lines(const model::History& history, const model::Rules& rules,
               const digester::Startup& startup, const digester::GasRecords& records,
               model::Assessment& into) {
  into.progress.push_back(digester::warmth_line(history, rules, records.warmth));
  digester::list_startup(history, rules, startup, into);
  if (startup.running()) {
    if (auto line = digester::feed_line(rules, records.feed, records.warmth))
      into.progress.push_back(*line);
  }
  const auto mix = digester::feed_mix_of(history, records.feed, startup);
  const bool fed_today = !history.in.empty() && history.in.back().day == history.today;
  if (auto line = digester::mix_line(rules, mix, !fed_today)) into.progress.push_back(*line);
  if (auto line = digester::chemistry_line(history, rules, records.slurry)) {
    into.progress.push_back(*line);
  }
  digester::measure_mix(mix, records.slurry, into);
  if (startup.running()) {
    if (auto line = digester::gas_line(history, rules, records)) into.progress.push_back(*line);
    if (const auto due = digester::gas_due(history, rules, records.feed, records.warmth)) {
      const measure::Printer print(history.units);
      into.progress.push_back(digester::due_line(*due, rules, print));
      digester::measure_due(*due, print, into.measures);
    }
  }
}

void follow(const model::History& history, const model::Rules& rules,
            const digester::Startup& startup, const digester::GasRecords& records,
            model::Assessment& into) {
  const auto trends = digester::trends_of(history, rules, startup, records);
  digester::judge_trends(rules, records.slurry, trends, into);
  if (auto line = digester::trend_line(rules, trends)) into.progress.push_back(std::move(*line));
  for (auto& ahead : digester::foresee_limits(history, trends)) {
    into.forecasts.push_back(std::move(ahead));
  }
}

std::string well_words(const model::History& history, const model::Rules& rules,
                       const digester::GasRecords& records, const std::string& stage) {
  const measure::Printer print(history.units);
  std::string words = stage;
  if (records.warmth.mean) {
    words += fmt::format(" at {} ({})", print(*records.warmth.mean),
                         digester::window_words(records.warmth, rules));
  } else {
    words += fmt::format(", too few readings to judge its temperature ({} in {})",
                         records.warmth.days_read,
                         days_words(static_cast<int>(rules(limits::cold_window).value)));
  }
  return words;
}

// A digester that rests is neither too cold nor short of gas.
model::Assessment assess_digester(const model::History& history, const model::Rules& rules) {
  model::Assessment assessment;
  const auto startup = digester::startup_of(history, rules);
  const auto warmth = digester::warmth_of(history, rules);
  const auto feed = digester::feed_of(history, rules, startup);
  const auto slurry = digester::slurry_of(history, rules, warmth);
  const auto gas = digester::gas_of(history);
  const digester::GasRecords records{feed, warmth, slurry, gas};
  assessment.stage = digester::stage_of(history, startup);
  digester::judge_leak(history, assessment);
  if (digester::is_resting(history)) {
    digester::judge_restart(history, rules, warmth, assessment);
  } else {
    digester::judge_cold(history, rules, warmth, startup.running(), assessment);
    digester::judge_winter(history, rules, warmth, startup.running(), assessment);
    judge(history, rules, startup, records, assessment);
    if (auto ahead = digester::foresee_gas(history, rules, feed, warmth, gas)) {
      assessment.forecasts.push_back(*ahead);
    }
  }
  assessment.measures = digester::measures_of(history, rules, startup, feed, gas);
  add_lines(history, rules, startup, records, assessment);
  if (startup.running() && !digester::is_resting(history))
    follow(history, rules, startup, records, assessment);
  for (auto& ahead : digester::foresee_warmth(history, rules))
    assessment.forecasts.push_back(ahead);
  if (history.batch.ended) assessment.progress.clear();  // they say how it goes on
  assessment.well = well_words(history, rules, records, assessment.stage);
  return assessment;
}

std::optional<Objection> digester_objects_to(const model::Material& material,
                                             const model::Batch& batch, const model::Rules& rules) {
  const auto ban = digester::ban_on(material, batch, rules);
  if (!ban) return std::nullopt;
  return Objection{ban->refuses, "digester.banned", ban->says, ban->source};
}

std::optional<std::string> still_raw(const model::Movement& /*in*/, const LookBack& /*look*/,
                                     const model::Rules& /*rules*/) {
  return "digestion at such temperatures does not kill its germs";
}

constexpr std::array kPlotLimits{&limits::cold_below_info};

ExpectedLoss digester_loss(model::Stuff stuff, const model::Movement&, model::Day,
                           const model::Rules& rules) {
  namespace loop = thresholds::loop;
  if (stuff != model::Stuff::kCarbon) return {};
  return {rules(loop::loss_digester_carbon), "as gas"};
}

}  // namespace

const OldKind kDigesterOld{
    .name = "digester",
    .meaning = "a biogas digester",
    .begun = "dig-1 volume=1m3 site=glass altitude=230ft",
    .quantities = kQuantities,
    .words = kWords,
    .settings = kSettings,
    .positions = "top middle bottom",
    .temperature = "temperature",
    .percentage = "methane",
    .product = "effluent",
    .rhythm = "temperature",
    .unread_after = &limits::unread_days_info,
    // What leaves as slurry went in as feed and water. Gas is carried out as a volume, which weighs
    // nothing in that sum; a digester that was full when its records began has its slurry added as
    // effluent.
    .keeps_mass = true,
    .assess = assess_digester,
    .objects_to = digester_objects_to,
    .objects_to_taking = digester::objects_to_taking,
    .still_raw = still_raw,
    .loss = digester_loss,
    .counts_up = true,
    .caution_at = digester::caution_at,
    .plot_limits = kPlotLimits,
};

}  // namespace kinds
