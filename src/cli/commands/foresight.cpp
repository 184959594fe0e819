#include "cli/commands/foresight.h"

#include <fmt/format.h>

#include <cmath>
#include <ostream>

#include "render/json.h"
#include "render/text.h"

namespace cli {
namespace {

struct KindScore {
  std::string kind;
  int batches = 0;
  std::vector<kinds::ForesightScore> scores;
};

void add(KindScore& sum, const std::vector<kinds::ForesightScore>& scores) {
  ++sum.batches;
  if (sum.scores.empty()) {
    sum.scores = scores;
    return;
  }
  for (std::size_t i = 0; i < sum.scores.size() && i < scores.size(); ++i) {
    kinds::ForesightScore& into = sum.scores[i];
    into.count += scores[i].count;
    into.error_total += scores[i].error_total;
    into.naive_total += scores[i].naive_total;
    into.squared_total += scores[i].squared_total;
    into.naive_squared_total += scores[i].naive_squared_total;
    into.within += scores[i].within;
  }
}

std::vector<KindScore> score(const Desk& desk, const std::string& only) {
  std::vector<KindScore> sums;
  const std::vector<model::Batch>& batches = desk.batches();
  for (const kinds::Kind* kind : kinds::all_kinds()) {
    if (!only.empty() && only != kind->name) continue;
    KindScore sum{std::string(kind->name), 0, {}};
    for (const model::Batch& batch : batches) {
      if (batch.kind != kind->name || !batch.ended || *batch.ended > desk.now()) continue;
      const auto scores = desk.study(batch)->replay();
      if (!scores.empty()) add(sum, scores);
    }
    sums.push_back(std::move(sum));
  }
  return sums;
}

render::Json json_of(const KindScore& sum) {
  render::Json json{
      {"kind", sum.kind}, {"batches", sum.batches}, {"horizons", render::Json::array()}};
  for (const auto& one : sum.scores) {
    if (one.count == 0) continue;
    const double n = one.count;
    json["horizons"].push_back(
        {{"days_ahead", one.days_ahead},
         {"forecasts", one.count},
         {"mean_error_K", one.error_total / n},
         {"naive_mean_error_K", one.naive_total / n},
         {"root_mean_square_K", std::sqrt(one.squared_total / n)},
         {"naive_root_mean_square_K", std::sqrt(one.naive_squared_total / n)},
         {"interval", 0.8},
         {"within", one.within / n}});
  }
  return json;
}

void print(Context& context, const Desk& desk, const KindScore& sum) {
  context.out << fmt::format("{}: {} ended batch{} replayed as of each day that was read\n",
                             sum.kind, sum.batches, sum.batches == 1 ? "" : "es");
  render::Table table({{"days ahead", true},
                       {"forecasts", true},
                       {"mean error", true},
                       {"if it stayed as it was", true},
                       {"within the interval", true}});
  for (const auto& one : sum.scores) {
    if (one.count == 0) continue;
    const double n = one.count;
    table.add({std::to_string(one.days_ahead), std::to_string(one.count),
               desk.print().difference(measure::Kelvins{one.error_total / n}),
               desk.print().difference(measure::Kelvins{one.naive_total / n}),
               fmt::format("{:.0f} %", 100 * one.within / n)});
  }
  if (table.empty()) {
    context.out << "  nothing to score: it takes ended batches with readings some days apart\n";
    return;
  }
  context.out << table.text(static_cast<std::size_t>(context.width), 2)
              << "  The interval should hold four readings in five (80 %).\n";
}

}  // namespace

Outcome list_foresight(Context& context, const Desk& desk, const std::string& only) {
  const std::vector<KindScore> sums = score(desk, only);
  if (sums.empty()) {
    return measure::Mistake{only, fmt::format("a {} foresees no temperature to score", only)};
  }
  if (context.json) {
    render::Json rows = render::Json::array();
    for (const KindScore& sum : sums) rows.push_back(json_of(sum));
    context.out << render::dumped(
        {{"as_of", desk.site().zone.iso(desk.now())}, {"foresight", rows}});
  } else {
    for (const KindScore& sum : sums) print(context, desk, sum);
  }
  return kDone;
}

}  // namespace cli
