#include "cli/desk/ahead.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "cli/desk/morning.h"
#include "measure/text.h"
#include "measure/when.h"

namespace cli {
namespace {

using measure::Day;
using measure::Mistake;

// What lies further off rests on nothing that was read.
constexpr int kFurthest = 92;
constexpr int kUsual = 7;
constexpr std::string_view kTo = "..";

Mistake too_far(const std::string& typed) {
  return Mistake{typed, fmt::format("{} is more than {} days off; ahead looks no further",
                                    measure::quoted(typed), kFurthest)};
}

// Its latest batches say how well a kind's forecasts come true; each is replayed day by day.
constexpr std::size_t kMostReplayed = 3;

std::vector<kinds::ForesightScore> scores_of(const std::string& kind, const Desk& desk) {
  std::vector<model::Batch> of_kind;
  for (const model::Batch& one : desk.batches()) {
    if (one.kind == kind && one.started <= desk.now()) of_kind.push_back(one);
  }
  std::stable_sort(of_kind.begin(), of_kind.end(),
                   [](const auto& a, const auto& b) { return a.started > b.started; });
  // Those that came to their end tell more than those under way.
  std::stable_partition(of_kind.begin(), of_kind.end(), [&](const model::Batch& one) {
    return one.ended && *one.ended <= desk.now();
  });
  if (of_kind.size() > kMostReplayed) of_kind.resize(kMostReplayed);
  std::vector<kinds::ForesightScore> all;
  for (const model::Batch& one : of_kind) {
    const auto scores = desk.study(one)->replay();
    all.insert(all.end(), scores.begin(), scores.end());
  }
  return all;
}

void judge_forecasts(const Desk& desk, season::Ahead& ahead) {
  std::set<std::string> kinds;
  for (const season::Foretold& one : ahead.foretold) {
    if (!one.forecast.scored.empty()) kinds.insert(one.kind);
  }
  for (const std::string& kind : kinds) season::keep_earned(kind, scores_of(kind, desk), ahead);
}

bool is_lettered(std::string_view text) {
  return !text.empty() && std::all_of(text.begin(), text.end(), [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
  });
}

// As people write a span: "until sat", "sat to sun", "sat - sun", "sat-sun", "this weekend", "7".
std::string span_typed(const std::vector<std::string>& words, Day today) {
  std::vector<std::string> kept;
  for (const std::string& part : measure::split(measure::joined(words, " "), ' ')) {
    if (part.empty()) continue;
    const std::string word = measure::folded(part);
    const bool leads_in = word == "until" || word == "till" || word == "to" || word == "this";
    if (leads_in && kept.empty()) continue;
    kept.push_back(word == "to" || word == "-" || word == "until" ? std::string(kTo) : part);
  }
  std::string typed;
  for (const std::string& word : kept) {
    const bool joins = typed.empty() || word == kTo || typed.ends_with(kTo);
    typed += (joins ? "" : " ") + word;
  }
  if (measure::folded(typed) == "weekend") {
    return date::weekday{today} == date::Saturday ? "sun..sun" : "sat..sun";
  }
  const bool is_number =
      !typed.empty() && typed.find_first_not_of("0123456789") == std::string::npos;
  if (is_number) return typed + "d";
  const std::size_t dash = typed.find('-');
  if (dash != std::string::npos && is_lettered(typed.substr(0, dash)) &&
      is_lettered(typed.substr(dash + 1))) {
    return typed.substr(0, dash) + std::string(kTo) + typed.substr(dash + 1);
  }
  return typed;
}

}  // namespace

std::string foretold_words(const season::Foretold& one, Day today) {
  return fmt::format("{}: {}{}", one.forecast.line, season::doubt_words(one.forecast, today),
                     one.untried ? "; untried here" : "");
}

measure::Result<season::DaysAhead> days_asked(const std::vector<std::string>& words, Day today) {
  const Day tomorrow = today + date::days{1};
  if (words.empty()) return season::DaysAhead{tomorrow, today + date::days{kUsual}};
  const std::string typed = span_typed(words, today);
  const std::size_t split = typed.find(kTo);
  if (split == 0 || (split != std::string::npos && split + kTo.size() == typed.size())) {
    return Mistake{typed, "a span has two days, like sat..sun or 2027-05-08..2027-05-09"};
  }
  const std::string first = typed.substr(0, split);
  const auto from = measure::parse_coming_day(first, today);
  if (!from) {
    return Mistake{first, from.mistake().why + "; a span is like 7d, sat or sat..sun"};
  }
  if (*from > today + date::days{kFurthest}) return too_far(first);
  if (split == std::string::npos) return season::DaysAhead{tomorrow, *from};
  const std::string second = typed.substr(split + kTo.size());
  if (measure::folded(second) == measure::folded(first)) return season::DaysAhead{*from, *from};
  const auto to = measure::parse_coming_day(second, *from);
  if (!to) {
    if (second == first || measure::parse_iso_date(second) == *from)
      return season::DaysAhead{*from, *from};
    return Mistake{second, fmt::format("{} does not come after {}", measure::quoted(second),
                                       measure::day_words(*from, today))};
  }
  if (*to > today + date::days{kFurthest}) return too_far(second);
  return season::DaysAhead{*from, *to};
}

season::Ahead look_ahead(const Desk& desk, const season::DaysAhead& days) {
  season::Ahead ahead;
  ahead.days = days;
  std::vector<season::LookedAt> batches;
  for (const model::Batch& batch : desk.open_batches()) {
    const Studied study = desk.study(batch);
    season::LookedAt one{batch.code, study->told(), {}, {}, true};
    season::look_ahead(*study, one.now, ahead);
    batches.push_back(std::move(one));
  }
  ahead.morning = season::morning_of(batches, put_off_now(desk), desk.today());
  judge_forecasts(desk, ahead);
  season::sort_by_day(ahead);
  return ahead;
}

}  // namespace cli
