#include "season/trace.h"

#include <algorithm>
#include <utility>

#include "kinds/kind.h"

namespace season {
namespace {

using measure::Kilograms;
using model::Movement;

bool passes_on(const std::string& kind) {
  const kinds::Kind* found = kinds::find_kind(kind);
  return found != nullptr && kinds::passes_on(*found);
}

std::optional<double> weight(const Movement& load) {
  const auto mass = load.mass();
  return mass ? std::optional(mass->value) : std::nullopt;
}

// A sum is known only where all of it is.
void add_known(std::optional<Kilograms>& sum, const std::optional<double>& more) {
  if (!sum) return;
  if (more) {
    *sum += Kilograms{*more};
  } else {
    sum.reset();
  }
}

// The largest first, what is not known last.
bool more_of(const std::optional<Kilograms>& a, const std::optional<Kilograms>& b) {
  return a.has_value() != b.has_value() ? a.has_value() : a && *a > *b;
}

class Tracer {
 public:
  Tracer(const std::string& batch, Direction direction, const std::vector<Movement>& movements,
         const std::vector<Ground>& grounds)
      : up_(direction == Direction::kUp), movements_(movements) {
    for (const Ground& ground : grounds) {
      for (std::size_t i = 0; i < ground.size(); ++i) {
        auto& beyond = same_ground_[ground[i]];
        // Behind a crop lie the loads of those before it; on from it, those after it.
        beyond = up_ ? Ground(ground.begin(), ground.begin() + static_cast<std::ptrdiff_t>(i))
                     : Ground(ground.begin() + static_cast<std::ptrdiff_t>(i) + 1, ground.end());
      }
    }
    asked_.push_back(batch);
    const auto found = same_ground_.find(batch);
    if (found != same_ground_.end()) {
      asked_.insert(asked_.end(), found->second.begin(), found->second.end());
    }
    if (up_) std::reverse(asked_.begin() + 1, asked_.end());
  }

  Trace run() {
    up_ ? walk_up() : walk_down();
    Trace trace{asked_.front(), up_ ? Direction::kUp : Direction::kDown, {}, {}};
    for (const std::string& label : asked_) {
      TraceBatch one = std::move(batches_[label]);
      batches_.erase(label);
      one.label = label;
      one.same_ground = label != asked_.front();
      if (one.steps.empty() && one.same_ground) continue;
      one.part.reset();
      trace.batches.push_back(std::move(one));
    }
    std::vector<TraceBatch> others;
    for (auto& [label, one] : batches_) {
      if (one.steps.empty()) continue;
      one.label = label;
      others.push_back(std::move(one));
    }
    std::stable_sort(others.begin(), others.end(),
                     [](const auto& a, const auto& b) { return more_of(a.part, b.part); });
    std::move(others.begin(), others.end(), std::back_inserter(trace.batches));
    for (TraceBatch& one : trace.batches) sort_steps(one.steps);
    for (const auto& [key, part] : ends_) {
      trace.ends.push_back({key.first, key.second, Kilograms{part}});
    }
    std::stable_sort(trace.ends.begin(), trace.ends.end(),
                     [](const auto& a, const auto& b) { return a.part > b.part; });
    return trace;
  }

 private:
  using Part = std::optional<double>;  // kg

  // What of a batch's contents belongs to the batch asked for, as the walk has found so far.
  struct State {
    bool reached = false;
    bool unknown = false;
    double sum = 0;   // up: of a kilogram that went in, so much; down: kg that came in
    double held = 0;  // down: kg that went in
  };

  bool is_asked(const std::string& label) const {
    return std::find(asked_.begin(), asked_.end(), label) != asked_.end();
  }

  void end_here(const Movement& load, const Part& part, const std::string& at) {
    if (part) ends_[{load.material.name, at}] += *part;
  }

  // A batch whose own part of it nobody can tell, and the other crops of its ground.
  void reach(const std::string& label) {
    State& state = states_[label];
    if (state.reached && state.unknown) return;
    state.reached = state.unknown = true;
    const auto ground = same_ground_.find(label);
    if (ground == same_ground_.end()) return;
    for (const std::string& other : ground->second) {
      states_[other].reached = states_[other].unknown = true;
    }
  }

