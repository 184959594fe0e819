#include <algorithm>

#include "kinds/digester/ban.h"
#include "kinds/digester/cold.h"
#include "kinds/digester/facts.h"
#include "kinds/digester/figures.h"
#include "kinds/digester/lowgas.h"
#include "kinds/digester/outlook.h"
#include "kinds/digester/safety.h"
#include "kinds/digester/says.h"
#include "kinds/digester/start.h"
#include "kinds/digester/study.h"
#include "kinds/digester/upkeep.h"
#include "kinds/digester/vocabulary.h"
#include "kinds/hold.h"
#include "kinds/registry.h"
#include "kinds/rhythm.h"
#include "kinds/thresholds.h"
#include "model/material_groups.h"

// A biogas digester: manure and feed in, gas and effluent out, warmed by the sun behind glass or
// not.
namespace kinds::digester {
namespace {

namespace limits = thresholds::digester;

template <class T, class Make>
const T& once(std::optional<T>& kept, Make make) {
  if (!kept) kept = make();
  return *kept;
}

std::optional<Objection> objects_to(const model::Material& material, const model::Batch& batch,
                                    const model::Rules& rules) {
  const Ban ban = ban_on(material, batch);
  if (ban == Ban::kNone) return std::nullopt;
  return Objection{refuses(ban), std::string(kRuleBanned), ban_words(ban, material.name, rules),
                   source_of(ban, rules)};
}

std::optional<std::string> still_raw(const model::Movement& /*in*/, const LookBack& /*look*/,
                                     const model::Rules& /*rules*/) {
  return "digestion at such temperatures does not kill its germs";
}

ExpectedLoss loss(model::Stuff stuff, const model::Movement&, model::Day,
                  const model::Rules& rules) {
  if (stuff != model::Stuff::kCarbon) return {};
  return {rules(thresholds::loop::loss_digester_carbon), "as gas"};
}

constexpr std::array kPlotLimits{&limits::cold_below_info};

}  // namespace

const Feed& Study::feed() const {
  return once(feed_, [&] { return feed_of(history_, rules_, startup_); });
}

const Slurry& Study::slurry() const {
  return once(slurry_, [&] { return slurry_of(history_, rules_, warmth_); });
}

const Gas& Study::gas() const {
  return once(gas_, [&] { return gas_of(history_); });
}

const std::optional<Expected>& Study::expected() const {
  return once(expected_, [&] { return expected_gas(history_, rules_, feed(), warmth_); });
}

const std::optional<Compared>& Study::compared() const {
  return once(compared_, [&] { return compare_gas(*this); });
}

const std::vector<Trend>& Study::trends() const {
  return once(trends_,
              [&] { return trends_of(history_, rules_, startup_, feed(), slurry(), warmth_); });
}

const FeedMix& Study::mix() const {
  return once(mix_, [&] { return feed_mix_of(history_, feed(), startup_); });
}

const std::optional<GasDue>& Study::due() const {
  return once(due_, [&] { return gas_due(history_, rules_, feed(), warmth_, expected()); });
}

// A digester that rests is neither too cold nor short of gas.
std::vector<model::Finding> Study::findings() const {
  std::vector<model::Finding> all;
  const auto add = [&](Found one) {
    if (one) all.push_back(std::move(*one));
    return one.has_value();
  };
  add(judge_leak(*this));
  add(judge_sulfide(*this));
  if (resting()) {
    add(judge_restart(*this));
    return all;
  }
  for (const auto judge : {judge_cold, judge_winter, judge_swing, judge_sour, judge_ammonia,
                           judge_nitrogen, judge_banned, judge_start})
    add(judge(*this));
  const bool first_gas = add(judge_first_gas(*this));
  if (slurry().souring == Souring::kNo) add(judge_limited(*this));
  if (!running()) return all;
  feed_findings(all);
  add(judge_low_gas(*this, first_gas));
  judge_upkeep(*this, all);
  judge_trends(*this, all);
  return all;
}

std::vector<model::Finding> Study::by_calendar() const {
  std::vector<model::Finding> all;
  if (!resting() && running()) judge_upkeep(*this, all);
  return all;
}

std::optional<Rhythm> Study::feed_rhythm() const {
  const bool may_be_fed = running() && !resting() && slurry().souring == Souring::kNo &&
                          !judge_overfed(*this) && !judge_short(*this);
  if (!may_be_fed) return std::nullopt;
  return feeding_of_late(history_, [](const model::Movement& load) {
    return load.material.group != model::group::kWater;
  });
}

// One pair of hands feeds it once: of a slurry that sours, the smaller ration is the one that is
// said.
void Study::feed_findings(std::vector<model::Finding>& into) const {
  const auto overfed = judge_overfed(*this);
  if (slurry().souring == Souring::kNo) {
    if (overfed) into.push_back(*overfed);
    if (auto early = judge_short(*this)) into.push_back(std::move(*early));
    return;
  }
  const auto sour =
      std::find_if(into.begin(), into.end(), [](const auto& one) { return one.rule == kRuleSour; });
  if (overfed && sour != into.end() && overfed->facts(kShare) < measure::Fraction{0.5})
    sour->facts.set(kShare, overfed->facts(kShare));
}

// A holder stands at little above the air: more is a slip, or about to give. A dome without one may
// stand higher.
std::optional<std::string> Study::doubts(const Quantity& quantity, double si) const {
  if (quantity.name == kCooking.name) {
    if (leak_of(history_)) return flame_at_leak_words();
    if (const auto hold = forbidding(*this, model::Forbids::kFlame))
      return flame_forbidden_words(*hold);
  }
  const measure::Kilopascals most = rules_(limits::holder_pressure);
  if (quantity.name != kGasPressure.name || !history_.batch.number(kHolder)) return std::nullopt;
  if (si <= most.value) return std::nullopt;
  return holder_words();
}

model::Words Study::words(const model::Finding& finding) const {
  return words_of(finding, *this);
}

std::string Study::well() const {
  return well_words(*this);
}

std::vector<model::Progress> Study::progress() const {
  if (history_.batch.ended) return {};  // they say how it goes on
  std::vector<model::Progress> lines{warmth_line(*this)};
  const auto add = [&](std::optional<model::Progress> line) {
    if (line) lines.push_back(std::move(*line));
  };
  for (model::Progress& line : startup_lines(*this)) lines.push_back(std::move(line));
  if (running()) add(feed_line(*this));
  add(mix_line(*this));
  add(chemistry_line(*this));
  if (!running()) return lines;
  add(gas_line(*this));
  add(due_line(*this));
  if (!resting()) add(trend_line(*this));
  return lines;
}

std::vector<model::Forecast> Study::forecasts() const {
  std::vector<model::Forecast> all;
  const Foreseen well = foreseen_well();
  if (!resting()) {
    if (auto ahead = well.gas ? gas_forecast(*this) : std::nullopt)
      all.push_back(std::move(*ahead));
    if (running()) {
      for (model::Forecast& one : limit_forecasts(*this)) all.push_back(std::move(one));
    }
  }
  if (!well.warmth) return all;
  for (model::Forecast& one : warmth_forecasts(*this)) all.push_back(std::move(one));
  return all;
}

// How well its warmth is foreseen is looked at only where something hangs on it.
std::vector<model::Forecast> Study::coming() const {
  std::vector<model::Forecast> all = warmth_forecasts(*this);
  std::erase_if(all, [](const model::Forecast& one) { return one.line.empty(); });
  if (!all.empty() && !foreseen_well().warmth) all.clear();
  return all;
}

std::vector<model::Measure> Study::figures() const {
  return figures_of(*this);
}

// Against burning gas of a digester that leaks; letting it off is no use of it.
std::optional<Objection> Study::against_taking(const model::Movement& load) const {
  if (!is_burned(load) || !leak_of(history_)) return std::nullopt;
  return Objection{false, std::string(kRuleLeak), leak_objection_words(*this), "common practice"};
}

bool Study::is_meant(model::Forbids what, const model::Movement& load) const {
  return what == model::Forbids::kFlame && is_burned(load);
}

std::optional<Objection> Study::against_ending() const {
  if (!may_hold_gas(*this)) return std::nullopt;
  return Objection{true, std::string(kRuleGasInIt), gas_in_it_words(*this), "common practice"};
}

std::vector<std::string_view> Study::circumstances(const Handled& handled) const {
  return circumstances_of(handled, *this);
}

}  // namespace kinds::digester

