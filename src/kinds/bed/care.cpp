#include "kinds/bed/care.h"

#include <algorithm>
#include <array>

#include "kinds/bed/facts.h"
#include "kinds/bed/study.h"
#include "kinds/bed/vocabulary.h"
#include "kinds/bed/wait.h"
#include "kinds/finding.h"
#include "kinds/remark.h"
#include "kinds/thresholds.h"
#include "measure/text.h"
#include "model/material_groups.h"

namespace kinds::bed {
namespace {

namespace limits = thresholds::bed;
namespace group = model::group;

// Legumes, the nightshades, composites and a few more: state extension bulletins on clopyralid and
// aminopyralid in compost name them.
constexpr auto kHarmed = std::to_array<std::string_view>(
    {"bean", "pea", "tomato", "pepper", "eggplant", "potato", "lettuce", "spinach", "carrot",
     "sunflower", "clover", "lentil"});

bool is_harmed(const std::string& crop) {
  return std::any_of(kHarmed.begin(), kHarmed.end(),
                     [&](std::string_view one) { return crop.find(one) != std::string::npos; });
}

// On this ground, of this crop's time or an earlier one's.
const model::Sensed* last_sensed_here(const model::History& history, std::string_view sense) {
  if (const model::Sensed* own = history.last_sensed(sense)) return own;
  const auto found = std::find_if(history.earlier_sensed.rbegin(), history.earlier_sensed.rend(),
                                  [&](const model::Sensed& one) { return one.sense == sense; });
  return found == history.earlier_sensed.rend() ? nullptr : &*found;
}

}  // namespace

bool may_meet_leaves(const model::Movement& load, const Study& bed) {
  const bool roof =
      load.material.group == group::kWater && has_role(load.from_kind, &Roles::stores_water);
  if (!roof && load.material.group != group::kBrew) return false;
  const model::Batch& batch = bed.history().batch;
  return bed.stands() && is_eaten(batch) && batch.text(kWatering, "") != kWateringDrip;
}

bool wants_bioassay(const Study& bed) {
  return !bed.stands() && is_harmed(measure::folded(bed.history().batch.text(kCrop, "")));
}

bool may_carry_herbicide(const model::Movement& load) {
  if (!load.from.empty()) return false;
  return load.material.is(kFlagCarryover) || load.material.group == group::kCompost;
}

std::optional<model::Finding> judge_carryover(const Study& bed) {
  const model::History& history = bed.history();
  if (!is_harmed(measure::folded(history.batch.text(kCrop, "")))) return std::nullopt;
  const model::Sensed* tried = last_sensed_here(history, kSenseBioassay);
  const bool failed = tried != nullptr && tried->word == kBioassayFailed.word;
  const model::Movement* load = nullptr;
  for (const auto* loads : {&history.earlier_in, &history.in}) {
    for (const model::Movement& one : *loads) {
      if (!may_carry_herbicide(one)) continue;
      if (tried != nullptr && !failed && tried->at >= one.at) continue;
      if (days_between(one.day, history.today) > whole(bed.rules()(limits::carryover_told)))
        continue;
      load = &one;
    }
  }
  if (load == nullptr) return std::nullopt;
  // Once it is planted, only what the test told is worth a line.
  if (!failed && bed.stands()) return std::nullopt;
  model::Finding made =
      finding(kRuleCarryover, failed ? model::Urgency::kToday : model::Urgency::kSoon,
              limits::carryover_told, bed.rules());
  made.job = kJobSow;
  made.since = load->day;
  made.facts.set(kMaterial, load->material.name);
  made.facts.set(kFailed, failed);
  made.ends = {{.by = model::Ending::By::kDay,
                .day = load->day + date::days{whole(bed.rules()(limits::carryover_told)) + 1}}};
  return made;
}

const model::Movement* poison_on(const model::History& history) {
  const model::Movement* last = nullptr;
  for (const auto* loads : {&history.earlier_in, &history.in}) {
    for (const model::Movement& one : *loads) {
      if (one.material.is(kFlagForbidden)) last = &one;
    }
  }
  if (last == nullptr) return nullptr;
  const model::Sensed* clear = last_sensed_here(history, kSenseDanger);
  return clear != nullptr && clear->at >= last->at ? nullptr : last;
}

std::optional<model::Finding> judge_poison(const Study& bed) {
  const model::Movement* poison = poison_on(bed.history());
  if (poison == nullptr || !is_eaten(bed.history().batch)) return std::nullopt;
  model::Finding made = finding(kRuleBanned, model::Urgency::kToday, "common practice");
  made.job = kJobPoison;
  made.since = poison->day;
  made.hold = true;
  made.facts.set(kMaterial, poison->material.name);
  made.ends = {{.by = model::Ending::By::kJudgement, .name = std::string(kAllClear)}};
  return made;
}

}  // namespace kinds::bed
