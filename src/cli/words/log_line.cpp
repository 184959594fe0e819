#include "cli/words/log_line.h"

#include "measure/text.h"

namespace cli {

measure::Result<std::vector<LoggedBatch>> read_log_line(const std::vector<std::string>& words,
                                                        measure::Instant at, bool sure,
                                                        bool keeps_rest, const Desk& desk) {
  const auto batch = desk.open_batch(words.at(0), at);
  if (!batch) return batch.mistake();
  const std::vector<std::string> rest(words.begin() + 1, words.end());
  const auto read = read_log_words(
      rest, desk.kind(*batch), desk.print(), sure, [&] { return desk.study(*batch, at); },
      desk.containers());
  if (read) return std::vector{LoggedBatch{*batch, *read}};
  if (!keeps_rest) return read.mistake();
  return std::vector{LoggedBatch{*batch, {{}, {}, measure::joined(rest, " ")}}};
}

}  // namespace cli
