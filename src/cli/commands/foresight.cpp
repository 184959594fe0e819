#include "cli/commands/foresight.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <ostream>

#include "render/json.h"
#include "render/text.h"

namespace cli {
namespace {

constexpr std::string_view kLegend =
    "Within: the share of intervals that held; four in five (80 %) should. Naive: it stays as it "
    "is, or takes as long as usual. Where naive did better, that is said instead, or nothing.";

// One forecast over all batches of its kind: the sums, and the shares of each batch.
struct Summed {
  kinds::ForesightScore score;
  int batches = 0;                           // with a forecast that could be judged
  double least_within = 1, most_within = 0;  // of a batch
};

struct KindScore {
  std::string kind;
  int batches = 0;
  std::vector<Summed> scores;
};

void add(KindScore& sum, const std::vector<kinds::ForesightScore>& scores) {
  ++sum.batches;
  for (const kinds::ForesightScore& one : scores) {
    auto into = std::find_if(sum.scores.begin(), sum.scores.end(), [&](const Summed& known) {
      return known.score.what == one.what && known.score.days_ahead == one.days_ahead;
    });
    if (into == sum.scores.end()) {
      sum.scores.push_back({{.what = one.what, .error = one.error, .days_ahead = one.days_ahead}});
      into = std::prev(sum.scores.end());
    }
    kinds::ForesightScore& total = into->score;
    total.disturbed += one.disturbed;
    if (one.count == 0) continue;
    total.count += one.count;
    total.error_total += one.error_total;
    total.naive_total += one.naive_total;
    total.squared_total += one.squared_total;
    total.naive_squared_total += one.naive_squared_total;
    total.ranged += one.ranged;
    total.within += one.within;
    total.below += one.below;
    ++into->batches;
    if (one.ranged == 0) continue;
    const double within = static_cast<double>(one.within) / one.ranged;
    into->least_within = std::min(into->least_within, within);
    into->most_within = std::max(into->most_within, within);
  }
}

std::vector<KindScore> score(const Desk& desk, const std::string& only) {
  std::vector<KindScore> sums;
  const std::vector<model::Batch>& batches = desk.batches();
  for (const kinds::Kind* kind : kinds::all_kinds()) {
    if (!only.empty() && only != kind->name) continue;
    KindScore sum{std::string(kind->name), 0, {}};
    for (const model::Batch& batch : batches) {
      if (batch.kind != kind->name || batch.started > desk.now()) continue;
      const auto scores = desk.study(batch)->replay();
      if (!scores.empty()) add(sum, scores);
    }
    if (sum.scores.empty() && only.empty()) continue;  // it foresees nothing that is judged
    sums.push_back(std::move(sum));
  }
  return sums;
}

std::string unit_of(measure::Dimension error) {
  if (error == measure::Dimension::kTemperatureDifference) return "K";
  return error == measure::Dimension::kDuration ? "days" : "L";
}

render::Json json_of(const KindScore& sum) {
  render::Json json{
      {"kind", sum.kind}, {"batches", sum.batches}, {"horizons", render::Json::array()}};
  for (const Summed& summed : sum.scores) {
    const kinds::ForesightScore& one = summed.score;
    if (one.count == 0 && one.disturbed == 0) continue;
    render::Json row{{"what", one.what},
                     {"days_ahead", one.days_ahead > 0 ? render::Json(one.days_ahead) : nullptr},
                     {"batches", summed.batches},
                     {"forecasts", one.count},
                     {"disturbed", one.disturbed}};
    if (one.count > 0) {
      const double n = one.count;
      const std::string unit = unit_of(one.error);
      row.update({{"mean_error_" + unit, one.error_total / n},
                  {"naive_mean_error_" + unit, one.naive_total / n},
                  {"root_mean_square_" + unit, std::sqrt(one.squared_total / n)},
                  {"naive_root_mean_square_" + unit, std::sqrt(one.naive_squared_total / n)}});
    }
    if (one.ranged > 0) {
      const double ranged = one.ranged;
      row.update({{"interval", 0.8},
                  {"within", one.within / ranged},
                  {"below", one.below / ranged},
                  {"least_within_of_a_batch", summed.least_within},
                  {"most_within_of_a_batch", summed.most_within}});
    }
    json["horizons"].push_back(std::move(row));
  }
  return json;
}

std::string error_words(double error, measure::Dimension dimension, const measure::Printer& print) {
  if (dimension == measure::Dimension::kTemperatureDifference)
    return print.difference(measure::Kelvins{error});
  if (dimension == measure::Dimension::kDuration) return fmt::format("{:.1f} days", error);
  return print(measure::Value{dimension, error});
}

void print(Context& context, const Desk& desk, const KindScore& sum) {
  context.out << fmt::format("{}: {} batch{} replayed as of each day that was read\n", sum.kind,
                             sum.batches, sum.batches == 1 ? "" : "es");
  render::Table table({{"foreseen", false},
                       {"days ahead", true},
                       {"batches", true},
                       {"forecasts", true},
                       {"mean error", true},
                       {"naive", true},
                       {"within", true}});
  int disturbed = 0;
  for (const Summed& summed : sum.scores) {
    const kinds::ForesightScore& one = summed.score;
    disturbed += one.disturbed;
    if (one.count == 0) continue;
    const double n = one.count;
    table.add({std::string(one.what), one.days_ahead > 0 ? std::to_string(one.days_ahead) : "",
               std::to_string(summed.batches), std::to_string(one.count),
               error_words(one.error_total / n, one.error, desk.print()),
               error_words(one.naive_total / n, one.error, desk.print()),
               one.ranged > 0 ? fmt::format("{:.0f} %", 100.0 * one.within / one.ranged) : "-"});
  }
  if (table.empty()) {
    context.out << "  nothing to score: it takes readings some days apart\n";
    return;
  }
  context.out << table.text(static_cast<std::size_t>(context.width), 2);
  if (disturbed == 0) return;
  context.out << render::wrapped(
                     fmt::format(
                         "  {} more {} not counted: it was turned, fed or filled meanwhile, "
                         "or it rained, and that was neither known nor due.",
                         disturbed, disturbed == 1 ? "is" : "are"),
                     static_cast<std::size_t>(context.width), 2)
              << '\n';
}

}  // namespace

Outcome list_foresight(Context& context, const Desk& desk, const std::string& only) {
  const std::vector<KindScore> sums = score(desk, only);
  if (sums.empty() && !only.empty()) {
    return measure::Mistake{only, fmt::format("a {} foresees nothing to score", only)};
  }
  if (context.json) {
    render::Json rows = render::Json::array();
    for (const KindScore& sum : sums) rows.push_back(json_of(sum));
    context.out << render::dumped(
        {{"as_of", desk.site().zone.iso(desk.now())}, {"foresight", rows}});
  } else {
    for (const KindScore& sum : sums) print(context, desk, sum);
    context.out << render::wrapped(std::string(kLegend), static_cast<std::size_t>(context.width), 0)
                << '\n';
  }
  return kDone;
}

}  // namespace cli
