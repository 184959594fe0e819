// The words of a `log` line, split at line breaks, for every kind: what is understood is finite,
// and plausible unless the person was sure.
#include <cmath>
#include <cstdint>
#include <cstdlib>
#include <string_view>

#include "cli/words/log_words.h"
#include "measure/text.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  const measure::Printer print(measure::UnitSystem::kUs);
  for (const kinds::Kind* kind : kinds::all_kinds()) {
    for (const bool sure : {false, true}) {
      const auto words = measure::split(text, '\n');
      const auto logged = cli::read_log_words(words, *kind, print, sure);
      // What is understood as it stands is understood alike where a remark is made of the rest.
      const auto kept =
          cli::read_log_words(words, *kind, print, sure, {}, {}, {"roundbook log x", "", true});
      if (logged && (!kept || kept->readings.size() != logged->readings.size() ||
                     kept->note != logged->note)) {
        abort();
      }
      if (!logged) {
        if (logged.mistake().why.empty()) abort();
        continue;
      }
      for (const cli::LoggedReading& reading : logged->readings) {
        const double si = reading.value.si;
        if (!std::isfinite(si)) abort();
        if (!sure && (si < reading.quantity->least || si > reading.quantity->greatest)) abort();
      }
    }
  }
  return 0;
}
