#pragma once

#include <cassert>
#include <string>
#include <utility>
#include <variant>

namespace measure {

// A mistake in what a person typed: the word that was off and one sentence saying why and what
// would have been understood. The command line prints it and adds that nothing was recorded.
struct Mistake {
  std::string word;
  std::string why;
};

// Either a value or the mistake that kept it from being one. (C++20 has no std::expected.)
template <class T>
class Result {
 public:
  Result(T value) : state_(std::in_place_index<0>, std::move(value)) {}
  Result(Mistake mistake) : state_(std::in_place_index<1>, std::move(mistake)) {}

  bool ok() const { return state_.index() == 0; }
  explicit operator bool() const { return ok(); }

  // Only where ok().
  const T& value() const {
    assert(ok());
    return std::get<0>(state_);
  }
  const T& operator*() const { return value(); }
  const T* operator->() const { return &value(); }

  // Only where not ok().
  const Mistake& mistake() const {
    assert(!ok());
    return std::get<1>(state_);
  }

 private:
  std::variant<T, Mistake> state_;
};

}  // namespace measure
