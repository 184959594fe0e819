#include "season/trace.h"

#include <algorithm>
#include <map>
#include <utility>

#include "kinds/kind.h"

namespace season {
namespace {

using measure::Kilograms;
using model::Movement;

// A load on the way, with the part of it that belongs to the batch asked for.
struct Portion {
  const Movement* load;
  std::optional<double> part;  // kg
};

bool before(const Movement& a, const Movement& b) {
  return std::pair(a.at, a.id) < std::pair(b.at, b.id);
}

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

class Tracer {
 public:
  Tracer(const std::vector<Movement>& movements, Direction direction)
      : up_(direction == Direction::kUp) {
    for (const Movement& one : movements) {
      if (!one.to.empty()) in_[one.to].push_back(&one);
      if (!one.from.empty()) out_[one.from].push_back(&one);
    }
  }

  Trace run(const std::string& batch) {
    std::vector<Portion> first;
    for (const Movement* load : up_ ? in_[batch] : out_[batch]) {
      first.push_back({load, weight(*load)});
    }
    Trace trace{batch, up_ ? Direction::kUp : Direction::kDown, {}, {}};
    path_.push_back(batch);
    trace.steps = steps_of(first);
    for (auto& [key, part] : ends_) {
      trace.ends.push_back({key.first, key.second, Kilograms{part}});
    }
    return trace;
  }

 private:
  const std::string& far_end(const Movement& load) const { return up_ ? load.from : load.to; }
  const std::string& far_kind(const Movement& load) const {
    return up_ ? load.from_kind : load.to_kind;
  }

  void end_here(const Portion& one, const std::string& at) {
    if (one.part) ends_[{one.load->material.name, at}] += *one.part;
  }

  std::vector<TraceStep> steps_of(const std::vector<Portion>& portions) {
    std::map<std::pair<std::string, std::string>, std::vector<Portion>> groups;
    for (const Portion& one : portions) {
      groups[{far_end(*one.load), one.load->material.name}].push_back(one);
    }
    std::vector<TraceStep> steps;
    for (const auto& [key, group] : groups) steps.push_back(step_of(group));
    std::stable_sort(steps.begin(), steps.end(), [](const auto& a, const auto& b) {
      return a.first != b.first ? a.first < b.first : a.material < b.material;
    });
    return steps;
  }

  TraceStep step_of(const std::vector<Portion>& group) {
    const Movement& one = *group.front().load;
    TraceStep step{one.from,
                   one.to,
                   one.from_kind,
                   one.to_kind,
                   one.material.name,
                   one.purpose,
                   one.material.statement,
                   {},
                   one.day,
                   one.day,
                   Kilograms{},
                   Kilograms{},
                   false,
                   {}};
    for (const Portion& portion : group) {
      const Movement& load = *portion.load;
      step.movements.push_back(load.id);
      step.first = std::min(step.first, load.day);
      step.last = std::max(step.last, load.day);
      if (load.purpose != step.purpose) step.purpose.clear();
      const auto mass = weight(load);
      add_known(step.carried, mass);
      add_known(step.part, portion.part);
    }
    const std::string& next = far_end(one);
    step.loop = std::find(path_.begin(), path_.end(), next) != path_.end();
    if (next.empty() || step.loop || !passes_on(far_kind(one))) {
      for (const Portion& portion : group) end_here(portion, next);
    }
    if (next.empty() || step.loop) return step;
    path_.push_back(next);
    step.steps = steps_of(up_ ? behind(next, group) : onward(next, group));
    path_.pop_back();
    return step;
  }

  // What was put into a batch before loads left it, and how much of them it is: each in proportion
  // to its weight among all that had been put in by then.
  std::vector<Portion> behind(const std::string& batch, const std::vector<Portion>& left) {
    const auto& inputs = in_[batch];
    const bool passes = passes_on(left.front().load->from_kind);
    std::vector<std::pair<bool, double>> parts(inputs.size(), {false, 0});
    for (const Portion& out : left) {
      double held = 0;
      for (const Movement* in : inputs) {
        if (before(*in, *out.load)) held += weight(*in).value_or(0);
      }
      for (std::size_t i = 0; i < inputs.size(); ++i) {
        if (!before(*inputs[i], *out.load)) continue;
        parts[i].first = true;
        if (held > 0)
          parts[i].second += out.part.value_or(0) * weight(*inputs[i]).value_or(0) / held;
      }
      if (passes && held <= 0) end_here(out, batch);
    }
    const bool known = passes && std::all_of(left.begin(), left.end(),
                                             [](const Portion& one) { return one.part; });
    std::vector<Portion> found;
    for (std::size_t i = 0; i < inputs.size(); ++i) {
      if (!parts[i].first) continue;
      const bool weighed = known && weight(*inputs[i]);
      found.push_back({inputs[i], weighed ? std::optional(parts[i].second) : std::nullopt});
    }
    return found;
  }

  // What left a batch after loads came in, and how much of it is of them.
  std::vector<Portion> onward(const std::string& batch, const std::vector<Portion>& came) {
    const bool passes = passes_on(came.front().load->to_kind);
    const bool known = passes && std::all_of(came.begin(), came.end(),
                                             [](const Portion& one) { return one.part; });
    std::vector<Portion> found;
    for (const Movement* out : out_[batch]) {
      double held = 0, of_them = 0;
      bool any = false;
      for (const Movement* in : in_[batch]) {
        if (before(*in, *out)) held += weight(*in).value_or(0);
      }
      for (const Portion& one : came) {
        if (!before(*one.load, *out)) continue;
        any = true;
        of_them += one.part.value_or(0);
      }
      if (!any) continue;
      const auto mass = weight(*out);
      const bool can = known && mass && held > 0;
      found.push_back({out, can ? std::optional(*mass * of_them / held) : std::nullopt});
    }
    return found;
  }

  bool up_;
  std::map<std::string, std::vector<const Movement*>> in_, out_;
  std::vector<std::string> path_;
  std::map<std::pair<std::string, std::string>, double> ends_;
};

}  // namespace

Trace trace(const std::string& batch, Direction direction, const std::vector<Movement>& movements) {
  return Tracer(movements, direction).run(batch);
}

}  // namespace season
