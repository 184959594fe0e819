#include "render/json_value.h"

#include <algorithm>
#include <nlohmann/json.hpp>
#include <utility>

namespace render {

struct Json::Member {
  std::string name;
  Json value;
};

Json::Json() : value_(nullptr) {}
Json::Json(std::nullptr_t) : value_(nullptr) {}
Json::Json(bool value) : value_(value) {}
Json::Json(double value) : value_(value) {}
Json::Json(const char* text) : value_(std::string(text)) {}
Json::Json(std::string_view text) : value_(std::string(text)) {}
Json::Json(std::string text) : value_(std::move(text)) {}
Json::Json(Signed number) : value_(number.value) {}
Json::Json(Unsigned number) : value_(number.value) {}

Json::Json(std::initializer_list<Json> list) {
  if (!std::all_of(list.begin(), list.end(), [](const Json& one) { return one.is_pair(); })) {
    value_ = Array(list);
    return;
  }
  Object members;
  for (const Json& one : list) {
    const Array& pair = std::get<Array>(one.value_);
    members.push_back({std::get<std::string>(pair[0].value_), pair[1]});
  }
  value_ = std::move(members);
}

Json::Json(const Json& other) = default;
Json::Json(Json&& other) noexcept = default;
Json& Json::operator=(const Json& other) = default;
Json& Json::operator=(Json&& other) noexcept = default;
Json::~Json() = default;

Json Json::array(std::initializer_list<Json> list) {
  Json made;
  made.value_ = Array(list);
  return made;
}

bool Json::is_pair() const {
  const auto* list = std::get_if<Array>(&value_);
  return list != nullptr && list->size() == 2 &&
         std::holds_alternative<std::string>(list->front().value_);
}

Json& Json::operator[](std::string_view name) {
  if (std::holds_alternative<std::nullptr_t>(value_)) value_ = Object();
  auto& members = std::get<Object>(value_);
  const auto found = std::find_if(members.begin(), members.end(),
                                  [&](const Member& one) { return one.name == name; });
  if (found != members.end()) return found->value;
  members.push_back({std::string(name), Json()});
  return members.back().value;
}

void Json::push_back(Json value) {
  if (std::holds_alternative<std::nullptr_t>(value_)) value_ = Array();
  std::get<Array>(value_).push_back(std::move(value));
}

std::size_t Json::size() const {
  if (const auto* array = std::get_if<Array>(&value_)) return array->size();
  if (const auto* object = std::get_if<Object>(&value_)) return object->size();
  return 0;
}

void Json::update(const Json& members) {
  for (const Member& one : std::get<Object>(members.value_)) (*this)[one.name] = one.value;
}

// As the library has it.
class JsonWriter {
 public:
  using Theirs = nlohmann::ordered_json;

  static std::string text(const Json& json, int indent, bool ascii) {
    return std::visit(JsonWriter(), json.value_)
        .dump(indent, ' ', ascii, Theirs::error_handler_t::replace);
  }

  template <class T>
  Theirs operator()(const T& value) const {
    return value;
  }
  Theirs operator()(const Json::Array& list) const {
    Theirs made = Theirs::array();
    for (const Json& one : list) made.push_back(std::visit(*this, one.value_));
    return made;
  }
  Theirs operator()(const Json::Object& members) const {
    Theirs made = Theirs::object();
    for (const auto& one : members) made.push_back({one.name, std::visit(*this, one.value.value_)});
    return made;
  }
};

std::string dumped(const Json& json) {
  return JsonWriter::text(json, 2, false) + '\n';
}

std::string dumped_in_line(const Json& json) {
  return JsonWriter::text(json, -1, true);
}

}  // namespace render
