#include "kinds/brew/taking.h"

#include "kinds/brew/care.h"
#include "kinds/brew/facts.h"
#include "kinds/brew/says.h"
#include "kinds/brew/study.h"
#include "kinds/brew/vocabulary.h"
#include "kinds/thresholds.h"
#include "model/material_groups.h"
#include "model/purpose.h"

namespace kinds::brew {
namespace {

namespace limits = thresholds::brew;

constexpr std::string_view kCustom = "common practice";
constexpr std::string_view kLaw = "7 CFR 205.203(c)(1)";
constexpr std::string_view kSugarSource = "NOSB Compost Tea Task Force report (2004)";

std::optional<BadIn> bad_of(const model::Material& material, const model::Batch& batch) {
  if (material.is(kFlagForbidden) || material.is(kFlagSynthetic)) return BadIn::kForbidden;
  const bool animal = is_raw_animal(material);
  if (is_for_leaf(batch) && (animal || is_raw_manure(material))) return BadIn::kRawForLeaves;
  if (animal) return BadIn::kRawAnimal;
  if (is_raw_manure(material)) return BadIn::kRaw;
  if (feeds_germs(material, batch)) return BadIn::kFeedsGerms;
  if (material.is(kFlagOil) || (material.is(kFlagAnimal) && !material.is(kFlagFish)))
    return BadIn::kRancid;
  if (material.is(kFlagSalty)) return BadIn::kSalty;
  if (material.is(kFlagDiseased)) return BadIn::kDiseased;
  return std::nullopt;
}

std::optional<NotFit> unfit_of(const Study& study) {
  if (time_without_air(study.history(), study.rules())) return NotFit::kNoAir;
  if (!study.clock().full()) return NotFit::kEarly;
  if (feeds_germs(study.history())) return NotFit::kSugarInIt;
  if (is_foul(study.history(), study.rules())) return NotFit::kFoul;
  if (study.waits_until()) return NotFit::kStillBubbling;
  return std::nullopt;
}

// The rule that it is said by, and its source.
struct Ground {
  std::string_view rule;
  std::string source;
};

Ground ground_of(BadIn bad) {
  switch (bad) {
    case BadIn::kForbidden:
      return {kRuleBanned, "common practice; 7 CFR 205.105 for synthetics in organic growing"};
    case BadIn::kRawForLeaves:
      return {kRuleBanned, std::string(kLaw)};
    case BadIn::kRaw:
      return {kRuleManure, std::string(kLaw)};
    case BadIn::kRawAnimal:
      return {kRuleManure, "21 CFR 112.3, 112.56"};
    case BadIn::kFeedsGerms:
      return {kRuleBanned, std::string(kSugarSource)};
    case BadIn::kRancid:
    case BadIn::kSalty:
    case BadIn::kDiseased:
      return {kRuleBanned, std::string(kCustom)};
  }
  return {};
}

Ground ground_of(NotFit unfit, const Study& study) {
  const auto source = [&](const model::ThresholdInfo& info) {
    return study.rules().in_force(info).source;
  };
  switch (unfit) {
    case NotFit::kNoAir:
      return {kRuleOpen, source(*limits::open_aerated.info)};
    case NotFit::kEarly:
      return {kRuleEarly, source(*study.clock().rule)};
    case NotFit::kSugarInIt:
      return {kRuleBanned, std::string(kSugarSource)};
    case NotFit::kFoul:
      return {kRuleSmell, std::string(kCustom)};
    case NotFit::kStillBubbling:
      return {kRuleEarly, source(*limits::ready_longest.info)};
  }
  return {};
}

}  // namespace

std::optional<Objection> objects_to(const model::Material& material, const model::Batch& batch,
                                    const model::Rules& /*rules*/) {
  const auto bad = bad_of(material, batch);
  if (!bad) return std::nullopt;
  const auto [rule, source] = ground_of(*bad);
  const bool refuses = *bad == BadIn::kForbidden || *bad == BadIn::kRawForLeaves;
  return Objection{refuses, std::string(rule), adding_words(*bad, material), source};
}

bool is_to_crops(const model::Movement& load) {
  return load.material.group == model::group::kBrew &&
         (load.to_kind.empty() || has_role(load.to_kind, &Roles::ground));
}

std::optional<Objection> objects_to_taking(const model::Movement& load, const Study& study) {
  if (!is_to_crops(load)) return std::nullopt;
  const auto unfit = unfit_of(study);
  const bool on_leaves = model::purpose_of(load.purpose) == model::Purpose::kLeaves;
  if (on_leaves && (unfit || study.contents().raw))
    return Objection{true, std::string(kRuleLeaves), on_leaves_words(study),
                     study.contents().raw ? "7 CFR 205.203(c)(1); 21 CFR 112.56" : "21 CFR 112.51"};
  if (!unfit) return std::nullopt;
  const auto [rule, source] = ground_of(*unfit, study);
  return Objection{false, std::string(rule), taking_words(*unfit, study), source};
}

}  // namespace kinds::brew
