#pragma once

#include <cassert>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <type_traits>
#include <utility>
#include <variant>
#include <vector>

#include "measure/dimension.h"
#include "measure/moment.h"

// The named values that a finding, a reason or an objection rests on. Each name is a constant with
// the type of its value, so that neither a misspelt name nor a value of the wrong unit compiles:
//
//   inline constexpr model::Fact<measure::Celsius> hottest{"hottest"};
//   facts.set(hottest, measure::Celsius{73});
//   facts.get(hottest)  // std::optional<measure::Celsius>
namespace model {

// A part of a list: "13 kg of leaves", "core 73 °C".
struct Part {
  std::string name;
  measure::Value amount;

  friend bool operator==(const Part&, const Part&) = default;
};

template <class T>
struct Fact {
  std::string_view name;
};

class Facts {
 public:
  using Value = std::variant<measure::Value, std::int64_t, measure::Day, measure::Instant,
                             std::string, std::vector<std::string>, std::vector<Part>>;
  struct Named {
    std::string_view name;
    Value value;

    friend bool operator==(const Named&, const Named&) = default;
  };

  // Sets it, over what it was.
  template <class T>
  void set(Fact<T> fact, T value) {
    put(fact.name, stored(std::move(value)));
  }

  template <class T>
  std::optional<T> get(Fact<T> fact) const {
    for (const Named& one : all_) {
      if (one.name == fact.name) return restored<T>(one.value);
    }
    return std::nullopt;
  }

  // Of what is surely there: a finding's words name what its rule always sets.
  template <class T>
  T operator()(Fact<T> fact) const {
    auto found = get(fact);
    assert(found);
    return std::move(*found);
  }

  template <class T>
  bool has(Fact<T> fact) const {
    return get(fact).has_value();
  }

  // Whether a yes-or-no fact was set to yes.
  bool is(Fact<bool> fact) const { return get(fact).value_or(false); }

  const std::vector<Named>& all() const { return all_; }

  friend bool operator==(const Facts&, const Facts&) = default;

 private:
  template <class T>
  static constexpr bool kWhole = std::is_integral_v<T> || std::is_enum_v<T>;
  template <class T>
  static constexpr bool kPlain =
      std::is_same_v<T, measure::Day> || std::is_same_v<T, measure::Instant> ||
      std::is_same_v<T, std::string> || std::is_same_v<T, measure::Value> ||
      std::is_same_v<T, std::vector<std::string>> || std::is_same_v<T, std::vector<Part>>;

  template <class T>
  static Value stored(T value) {
    if constexpr (kWhole<T>) {
      return static_cast<std::int64_t>(value);
    } else if constexpr (kPlain<T>) {
      return value;
    } else {
      return measure::value_of(value);
    }
  }

  template <class T>
  static T restored(const Value& value) {
    if constexpr (kWhole<T>) {
      return static_cast<T>(std::get<std::int64_t>(value));
    } else if constexpr (kPlain<T>) {
      return std::get<T>(value);
    } else {
      return T{std::get<measure::Value>(value).si};
    }
  }

  void put(std::string_view name, Value value) {
    for (Named& one : all_) {
      if (one.name != name) continue;
      one.value = std::move(value);
      return;
    }
    all_.push_back({name, std::move(value)});
  }

  std::vector<Named> all_;
};

}  // namespace model
