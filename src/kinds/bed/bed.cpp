#include <algorithm>

#include "kinds/bed/care.h"
#include "kinds/bed/facts.h"
#include "kinds/bed/measures.h"
#include "kinds/bed/needs.h"
#include "kinds/bed/says.h"
#include "kinds/bed/study.h"
#include "kinds/bed/vocabulary.h"
#include "kinds/finding.h"
#include "kinds/registry.h"
#include "kinds/thresholds.h"
#include "measure/text.h"
#include "model/material_groups.h"

// A bed, from one crop to the next: what was put on, when its harvest is safe, what it gave.
namespace kinds::bed {
namespace {

std::optional<Objection> objects_to(const model::Material& material, const model::Batch& /*batch*/,
                                    const model::Rules& /*rules*/) {
  const bool refused = material.is(kFlagForbidden);
  if (!refused && !material.is(kFlagSynthetic)) return std::nullopt;
  return Objection{
      refused, std::string(kRuleBanned), banned_words(material, refused),
      refused ? "common practice" : "7 CFR 205.105: synthetic substances in organic production"};
}

std::optional<measure::Mistake> objects_to_setting(std::string_view key, std::string_view typed) {
  if (key != kNeeds) return std::nullopt;
  const auto read = read_needs(typed);
  return read ? std::nullopt : std::optional(read.mistake());
}

// The material of the catalogue that the crop is; null: it is not known there.
const model::Material* crop_of(const std::vector<model::Setting>& settings) {
  const auto crop = std::find_if(settings.begin(), settings.end(),
                                 [](const model::Setting& one) { return one.key == kCrop.key; });
  return crop == settings.end() ? nullptr : model::in_catalogue(crop->typed);
}

// A wait is lifted or cut short by what is hardly so of that crop.
std::optional<measure::Mistake> doubts_settings(const std::vector<model::Setting>& settings) {
  const model::Material* crop = crop_of(settings);
  if (crop == nullptr || !crop->is(kFlagEdible)) return std::nullopt;
  for (const model::Setting& one : settings) {
    if (one.typed != kNo) continue;
    if (one.key == kEaten.key) return measure::Mistake{one.key, not_eaten_doubt_words(crop->name)};
    const bool on_soil = std::find(kOnSoil.begin(), kOnSoil.end(), crop->name) != kOnSoil.end();
    if (one.key == kTouchesSoil.key && on_soil)
      return measure::Mistake{one.key, off_soil_doubt_words(crop->name)};
  }
  return std::nullopt;
}

}  // namespace

const std::vector<Wait>& Study::waits() const {
  if (!waits_) waits_ = waits_of(history_, rules_);
  return *waits_;
}

const std::vector<const model::Movement*>& Study::early() const {
  if (!early_) early_ = early_among(history_, waits());
  return *early_;
}

const std::vector<Given>& Study::given() const {
  if (!given_) given_ = given_to(history_, rules_);
  return *given_;
}

const std::optional<Need>& Study::need() const {
  if (!need_) need_ = need_of(history_);
  return *need_;
}

bool Study::stands() const {
  const model::Deed* planted = history_.last_deed(kPlanted);
  const model::Deed* cleared = history_.last_deed(kCleared);
  return planted != nullptr && (cleared == nullptr || cleared->at <= planted->at);
}

bool Study::in_harvest() const {
  if (!stands()) return false;
  const model::Deed* planted = history_.last_deed(kPlanted);
  for (const model::Movement& out : history_.out) {
    if (out.material.group == model::group::kCrop && out.at >= planted->at) return true;
  }
  return false;
}

std::string Study::stage() const {
  return stage_words(*this);
}

std::vector<model::Finding> Study::findings() const {
  std::vector<model::Finding> found;
  if (auto poison = judge_poison(*this)) {
    found.push_back(std::move(*poison));  // no days make that good
  } else {
    judge_wait(*this, found);
  }
  judge_nutrients(*this, found);
  if (auto carryover = judge_carryover(*this)) found.push_back(std::move(*carryover));
  return found;
}

std::vector<model::Finding> Study::by_calendar() const {
  std::vector<model::Finding> found;
  if (!judge_poison(*this)) judge_wait(*this, found);
  return found;
}

model::Words Study::words(const model::Finding& finding) const {
  return words_of(finding, *this);
}

std::string Study::well() const {
  return well_words(*this);
}

std::vector<model::Progress> Study::progress() const {
  std::vector<model::Progress> made;
  if (!early().empty()) made.push_back({"marked", marked_words(*this), std::nullopt});
  if (waits_now()) {
    const int since = days_between(wait()->load.day, history_.today);
    made.push_back(kinds::progress("harvest interval", since, wait()->days,
                                   interval_words(since, wait()->days)));
    made.back().at_leisure = true;  // its day was said with the load
  }
  if (!given().empty()) {
    made.push_back({"for this year's crop", for_crop_words(given(), print()), std::nullopt, true});
  }
  if (need()) {
    made.push_back({need()->by_soil_test ? "the soil test asks for" : "its harvest takes",
                    need_words(*need(), *this), std::nullopt});
  }
  return made;
}

std::vector<model::Forecast> Study::forecasts() const {
  if (!waits_now()) return {};
  const model::Day safe = wait()->safe;
  return {{"first safe harvest", safe, safe, safe, safe_then_words(*wait())}};
}

std::vector<model::Measure> Study::figures() const {
  return measures_of(*this);
}

bool Study::is_meant(model::Forbids what, const model::Movement& load) const {
  return what == model::Forbids::kProduct && load.material.is(kFlagEdible);
}

std::optional<Objection> Study::against_taking(const model::Movement& out) const {
  if (const model::Movement* poison = poison_on(history_);
      poison != nullptr && out.material.is(kFlagEdible))
    return Objection{true, std::string(kRuleBanned),
                     poisoned_words(poison->material.name, history_.batch.code), "common practice"};
  if (!out.material.is(kFlagEdible) || !waits_now()) return std::nullopt;
  return Objection{true, std::string(kRuleWait),
                   not_yet_words(out.material, *wait(), history_.batch.code), wait()->source};
}

std::vector<std::string> Study::on_arrival(const model::Movement& in) const {
  const std::string& code = history_.batch.code;
  std::vector<std::string> lines;
  if (auto brings = brings_words(in, *this); !brings.empty()) lines.push_back(std::move(brings));
  if (auto rates = rate_words(in, *this); !rates.empty()) lines.push_back(std::move(rates));
  if (in.material.is(kFlagForbidden)) {
    lines.push_back(never_for_food_words(code));
    return lines;
  }
  if (const auto wait = wait_after(in, history_.batch, rules_)) {
    lines.push_back(raw_words(*wait, code));
    if (in.from.empty() && in.material.is(kFlagUnproven)) lines.push_back(ask_statement_words());
  } else if (!in.manure.empty()) {
    const auto days = date::days{whole(rules_(thresholds::bed::wait_contact))};
    lines.push_back(not_eaten_words(in.manure.front(), code, in.day + days));
  } else if (!in.material.statement.empty()) {
    lines.push_back(statement_words(in.material.statement));
  } else if (in.material.is(kFlagTreated)) {
    lines.push_back(by_maker_words());
  } else if (in.material.group != model::group::kWater) {
    lines.push_back(no_manure_words());
  }
  // A drum of this site says its own days with what leaves it, and they are more.
  if (may_meet_leaves(in, *this) && (in.from.empty() || in.material.group != model::group::kBrew)) {
    lines.push_back(not_on_leaves_words(whole(rules_(thresholds::bed::leaves_wait))));
  }
  if (may_carry_herbicide(in) && !wants_bioassay(*this))
    lines.push_back(carryover_words(in.material.name, code));
  return lines;
}

std::vector<std::string_view> Study::circumstances(const Handled&) const {
  return is_eaten(history_.batch) ? std::vector<std::string_view>{kEaten}
                                  : std::vector<std::string_view>{};
}

}  // namespace kinds::bed

