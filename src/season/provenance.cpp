#include "season/provenance.h"

#include <algorithm>
#include <limits>
#include <optional>

#include "model/material_groups.h"

namespace season {
namespace {

using model::ManureTrail;
using model::Movement;

// Wherever it came in: the nearest way stands for the others.
bool same_origin(const ManureTrail& a, const ManureTrail& b) {
  return a.material == b.material;
}

std::vector<ManureTrail> origin(const Movement& movement) {
  auto trail = raw_at_origin(movement.material);
  if (!trail) return {};
  if (!movement.from.empty()) trail->way.push_back(movement.from);
  return {*trail};
}

}  // namespace

std::optional<ManureTrail> raw_at_origin(const model::Material& material) {
  if (material.is("treated")) return std::nullopt;
  if (material.is("manure")) return ManureTrail{material.name, {}, "it is raw manure"};
  // Taken in against all warning, it is no less raw than manure (21 CFR 112.53 bars human waste).
  if (material.is("human-waste") || material.is("pet-waste")) {
    return ManureTrail{material.name, {}, "it carries germs and worms of people or pets"};
  }
  // 21 CFR 112.3: untreated, animal by-products, dead stock and table waste count as manure does.
  // What a maker rendered or digested (meals, hydrolysate) is among the minerals.
  if (material.is("animal") && material.group != model::group::kMineral) {
    return ManureTrail{material.name, {}, "it is untreated animal matter"};
  }
  if (material.is("unproven")) {
    return ManureTrail{material.name, {}, "no treatment of it is on record"};
  }
  return std::nullopt;
}

void Provenance::fill(Movement& load) const {
  load.manure = manure;
  load.holds = holds;
  load.treated = treated;
}

Provenances::When Provenances::when_of(const Movement& load) {
  return {load.at, load.id == 0 ? std::numeric_limits<std::int64_t>::max() : load.id};
}

Provenances::Node& Provenances::node(const std::string& label) {
  const auto [at, is_new] = nodes_.try_emplace(label);
  if (is_new) at->second.source = find_(label);
  return at->second;
}

const std::vector<Movement>& Provenances::loads_into(const std::string& label) {
  Node& of = node(label);
  if (!of.in) of.in = of.source->loads_in();
  return *of.in;
}

const model::History& Provenances::whole(const std::string& label) {
  Node& of = node(label);
  if (!of.whole) of.whole = of.source->history(of.source->now);
  return *of.whole;
}

// A load from outside, or of what a batch makes by itself, is told by its material alone.
bool Provenances::has_something_behind(const Movement& load) {
  const kinds::Kind* from = load.from.empty() ? nullptr : kinds::find_kind(load.from_kind);
  if (from == nullptr ||
      (!kinds::passes_on(*from) && from->carrying.knows(load) == kinds::Knows::kNothing))
    return false;
  return node(load.from).source.has_value();
}

void Provenances::fill(const std::string& label, When until, Contents& into) {
  const std::vector<Movement>& loads = loads_into(label);
  for (; into.loads < loads.size() && when_of(loads[into.loads]) < until; ++into.loads) {
    const Movement& load = loads[into.loads];
    const auto known = found_.find(load.id);
    if (known == found_.end()) continue;
    for (const ManureTrail& trail : known->second.manure) {
      auto same = std::find_if(into.raw.begin(), into.raw.end(), [&](const auto& ways) {
        return same_origin(ways.front().trail, trail);
      });
      if (same == into.raw.end()) same = into.raw.emplace(into.raw.end());
      // The later load is the harder to be rid of: what came earlier stands beside it only for a
      // shorter way.
      std::erase_if(*same,
                    [&](const RawIn& one) { return one.trail.way.size() >= trail.way.size(); });
      same->push_back({&load, trail});
    }
  }
}

Provenance Provenances::one(const Movement& load, Contents& from) {
  Provenance made;
  if (!has_something_behind(load)) {
    if (load.material.group != model::group::kGas) made.manure = origin(load);
    return made;
  }
  const SourceBatch& source = *node(load.from).source;
  fill(load.from, when_of(load), from);
  std::optional<model::History> history;
  const kinds::LookBack look = [&]() -> const model::History& {
    if (!history) {
      history = source.history(load.at);
      for (Movement& in : history->in) {
        const auto known = found_.find(in.id);
        if (known != found_.end()) known->second.fill(in);
      }
    }
    return *history;
  };
  const kinds::Knows knows = source.kind->carrying.knows(load);
  if (knows != kinds::Knows::kNothing) {
    const auto study =
        kinds::study(knows == kinds::Knows::kAllAlong ? whole(load.from) : look(), source.rules);
    made.holds = study->holds(load);
    made.treated = study->treated(load);
  }
  if (load.material.group == model::group::kGas) return made;
  if (!kinds::passes_on(*source.kind)) {
    made.manure = origin(load);
    return made;
  }
  const auto add = [&](ManureTrail trail) {
    trail.way.push_back(load.from);
    made.manure.push_back(std::move(trail));
  };
  if (auto own = source.kind->carrying.own_raw(look)) add(std::move(*own));
  if (made.manure.empty() && from.loads == 0) {
    made.manure = origin(load);
    return made;
  }
  for (const auto& ways : from.raw) {
    const bool told = std::any_of(
        made.manure.begin(), made.manure.end(),
        [&](const ManureTrail& other) { return same_origin(other, ways.front().trail); });
    if (told) continue;
    for (const RawIn& way : ways) {
      const auto because = source.kind->carrying.still_raw(*way.load, look, source.rules);
      if (!because) continue;
      add(way.trail);
      made.manure.back().because = *because;
      break;
    }
  }
  return made;
}

void Provenances::work_out(std::map<When, const Movement*> wanted) {
  std::map<std::string, std::size_t> seen;  // of the loads into a batch, those looked at
  std::vector<const Movement*> open;
  for (const auto& [when, load] : wanted) open.push_back(load);
  while (!open.empty()) {
    const Movement& load = *open.back();
    open.pop_back();
    if (!has_something_behind(load)) continue;
    const std::vector<Movement>& in = loads_into(load.from);
    std::size_t& next = seen[load.from];
    for (; next < in.size() && when_of(in[next]) < when_of(load); ++next) {
      if (found_.count(in[next].id) > 0) continue;
      if (wanted.emplace(when_of(in[next]), &in[next]).second) open.push_back(&in[next]);
    }
  }
  std::map<std::string, Contents> contents;
  for (const auto& [when, load] : wanted) {
    Provenance made = one(*load, contents[load->from]);
    if (load->id == 0) {
      unrecorded_ = std::move(made);
    } else {
      found_.emplace(load->id, std::move(made));
    }
  }
}

void Provenances::bring(std::vector<Movement>& loads) {
  std::map<When, const Movement*> wanted;
  for (const Movement& load : loads) {
    if (found_.count(load.id) == 0) wanted.emplace(when_of(load), &load);
  }
  if (!wanted.empty()) work_out(std::move(wanted));
  for (Movement& load : loads) (load.id == 0 ? unrecorded_ : found_.at(load.id)).fill(load);
}

void Provenances::bring(Movement& load) {
  std::vector<Movement> one{load};
  bring(one);
  load = std::move(one.front());
}

}  // namespace season
