#include "kinds/pile/study.h"

#include <algorithm>

#include "kinds/pile/care.h"
#include "kinds/pile/foresight.h"
#include "kinds/pile/measures.h"
#include "kinds/pile/mix.h"
#include "kinds/pile/record.h"
#include "kinds/pile/says.h"
#include "kinds/pile/score.h"
#include "kinds/pile/use.h"
#include "kinds/pile/vocabulary.h"
#include "kinds/thresholds.h"

namespace kinds::pile {
namespace {

template <class T, class Make>
const T& once(std::optional<T>& kept, Make make) {
  if (!kept) kept.emplace(make());
  return *kept;
}

}  // namespace

const Course& Study::course() const {
  return once(course_, [&] { return course_of(history_); });
}

const Inputs& Study::inputs() const {
  return once(inputs_, [&] { return inputs_of(history_); });
}

const StartRatio& Study::ratio() const {
  return once(ratio_, [&] { return start_ratio(history_, rules_, inputs()); });
}

const Standing& Study::at() const {
  return once(at_, [&] { return standing(history_, rules_, course()); });
}

Treatment Study::treatment(Standard standard) const {
  return treat(standard, {history_, rules_, course(), inputs(), at().stage == Stage::kReady});
}

const std::vector<Treatment>& Study::treatments() const {
  return once(treatments_, [&] {
    std::vector<Treatment> all;
    for (const Standard one : standards_of(history_.batch, nullptr)) all.push_back(treatment(one));
    return all;
  });
}

bool Study::shown() const {
  return std::all_of(treatments().begin(), treatments().end(),
                     [](const Treatment& one) { return one.outcome == Outcome::kShown; });
}

bool Study::days_shown() const {
  return std::all_of(treatments().begin(), treatments().end(), [](const Treatment& one) {
    return one.outcome == Outcome::kShown || one.tally.met;
  });
}

const std::optional<HeatView>& Study::heat() const {
  return once(heat_, [&]() -> std::optional<HeatView> {
    if (history_.batch.ended || method() == Method::kCold) return std::nullopt;
    return HeatView::of(history_, course(), rules_, history_.today);
  });
}

std::string Study::stage() const {
  return std::string(word(at().stage));
}

std::vector<model::Finding> Study::findings() const {
  std::vector<model::Finding> all;
  const auto judge = [&](auto... judges) {
    const auto add = [&](std::optional<model::Finding> found) {
      if (found) all.push_back(std::move(*found));
    };
    (add(judges(*this)), ...);
  };
  judge(judge_hot);
  const bool hot = !all.empty();
  // Turning, mixing or opening a pile that may smoulder gives it air: one order only, the safe one.
  if (!near_fire(*this)) {
    judge(judge_heating, judge_moisture, judge_smell);
    // Nothing that feeds the heat is advised while there is too much of it.
    if (!hot) judge(judge_mix);
    judge(judge_cold, judge_stopped, judge_edge, judge_turning, judge_ready);
  }
  judge_unready(*this, all);
  judge(judge_standards);
  return all;
}

std::vector<model::Finding> Study::by_calendar() const {
  if (auto turning = turning_to_come(*this)) return {std::move(*turning)};
  return {};
}

model::Words Study::words(const model::Finding& finding) const {
  return words_of(finding, *this);
}

std::string Study::well() const {
  return well_words(*this);
}

std::vector<model::Progress> Study::progress() const {
  std::vector<model::Progress> all;
  for (const Treatment& one : treatments()) {
    const double share = one.window ? static_cast<double>(one.window->days) / one.wanted.days : 0;
    model::Progress made{std::string(one.name), progress_words(one, *this), std::nullopt};
    if (one.outcome != Outcome::kCannot) made.share = std::min(1.0, share);
    // Who never asked for a standard is not told of it with every entry.
    made.at_leisure = history_.batch.setting(kStandard) == nullptr;
    made.briefly = brief_progress_words(one, *this);
    all.push_back(std::move(made));
  }
  if (at().stage == Stage::kCuring) all.push_back({"curing", curing_words(*this), std::nullopt});
  return all;
}

std::vector<model::Forecast> Study::forecasts() const {
  return foretell(*this);
}

std::vector<model::Measure> Study::figures() const {
  return figures_of(*this);
}

std::optional<model::Record> Study::record(RecordOf of) const {
  if (of != RecordOf::kTreatment) return std::nullopt;
  return record_of(*this);
}

std::vector<ForesightScore> Study::replay() const {
  return replay_of(*this);
}

std::vector<std::string> Study::at_use(const model::Movement& out) const {
  std::vector<std::string> said;
  if (!is_compost(out)) return said;
  if (const Lack lack = lack_of(*this); lack.any()) said.push_back(use_words(lack, *this));
  const Carryover carryover = carryover_of(history_);
  if (!carryover.of.empty()) said.push_back(herbicide_words(carryover.of, carryover.failed));
  return said;
}

std::optional<Objection> Study::against_adding(const model::Movement& load) const {
  if (!is_raw(load.material) || (load.treated && load.treated->done)) return std::nullopt;
  for (const Treatment& one : treatments()) {
    if (one.tally.counted == 0 || one.outcome == Outcome::kCannot) continue;
    const int kept = one.standard == Standard::kNop ? kept_by(load, one, course()) : 0;
    if (kept >= one.tally.counted) continue;
    return Objection{true, std::string(kRuleStandard), adding_words(one, kept, *this),
                     std::string(one.text)};
  }
  return std::nullopt;
}

bool goes_on_composting(const model::Movement& load) {
  return has_role(load.to_kind, &Roles::composts);
}

std::optional<model::TreatedDays> Study::treated(const model::Movement& load) const {
  if (!goes_on_composting(load)) return std::nullopt;
  const Treatment nop = treatment(Standard::kNop);
  if (nop.outcome == Outcome::kShown) return model::TreatedDays{.done = true};
  if (!nop.tally.open) return model::TreatedDays{};
  return model::TreatedDays{nop.tally.open->days, nop.tally.open->turnings};
}

std::optional<Objection> Study::against_taking(const model::Movement& load) const {
  if (!load.to.empty() || !is_compost(load)) return std::nullopt;
  const model::Material* raw = raw_in(*this);
  if (raw == nullptr) return std::nullopt;
  return Objection{false, std::string(kRuleRawLeaves), raw_leaves_words(*raw, *this),
                   "7 CFR 205.203(c)(1); 21 CFR 112.56"};
}

// What is closed is read no more, and a pile this hot goes on heating.
std::optional<Objection> Study::against_ending() const {
  const auto hot = judge_hot(*this);
  if (!hot) return std::nullopt;
  return Objection{true, std::string(kRuleHot), ending_hot_words(*hot, *this), hot->source};
}

std::optional<model::Load> Study::holds(const model::Movement& load) const {
  if (!goes_on_composting(load)) return std::nullopt;
  return share_of(inputs(), load);
}

// A heap that is made cold is not read, and one that cures seldom.
std::optional<model::Threshold<measure::Days>> Study::unread_after() const {
  const Stage stage = at().stage;
  if (stage == Stage::kResting || (method() == Method::kCold && !at().last_hot))
    return std::nullopt;
  return stage == Stage::kCuring || stage == Stage::kReady ? thresholds::pile::unread_curing
                                                           : thresholds::pile::unread_days;
}

std::vector<std::string_view> Study::circumstances(const Handled& handled) const {
  std::vector<std::string_view> found;
  if (handled.out != nullptr && raw_in(*this) != nullptr) {
    found.push_back(handled.out->to.empty() ? "raw_away" : "raw_here");
  }
  const auto damp_now = damp(history_, rules_);
  if (damp_now && damp_now->is == Damp::Is::kTooLow) found.push_back("dry");
  return found;
}

}  // namespace kinds::pile
