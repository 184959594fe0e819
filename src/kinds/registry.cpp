#include "kinds/registry.h"

#include <algorithm>
#include <array>
#include <cassert>
#include <cmath>

#include "kinds/caution.h"
#include "kinds/finding.h"
#include "kinds/remark.h"
#include "kinds/rhythm.h"
#include "kinds/weather_words.h"
#include "measure/text.h"

namespace kinds {

namespace {

constexpr std::array kTable{&kPile,  &kLarvae, &kBrew, &kDigester, &kBurn,
                            &kFlock, &kBed,    &kTank, &kPanel,    &kNestbox};

template <class Spec>
const Spec* find_spec(std::span<const Spec> specs, std::string_view name,
                      std::string_view Spec::*own_name) {
  for (const Spec& spec : specs) {
    if (spec.*own_name == name || measure::is_among(spec.aliases, name)) return &spec;
  }
  return nullptr;
}

std::optional<model::Told> unread(const Study& study) {
  const model::History& history = study.history();
  const Kind& kind = *find_kind(history.batch.kind);
  const auto threshold = study.unread_after();
  if (!threshold) return std::nullopt;
  const measure::Days limit = study.rules()(*threshold);
  const auto last = last_in_rhythm(kind, history);
  // What was never read is missed from the day on which the logbook knew of it.
  const model::Instant since = std::max(
      last.value_or(std::max(history.batch.started, history.told_at)), history.batch.started);
  const measure::Days silent{elapsed_days(since, history.now)};
  if (silent <= limit) return std::nullopt;
  model::Told made{finding(std::string(kind.name) + ".unread", model::Urgency::kToday, *threshold,
                           study.rules())};
  made.silence = true;
  const auto days = static_cast<int>(silent.value);
  made.value = model::Measured{"silence", measure::value_of(silent), ""};
  made.job = "read";
  made.since = history.today - date::days{days - whole(limit)};
  using By = model::Ending::By;
  made.ends = {{kind.vocabulary.rhythm.empty() ? By::kAnyEntry : By::kReading,
                std::string(kind.vocabulary.rhythm)}};
  const std::string what = kind.vocabulary.rhythm.empty()
                               ? "nothing logged"
                               : fmt::format("no {}", kind.vocabulary.rhythm);
  made.words.line = fmt::format("{}: {}", kind.vocabulary.rhythm.empty() ? "look at it" : "read it",
                                last ? days_words(days) : "not yet");
  made.words.says =
      last ? fmt::format("{} for {}", what, days_words(days)) : fmt::format("{} yet", what);
  made.words.action = kind.vocabulary.rhythm.empty()
                          ? "look at it and log what you see"
                          : fmt::format("read its {}", kind.vocabulary.rhythm);
  made.words.tag = "reading";
  return made;
}

}  // namespace

std::span<const Kind* const> all_kinds() {
  return kTable;
}

const Kind* find_kind(std::string_view name) {
  for (const Kind* kind : kTable) {
    if (kind->name == name) return kind;
  }
  return nullptr;
}

const Quantity* find_quantity(const Kind& kind, std::string_view name) {
  return find_spec(kind.vocabulary.quantities, name, &Quantity::name);
}

const Word* find_word(const Kind& kind, std::string_view word) {
  if (const Word* own = find_spec(kind.vocabulary.words, word, &Word::word)) return own;
  if (find_quantity(kind, word) != nullptr) return nullptr;  // a tank's rain has its gauge
  if (const Word* clear = find_spec(std::span(&kAllClear, 1), word, &Word::word)) return clear;
  return find_spec(std::span<const Word>(weather::kWords), word, &Word::word);
}

const Vague* find_vague(const Kind& kind, std::string_view word) {
  return find_spec(kind.vocabulary.vague, word, &Vague::word);
}

const SettingSpec* find_setting(const Kind& kind, std::string_view key) {
  const auto found = std::find_if(kind.vocabulary.settings.begin(), kind.vocabulary.settings.end(),
                                  [&](const SettingSpec& spec) { return spec.key == key; });
  return found == kind.vocabulary.settings.end() ? nullptr : &*found;
}

bool has_position(const Kind& kind, std::string_view position) {
  return measure::is_among(kind.vocabulary.positions, position);
}

const Kind& kind_with(bool Roles::*role) {
  const auto found = std::find_if(kTable.begin(), kTable.end(),
                                  [&](const Kind* kind) { return kind->roles.*role; });
  assert(found != kTable.end());
  return **found;
}

bool has_role(std::string_view kind, bool Roles::*role) {
  const Kind* found = find_kind(kind);
  return found != nullptr && found->roles.*role;
}

const HazardAnswer& Hazards::operator[](model::Hazard hazard) const {
  switch (hazard) {
    case model::Hazard::kGas:
      return gas;
    case model::Hazard::kFire:
      return fire;
    case model::Hazard::kCarbonMonoxide:
      return carbon_monoxide;
    case model::Hazard::kGerms:
      return germs;
    case model::Hazard::kPressure:
      return pressure;
    case model::Hazard::kHeight:
      return height;
    case model::Hazard::kBitesAndDust:
      return bites_and_dust;
    case model::Hazard::kDrinking:
      return drinking;
    case model::Hazard::kElectric:
      return electric;
  }
  return gas;
}

std::string_view Study::product() const {
  return find_kind(history_.batch.kind)->carrying.product;
}

bool Study::is_meant(model::Forbids what, const model::Movement& load) const {
  return what == model::Forbids::kProduct && load.material.name == product();
}

std::optional<model::Threshold<measure::Days>> Study::unread_after() const {
  const auto* info = find_kind(history_.batch.kind)->vocabulary.unread_after;
  if (info == nullptr) return std::nullopt;
  return model::Threshold<measure::Days>{info};
}

std::vector<model::Told> Study::worded() const {
  std::vector<model::Told> all;
  for (model::Finding& one : findings()) {
    model::Told told{std::move(one)};
    told.words = words(told);
    all.push_back(std::move(told));
  }
  return all;
}

std::vector<model::Forecast> Study::coming() const {
  std::vector<model::Forecast> all = forecasts();
  std::erase_if(all, [](const model::Forecast& one) { return one.line.empty(); });
  return all;
}

model::Told Study::tell(model::Finding finding) const {
  model::Told told{std::move(finding)};
  told.words = words(told);
  told.batch = history_.batch.code;
  told.kind = history_.batch.kind;
  told.cautions = cautions_of(told);
  return told;
}

std::vector<model::Told> Study::told() const {
  if (history_.batch.ended) return {};
  std::vector<model::Told> all = worded();
  std::vector<model::Told> dangers = standing_dangers(*this, all);
  if (auto silent = unread(*this)) all.push_back(std::move(*silent));
  give_way(dangers, *find_kind(history_.batch.kind), all);
  all.insert(all.begin(), std::make_move_iterator(dangers.begin()),
             std::make_move_iterator(dangers.end()));
  for (model::Told& one : all) {
    one.batch = history_.batch.code;
    one.kind = history_.batch.kind;
    one.cautions = cautions_of(one);
  }
  std::stable_sort(all.begin(), all.end(),
                   [](const auto& a, const auto& b) { return a.urgency < b.urgency; });
  return all;
}

void ForesightScore::judge(double likely, double low, double high, double naive, double came) {
  judge(likely, naive, came);
  ++ranged;
  if (came >= low && came <= high) ++within;
  if (came < low) ++below;
}

void ForesightScore::judge(double likely, double naive, double came) {
  const double off = likely - came, naive_off = naive - came;
  ++count;
  error_total += std::fabs(off);
  squared_total += off * off;
  naive_total += std::fabs(naive_off);
  naive_squared_total += naive_off * naive_off;
}

void ForesightScore::judge_day(model::Day asked, model::Day likely,
                               std::optional<model::Day> earliest, std::optional<model::Day> latest,
                               double naive, model::Day came) {
  const auto away = [&](model::Day day) { return static_cast<double>(days_between(asked, day)); };
  if (earliest && latest) {
    judge(away(likely), away(*earliest), away(*latest), naive, away(came));
  } else {
    judge(away(likely), naive, away(came));
  }
}

bool ForesightScore::loses_to_naive(int judged_at_least) const {
  return count >= judged_at_least && error_total > naive_total;
}

std::unique_ptr<Study> study(const model::History& history, const model::Rules& rules) {
  const Kind* kind = find_kind(history.batch.kind);
  assert(kind != nullptr);
  return kind->study(history, rules);
}

model::Assessment assess(const Study& study, Extent extent) {
  const bool ended = study.history().batch.ended.has_value();
  model::Assessment made{
      ended ? "ended" : study.stage(), study.told(), study.progress(), {}, {}, study.well()};
  if (extent != Extent::kFindings) made.measures = study.figures();
  if (extent == Extent::kAll && !ended) made.forecasts = study.forecasts();
  return made;
}

model::Assessment assess(const model::History& history, const model::Rules& rules, Extent extent) {
  if (find_kind(history.batch.kind) == nullptr) return {};
  return assess(*study(history, rules), extent);
}

}  // namespace kinds
