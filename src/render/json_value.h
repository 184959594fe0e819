#pragma once

#include <concepts>
#include <cstddef>
#include <cstdint>
#include <initializer_list>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

// A JSON value to be written. The library that writes it stands in json_value.cpp alone: it costs
// the compiler a second and more wherever it is included.
namespace render {

class Json {
 public:
  Json();                       // null
  Json(std::nullptr_t);         // NOLINT: each as it is written in a list
  Json(bool value);             // NOLINT
  Json(double value);           // NOLINT
  Json(const char* text);       // NOLINT
  Json(std::string_view text);  // NOLINT
  Json(std::string text);       // NOLINT
  template <std::signed_integral T>
  Json(T value) : Json(Signed{value}) {}  // NOLINT
  template <std::unsigned_integral T>
  requires(!std::same_as<T, bool>) Json(T value) : Json(Unsigned{value}) {}  // NOLINT
  template <class T>
  Json(const std::vector<T>& list) : Json(array()) {  // NOLINT
    for (const T& one : list) push_back(one);
  }
  // {{"name", value}, ...} is an object: pairs that all begin with a text; any other list an array.
  Json(std::initializer_list<Json> list);
  Json(const Json& other);
  Json(Json&& other) noexcept;
  Json& operator=(const Json& other);
  Json& operator=(Json&& other) noexcept;
  ~Json();

  static Json array(std::initializer_list<Json> list = {});

  // The member of that name: of an object, or of null, which becomes one. Members keep the order in
  // which they came.
  Json& operator[](std::string_view name);
  // Appends to an array, or to null, which becomes one.
  void push_back(Json value);
  // Of an array or an object; 0 of any other.
  std::size_t size() const;
  // Takes over the members of another object: over those of the same name, else at the end.
  void update(const Json& members);

 private:
  friend class JsonWriter;
  struct Member;
  struct Signed {
    std::int64_t value;
  };
  struct Unsigned {
    std::uint64_t value;
  };
  using Array = std::vector<Json>;
  using Object = std::vector<Member>;

  explicit Json(Signed number);
  explicit Json(Unsigned number);
  bool is_pair() const;

  std::variant<std::nullptr_t, bool, double, std::int64_t, std::uint64_t, std::string, Array,
               Object>
      value_;
};

// Indented by two, ended by a line break.
std::string dumped(const Json& json);
// In one line, of ASCII alone.
std::string dumped_in_line(const Json& json);

}  // namespace render
