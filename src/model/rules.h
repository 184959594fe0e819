#pragma once

#include <map>
#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "measure/dimension.h"

namespace model {

// One row of schema/thresholds: a default that a site can change for a kind or for one batch.
struct ThresholdInfo {
  std::string_view key;   // "pile.hot.above"
  std::string_view kind;  // "pile"
  measure::Dimension dimension;
  double si;               // the default, in the dimension's base unit
  std::string_view typed;  // the default as the table has it: "160 F"
  std::string_view label;  // for a kNumber: its unit, "mg/larva/d"; else empty
  std::string_view meaning;
  std::string_view source;
};

// A threshold whose value has the type T. The build makes one constant of each row, so that a
// misspelt key or a wrong unit does not compile.
template <class T>
struct Threshold {
  const ThresholdInfo* info;
};

// Where the value in force came from.
struct RuleInForce {
  double si;
  std::string source;  // the row's own, or "this site's rule" / "heap-3's own rule"

  friend bool operator==(const RuleInForce&, const RuleInForce&) = default;
};

// The thresholds in force for one batch: the defaults with the site's changes over them.
class Rules {
 public:
  void set(std::string key, RuleInForce rule) { changed_[std::move(key)] = std::move(rule); }

  template <class T>
  T operator()(Threshold<T> threshold) const {
    const auto found = changed_.find(threshold.info->key);
    return T{found != changed_.end() ? found->second.si : threshold.info->si};
  }

  RuleInForce in_force(const ThresholdInfo& info) const {
    const auto found = changed_.find(info.key);
    if (found != changed_.end()) return found->second;
    return {info.si, std::string(info.source)};
  }

  friend bool operator==(const Rules&, const Rules&) = default;

 private:
  std::map<std::string, RuleInForce, std::less<>> changed_;
};

}  // namespace model
