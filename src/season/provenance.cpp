#include "season/provenance.h"

#include <algorithm>
#include <optional>

#include "model/material_groups.h"

namespace season {
namespace {

using model::ManureTrail;
using model::Movement;

// Raw manure in a batch: the latest load of each trail.
struct RawIn {
  const Movement* load;
  ManureTrail trail;
};

struct Contents {
  bool any = false;  // anything was ever put in
  std::vector<RawIn> raw;
};

bool has_passed(const ManureTrail& trail, const std::string& batch) {
  return std::find(trail.way.begin(), trail.way.end(), batch) != trail.way.end();
}

void note_arrival(const Movement& movement, const std::vector<ManureTrail>& trails,
                  Contents& into) {
  into.any = true;
  for (const ManureTrail& trail : trails) {
    const auto same = std::find_if(into.raw.begin(), into.raw.end(), [&](const RawIn& one) {
      return one.trail.material == trail.material && one.trail.way == trail.way;
    });
    if (same == into.raw.end()) {
      into.raw.push_back({&movement, trail});
    } else {
      *same = {&movement, trail};
    }
  }
}

std::vector<ManureTrail> origin(const Movement& movement) {
  auto trail = raw_at_origin(movement.material);
  if (!trail) return {};
  if (!movement.from.empty()) trail->way.push_back(movement.from);
  return {*trail};
}

std::vector<ManureTrail> trails_of(const Movement& movement, const SourceBatch* source,
                                   const Contents& held, const kinds::LookBack& look) {
  if (movement.material.group == "gas") return {};
  if (source == nullptr || !kinds::passes_on(*source->kind)) return origin(movement);
  std::vector<ManureTrail> trails;
  if (auto own = source->kind->carrying.own_raw(look)) {
    own->way.push_back(movement.from);
    trails.push_back(std::move(*own));
  }
  if (trails.empty() && !held.any) return origin(movement);
  for (const RawIn& one : held.raw) {
    if (has_passed(one.trail, movement.from)) continue;
    const auto because = source->kind->carrying.still_raw(*one.load, look, source->rules);
    if (!because) continue;
    ManureTrail trail = one.trail;
    trail.way.push_back(movement.from);
    trail.because = *because;
    trails.push_back(std::move(trail));
  }
  return trails;
}

}  // namespace

std::optional<ManureTrail> raw_at_origin(const model::Material& material) {
  if (material.is("treated")) return std::nullopt;
  if (material.is("manure")) return ManureTrail{material.name, {}, "it is raw manure"};
  // 21 CFR 112.3: untreated, animal by-products, dead stock and table waste count as manure does.
  // Meals and the like have been through their maker's heat.
  if (material.is("animal") && material.group != model::group::kMineral) {
    return ManureTrail{material.name, {}, "it is untreated animal matter"};
  }
  if (material.is("unproven")) {
    return ManureTrail{material.name, {}, "no treatment of it is on record"};
  }
  return std::nullopt;
}

std::map<std::int64_t, Provenance> provenance(const std::vector<Movement>& movements,
                                              const std::map<std::string, SourceBatch>& batches) {
  std::map<std::int64_t, Provenance> found;
  std::map<std::string, Contents> contents;
  for (const Movement& movement : movements) {
    const auto at = batches.find(movement.from);
    const SourceBatch* source = at == batches.end() ? nullptr : &at->second;
    std::optional<model::History> history;
    const kinds::LookBack look = [&] {
      if (!history) {
        history = source->history(movement.at);
        // What the walk has found of its loads so far.
        for (Movement& in : history->in) {
          if (const auto known = found.find(in.id); known != found.end()) {
            in.manure = known->second.manure;
            in.holds = known->second.holds;
          }
        }
      }
      return *history;
    };
    Provenance one;
    one.manure = trails_of(movement, source, contents[movement.from], look);
    if (source != nullptr && source->kind->roles.knows_its_loads) {
      const model::History then = look();
      one.holds = kinds::study(then, source->rules)->holds(movement);
    }
    if (!movement.to.empty()) note_arrival(movement, one.manure, contents[movement.to]);
    if (!one.manure.empty() || one.holds) found.emplace(movement.id, std::move(one));
  }
  return found;
}

}  // namespace season
