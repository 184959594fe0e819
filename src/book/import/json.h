#pragma once

#include <array>
#include <string>
#include <string_view>

namespace book {

// One line of JSON (RFC 8259) as people pipe sensors in: {"at": ..., "series": ..., "value": ...,
// "unit": ...}. Numbers stay as they are written; null and a member that is not there are empty;
// other members are passed over.
class JsonLine {
 public:
  // False: it is no JSON object; `why` says what was wrong.
  bool read(std::string_view line);
  const std::string& why() const { return why_; }

  // at, series, value, unit. They hold until the next call.
  std::array<std::string_view, 4> fields() const;

 private:
  bool object();
  bool string(std::string& into);
  bool value(std::string& into, int depth);
  void space();
  bool fail(std::string why);

  std::string_view rest_;
  std::array<std::string, 4> members_;
  std::string why_;
};

}  // namespace book
