#include "cli/words/log_line.h"

#include <fmt/format.h>

#include <algorithm>

#include "cli/words/log_phrases.h"
#include "measure/text.h"

namespace cli {
namespace {

using measure::Mistake;

// Batches that share words, and where in the line these stand.
struct Part {
  std::vector<model::Batch> batches;
  std::vector<std::string> words;
  std::size_t from, to;
};

// A code may end in what parts it from its words: "bin-1: 81F".
std::string as_code(const std::string& word) {
  std::string code = measure::folded(word);
  while (code.ends_with(':') || code.ends_with(',')) code.pop_back();
  return code;
}

bool may_be_code(const std::string& word) {
  return !word.empty() && word.find_first_of(" =") == std::string::npos &&
         ((word[0] >= 'a' && word[0] <= 'z') || (word[0] >= 'A' && word[0] <= 'Z'));
}

// How a word of the kind would be typed so that it is no batch.
std::string clearly(const std::string& word, const kinds::Kind& kind) {
  const kinds::Word* known = kinds::find_word(kind, word);
  return known != nullptr ? std::string(known->word) : word + "=...";
}

bool is_of_kind(const std::string& word, const kinds::Kind& kind) {
  return kinds::find_word(kind, word) != nullptr || is_name(word, kind);
}

class LineParts {
 public:
  LineParts(const std::vector<std::string>& words, measure::Instant at, const Desk& desk)
      : words_(words), at_(at), desk_(desk) {}

  measure::Result<std::vector<Part>> read() {
    for (std::size_t i = 0; i < words_.size(); ++i) {
      auto code = code_at(i);
      if (!code) return code.mistake();
      if (*code) {
        if (auto why = begin(**code, i)) return *why;
      } else {
        parts_.back().words.push_back(words_[i]);
        parts_.back().to = i + 1;
      }
    }
    if (parts_.size() > 1 && parts_.back().words.empty()) {
      const std::string& last = parts_.back().batches.back().code;
      return Mistake{last, fmt::format("nothing is said of {} at the end of the line", last)};
    }
    return parts_;
  }

 private:
  // The batch whose words begin there; none: it is a word of the batch before.
  measure::Result<std::optional<model::Batch>> code_at(std::size_t i) {
    const std::string code = i == 0 ? words_[i] : as_code(words_[i]);
    if (i == 0) {
      auto first = desk_.open_batch(may_be_code(code) ? as_code(code) : code, at_);
      if (!first) return first.mistake();
      return std::optional(*first);
    }
    const auto none = std::optional<model::Batch>();
    if (!may_be_code(words_[i])) return none;
    const auto found = book::find_batch(desk_.logbook(), code);
    if (!found) return none;
    const Part& part = parts_.back();
    const bool same = std::any_of(part.batches.begin(), part.batches.end(),
                                  [&](const model::Batch& one) { return one.id == found->id; });
    const model::Batch& before = part.batches.back();
    if (is_of_kind(code, desk_.kind(before))) {
      if (same || !is_open(*found)) return none;
      return Mistake{code,
                     fmt::format("{0} is a batch, and a word of {1} too: type {2} for {1}, or give "
                                 "{0} a line of its own",
                                 code, before.code, clearly(code, desk_.kind(before)))};
    }
    const auto open = desk_.open_batch(code, at_);
    if (!open) return open.mistake();
    return std::optional(*open);
  }

  bool is_open(const model::Batch& batch) const {
    return batch.started <= at_ && (!batch.ended || *batch.ended > at_);
  }

  std::optional<Mistake> begin(const model::Batch& batch, std::size_t at) {
    for (const Part& part : parts_) {
      for (const model::Batch& one : part.batches) {
        if (one.id != batch.id) continue;
        return Mistake{batch.code, fmt::format("{} stands twice in the line", batch.code)};
      }
    }
    if (parts_.empty() || !parts_.back().words.empty()) {
      parts_.push_back({{batch}, {}, at + 1, at + 1});
    } else {
      parts_.back().batches.push_back(batch);
      parts_.back().from = parts_.back().to = at + 1;
    }
    return std::nullopt;
  }

  const std::vector<std::string>& words_;
  measure::Instant at_;
  const Desk& desk_;
  std::vector<Part> parts_;
};

// A word that was not understood may be another batch's code, mistyped.
Mistake with_near_code(Mistake why, const Desk& desk) {
  for (const model::Batch& one : desk.open_batches()) {
    if (!measure::is_slip_of(why.word, one.code) || why.word == one.code) continue;
    return {why.word, fmt::format("{} is no word of that batch, nor a batch; did you mean {}?",
                                  measure::quoted(why.word), one.code)};
  }
  return why;
}

LineAround around(const std::vector<std::string>& words, const Part& part, bool keeps_rest) {
  LineAround text{"roundbook log", "", keeps_rest};
  for (std::size_t i = 0; i < part.from; ++i) text.before += " " + words[i];
  for (std::size_t i = part.to; i < words.size(); ++i) text.after += " " + words[i];
  return text;
}

}  // namespace

measure::Result<std::vector<LoggedBatch>> read_log_line(const std::vector<std::string>& words,
                                                        measure::Instant at, bool sure,
                                                        bool keeps_rest, const Desk& desk) {
  const auto parts = LineParts(words, at, desk).read();
  if (!parts) return parts.mistake();
  std::vector<LoggedBatch> logged;
  for (const Part& part : *parts) {
    const LineAround text = around(words, part, keeps_rest);
    for (const model::Batch& batch : part.batches) {
      auto read = read_log_words(
          part.words, desk.kind(batch), desk.print(), sure, [&] { return desk.study(batch, at); },
          desk.containers(), text);
      if (!read) return with_near_code(read.mistake(), desk);
      logged.push_back({batch, *read});
    }
  }
  return logged;
}

}  // namespace cli
