// JSON lines as people pipe sensors in. What nlohmann's parser takes for an object, ours reads as
// the same; then all of it is imported.
#include <array>
#include <cstdint>
#include <cstdlib>
#include <string>
#include <string_view>

#include "book/import/json.h"
#include "import_site.h"

namespace {

void compare(std::string_view line) {
  book::JsonLine ours;
  const bool read = ours.read(line);
  if (!read && ours.why().empty()) abort();
  if (line.find('\0') != std::string_view::npos) return;  // an end to nlohmann's parser
  const auto theirs = nlohmann::json::parse(line, nullptr, false);
  if (!theirs.is_object()) return;
  if (!read) {
    if (ours.why() != "it is nested too deep") abort();
    return;
  }
  constexpr std::array<const char*, 4> kNames{"at", "series", "value", "unit"};
  for (std::size_t i = 0; i < kNames.size(); ++i) {
    const auto member = theirs.find(kNames[i]);
    const std::string_view field = ours.fields()[i];
    if (member == theirs.end() || member->is_null() || member->is_structured()) {
      if (!field.empty()) abort();
    } else if (member->is_string()) {
      if (field != member->get_ref<const std::string&>()) abort();
    } else if (field.empty()) {
      abort();
    }
  }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  for (const std::string& line : measure::split(text, '\n')) compare(line);
  fuzz::try_import("heap=heap-1.core:F\t--keep-good=x", "{" + std::string(text));
  fuzz::try_import("--json\t--last-line", text);
  return 0;
}