namespace kinds {

const Kind kBed{
    .name = "bed",
    .meaning = "a bed, from one crop to the next",
    .one = "",
    .begun = "bed-1 crop=kale area=100ft2",
    // Nothing is asked for by silence: a bed rests for months; its harvests and feeds are its
    // records.
    .vocabulary = {.quantities = bed::kQuantities,
                   .words = bed::kWords,
                   .settings = bed::kSettings,
                   .temperature = bed::kTemperature,
                   .percentage = bed::kWetness,
                   .objects_to_setting = bed::objects_to_setting,
                   .doubts_settings = bed::doubts_settings},
    .needs = {.provenance = true, .ground = true},
    .carrying = {.objects_to = bed::objects_to},
    .roles = {.ground = true},
    .study = [](const model::History& history, const model::Rules& rules)
        -> std::unique_ptr<Study> { return std::make_unique<bed::Study>(history, rules); },
    .hazards = {.gas = HazardAnswer::none("open ground"),
                .fire = HazardAnswer::none("nothing on it heats or burns"),
                .carbon_monoxide = HazardAnswer::none("nothing on it burns"),
                .germs = HazardAnswer::rows(),
                .pressure = HazardAnswer::none("open ground"),
                .height = HazardAnswer::none("nobody climbs"),
                .bites_and_dust =
                    HazardAnswer::none("the dust of a load is cautioned of where it is taken"),
                .drinking = HazardAnswer::none("it holds no water"),
                .electric = HazardAnswer::none("no wire belongs to it")},
};

}  // namespace kinds