  // Up, from the latest load to the first: when one is met, all that later left the batch it went
  // into is known.
  void walk_up() {
    std::map<std::string, double> held;
    std::vector<double> held_before;
    for (const Movement& load : movements_) {
      held_before.push_back(held[load.from]);
      if (!load.to.empty()) held[load.to] += weight(load).value_or(0);
    }
    for (std::size_t i = movements_.size(); i-- > 0;) {
      const Movement& load = movements_[i];
      if (load.to.empty()) continue;
      Part part = weight(load);
      if (!is_asked(load.to)) {
        const State& state = states_[load.to];
        if (!state.reached) continue;
        part = state.unknown || !part ? std::nullopt : std::optional(*part * state.sum);
      }
      note(load, part, load.to, load.to_kind, load.from);
      if (load.from.empty() || is_asked(load.from)) {
        end_here(load, part, load.from);
        continue;
      }
      if (!passes_on(load.from_kind)) {
        end_here(load, part, load.from);
        reach(load.from);
        continue;
      }
      State& source = states_[load.from];
      source.reached = true;
      if (held_before[i] <= 0) {
        end_here(load, part, load.from);
      } else if (part) {
        source.sum += *part / held_before[i];
      } else {
        source.unknown = true;
      }
    }
  }

  // Down, from the first load to the latest.
  void walk_down() {
    for (const Movement& load : movements_) {
      const auto mass = weight(load);
      const bool first = is_asked(load.from);
      const State from = load.from.empty() ? State{} : states_[load.from];
      // What a later crop gives is none of what the ground was given, whoever stood there before.
      Part part = load.from == asked_.front() ? mass : std::nullopt;
      if (!first && from.reached && !from.unknown && mass && from.held > 0) {
        part = *mass * from.sum / from.held;
      }
      const bool on_the_way = first || from.reached;
      if (!load.to.empty() && !is_asked(load.to)) {
        State& into = states_[load.to];
        into.held += mass.value_or(0);
        if (on_the_way) {
          if (passes_on(load.to_kind)) {
            into.reached = true;
            if (part) into.sum += *part;
            into.unknown = into.unknown || !part;
          } else {
            reach(load.to);
          }
        }
      }
      if (!on_the_way) continue;
      note(load, part, load.from, load.from_kind, load.to);
      if (load.to.empty() || is_asked(load.to) || !passes_on(load.to_kind)) {
        end_here(load, part, load.to);
      }
    }
  }

  // The load beside its batch, and its part at the batch beyond.
  void note(const Movement& load, const Part& part, const std::string& at, const std::string& kind,
            const std::string& beyond) {
    TraceBatch& batch = batches_[at];
    batch.kind = kind;
    auto step = std::find_if(batch.steps.begin(), batch.steps.end(), [&](const TraceStep& one) {
      return (up_ ? one.from : one.to) == beyond && one.material == load.material.name;
    });
    if (step == batch.steps.end()) {
      step = batch.steps.insert(batch.steps.end(), {.from = load.from,
                                                    .to = load.to,
                                                    .from_kind = load.from_kind,
                                                    .to_kind = load.to_kind,
                                                    .material = load.material.name,
                                                    .purpose = load.purpose,
                                                    .statement = load.material.statement,
                                                    .movements = {},
                                                    .first = load.day,
                                                    .last = load.day,
                                                    .carried = Kilograms{},
                                                    .part = Kilograms{}});
    }
    step->movements.insert(up_ ? step->movements.begin() : step->movements.end(), load.id);
    step->first = std::min(step->first, load.day);
    step->last = std::max(step->last, load.day);
    if (load.purpose != step->purpose) step->purpose.clear();
    add_known(step->carried, weight(load));
    add_known(step->part, part);
    if (beyond.empty() || is_asked(beyond)) return;
    const auto [other, is_new] = batches_.try_emplace(beyond);
    if (is_new) other->second.part = Kilograms{};
    add_known(other->second.part, part);
  }

  static void sort_steps(std::vector<TraceStep>& steps) {
    std::stable_sort(steps.begin(), steps.end(), [](const TraceStep& a, const TraceStep& b) {
      if (more_of(a.part, b.part) || more_of(b.part, a.part)) return more_of(a.part, b.part);
      return std::pair(a.first, a.material) < std::pair(b.first, b.material);
    });
  }

  bool up_;
  const std::vector<Movement>& movements_;
  std::map<std::string, Ground> same_ground_;
  std::vector<std::string> asked_;
  std::map<std::string, State> states_;
  std::map<std::string, TraceBatch> batches_;
  std::map<std::pair<std::string, std::string>, double> ends_;
};

}  // namespace

Trace trace(const std::string& batch, Direction direction, const std::vector<Movement>& movements,
            const std::vector<Ground>& grounds) {
  return Tracer(batch, direction, movements, grounds).run();
}

}  // namespace season