namespace kinds {
namespace {

constexpr std::array kDigesterRemedies{
    Remedy{model::Danger::kGasSmell, digester::kMended, digester::kRuleLeak}};

}  // namespace

const Kind kDigester{
    .name = "digester",
    .meaning = "a biogas digester",
    .one = "",
    .begun = "dig-1 volume=1m3 site=glass altitude=230ft",
    .vocabulary = {.quantities = digester::kQuantities,
                   .words = digester::kWords,
                   .settings = digester::kSettings,
                   .positions = "top middle bottom",
                   .temperature = digester::kTemperature.name,
                   .percentage = digester::kMethane.name,
                   .rhythm = digester::kTemperature.name,
                   .unread_after = &thresholds::digester::unread_days_info,
                   .daily = digester::kTemperature.name,
                   .vague = digester::kVague},
    .drawing = {.plot_limits = digester::kPlotLimits, .chapter = Chapter::kHeat},
    .carrying = {.product = digester::kEffluent,
                 .objects_to = digester::objects_to,
                 .still_raw = digester::still_raw,
                 .loss = digester::loss},
    // What leaves as slurry went in as feed and water. Gas is carried out as a volume, which weighs
    // nothing in that sum; a digester that was full when its records began has its slurry added as
    // effluent.
    .roles = {.holds_mass = true, .makes_gas = true, .counts_up = true},
    .study = [](const model::History& history, const model::Rules& rules)
        -> std::unique_ptr<Study> { return std::make_unique<digester::Study>(history, rules); },
    .hazards = {.gas = HazardAnswer::rows(),
                .fire = HazardAnswer::rows(),
                .carbon_monoxide = HazardAnswer::rows(),
                .germs = HazardAnswer::rows(),
                .pressure = HazardAnswer::rows(),
                .height = HazardAnswer::rows(),
                .bites_and_dust = HazardAnswer::none("what it takes is wet, and it is closed"),
                .drinking = HazardAnswer::none("nobody takes slurry for water"),
                .electric = HazardAnswer::none("a switch near it is a spark: its gas rows say so")},
    .remedies = kDigesterRemedies,
};

}  // namespace kinds
