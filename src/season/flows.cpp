#include "season/flows.h"

#include <map>
#include <tuple>

namespace season {

void Sum::add(const model::Movement& movement) {
  ++movements;
  paid_cents += movement.paid_cents.value_or(0);
  sold_cents += movement.sold_cents.value_or(0);
  if (movement.amount.dimension == measure::Dimension::kCount) {
    count += movement.amount.si;
  } else if (movement.amount.dimension == measure::Dimension::kEnergy) {
    energy += measure::KilowattHours{movement.amount.si};
  } else if (const auto weight = movement.mass()) {
    mass += *weight;
    if (!movement.weighed()) {
      estimated = true;
      by_density += *weight;
    }
  } else {
    unweighed_volume += measure::Litres{movement.amount.si};
  }
}

std::vector<Flow> flows(const std::vector<model::Movement>& movements) {
  using Key = std::tuple<std::string, Side, std::string, std::string, std::string>;
  std::map<Key, Flow> rows;
  const auto add = [&](const std::string& batch, const std::string& kind, Side side,
                       const std::string& other, const model::Movement& movement) {
    if (batch.empty()) return;
    const Key key{batch, side, movement.material.name, other, movement.purpose};
    const auto [at, fresh] = rows.try_emplace(
        key, Flow{batch, kind, side, movement.material.name, other, movement.purpose, {}});
    at->second.sum.add(movement);
  };
  for (const model::Movement& movement : movements) {
    add(movement.to, movement.to_kind, Side::kIn, movement.from, movement);
    add(movement.from, movement.from_kind, Side::kOut, movement.to, movement);
  }
  std::vector<Flow> sorted;
  for (auto& [key, flow] : rows) sorted.push_back(std::move(flow));
  return sorted;
}

std::vector<Crossing> crossings(const std::vector<model::Movement>& movements) {
  std::map<std::pair<Side, std::string>, Crossing> rows;
  for (const model::Movement& movement : movements) {
    if (!movement.from.empty() && !movement.to.empty()) continue;
    const Side side = movement.from.empty() ? Side::kIn : Side::kOut;
    const auto [at, fresh] =
        rows.try_emplace({side, movement.material.name},
                         Crossing{side, movement.material.name, movement.material.group, {}});
    at->second.sum.add(movement);
  }
  std::vector<Crossing> sorted;
  for (auto& [key, row] : rows) sorted.push_back(std::move(row));
  return sorted;
}

}  // namespace season
