#include <fmt/format.h>

#include <algorithm>

#include "cli/words/log_phrases.h"
#include "cli/words/log_reader.h"
#include "kinds/weather_words.h"
#include "measure/text.h"
#include "model/danger.h"

namespace cli {
namespace {

using kinds::Kind;
using kinds::Quantity;
using measure::Mistake;
using measure::Result;

// "flame=blue": a judgement with its sense.
const kinds::Word* find_judgement(const Kind& kind, std::string_view plain) {
  const std::size_t equals = plain.find('=');
  if (equals == std::string_view::npos) return nullptr;
  const kinds::Word* word = find_spoken(kind, plain.substr(equals + 1));
  return word != nullptr && word->sense == plain.substr(0, equals) && !word->sense.empty()
             ? word
             : nullptr;
}

// What of a text in quotes reads as readings, deeds and judgements.
struct Heard {
  std::size_t words = 0, understood = 0;
  bool has_temperature = false, begins_with_deed = false;

  bool whole() const { return words > 0 && understood == words; }
  // A short text that begins like an entry, or one with a temperature in it, may be meant as one.
  bool may_be_meant() const {
    constexpr std::size_t kShort = 3;
    return has_temperature || (begins_with_deed && words <= kShort) ||
           (understood > 0 && understood * 2 >= words && words <= kShort);
  }
};

std::vector<std::string> spoken_words(const std::string& text) {
  std::vector<std::string> words;
  for (const std::string& word : measure::split(measure::folded(text), ' ')) {
    if (!word.empty()) words.push_back(word);
  }
  return words;
}

Heard heard_in(const std::string& text, const Reader& reader) {
  Heard heard;
  for (const std::string& word : log_phrases(spoken_words(text), reader.kind, reader.containers)) {
    const std::string plain = measure::folded(word);
    const std::size_t equals = plain.find('=');
    ++heard.words;
    const kinds::Word* known = find_spoken(reader.kind, plain);
    if (known == nullptr) known = find_judgement(reader.kind, plain);
    if (known != nullptr) {
      ++heard.understood;
      heard.begins_with_deed |= heard.words == 1 && known->sense.empty();
      continue;
    }
    // A bare number is no reading in the middle of a remark.
    if (equals == std::string::npos && measure::parse_number(plain)) continue;
    std::optional<Result<LoggedReading>> reading;
    if (equals == std::string::npos) {
      reading = unnamed_value(plain, reader);
    } else if (const auto aim = read_quantity_name(plain.substr(0, equals), reader.kind)) {
      reading = value_of(*aim->quantity, aim->position, plain.substr(equals + 1), reader);
    }
    if (!reading || !*reading) continue;
    ++heard.understood;
    heard.has_temperature |= (*reading)->value.dimension == measure::Dimension::kTemperature;
  }
  return heard;
}

// "height=1 1/2": a name with a value that has a space in it.
bool is_one_value(const std::string& plain, const Reader& reader) {
  const std::size_t equals = plain.find('=');
  if (equals == std::string::npos || plain.find(' ') < equals) return false;
  const auto aim = read_quantity_name(plain.substr(0, equals), reader.kind);
  return aim && value_of(*aim->quantity, aim->position, plain.substr(equals + 1), reader);
}

// The words with what is in quotes taken apart where all of it is understood; a mistake where only
// some of it is and it may have been meant.
Result<std::vector<std::string>> unquoted(const std::vector<std::string>& words,
                                          const Reader& reader) {
  std::vector<std::string> out;
  for (std::size_t i = 0; i < words.size(); ++i) {
    const std::string& word = words[i];
    const bool quoted = word.find(' ') != std::string::npos;
    if (!quoted || find_spoken(reader.kind, measure::folded(word)) != nullptr ||
        is_one_value(measure::folded(word), reader)) {
      out.push_back(word);
      continue;
    }
    const Heard heard = heard_in(word, reader);
    if (heard.whole()) {
      for (std::string& one : spoken_words(word)) out.push_back(std::move(one));
      continue;
    }
    // What tells of a danger is taken as it is: nobody is asked to type it again.
    if (heard.may_be_meant() && model::dangers_in(word).empty()) {
      std::vector<std::string> others = words;
      others.erase(others.begin() + static_cast<std::ptrdiff_t>(i));
      return Mistake{
          word,
          fmt::format("{} is half a reading: write it without quotes, or keep it as a remark: "
                      "'{} --note \"{}\"'",
                      measure::quoted(word), retyped(others, reader), word)};
    }
    out.push_back(word);
  }
  return out;
}

bool begins_with_digit(std::string_view word) {
  return !word.empty() && word[0] >= '0' && word[0] <= '9';
}

// The reading of one line, word by word.
class LineReader {
 public:
  LineReader(const std::vector<std::string>& words, const Reader& reader, bool sure)
      : words_(words), reader_(reader), sure_(sure) {}

  Result<Logged> read() {
    for (const std::string& word : words_) {
      if (find_spoken(reader_.kind, measure::folded(word)) != nullptr) continue;
      if (auto why = asked_back(word, words_, reader_)) return *why;
    }
    if (auto why = several_bare(unread_numbers(), reader_)) return *why;
    for (at_ = 0; at_ < words_.size(); ++at_) {
      if (auto why = take_word()) return *why;
    }
    if (!rest_.empty()) note(measure::joined(rest_, " "));
    return logged_;
  }

 private:
  std::optional<Mistake> take_word() {
    const std::string& word = words_[at_];
    const std::string plain = measure::folded(word);
    if (plain.empty()) return Mistake{word, "there is an empty word in the line"};
    const std::size_t equals = plain.find('=');
    if (const kinds::Word* judged = find_judgement(reader_.kind, plain)) {
      logged_.words.push_back(judged);
    } else if (equals != std::string::npos && plain.find(' ') > equals) {
      return take_named(plain, equals);
    } else if (const kinds::Word* known = find_spoken(reader_.kind, plain)) {
      logged_.words.push_back(known);
      if (known->sense == kinds::weather::kWeather && !rest_.empty()) rest_.push_back(word);
    } else if (word.find(' ') != std::string::npos) {  // as typed: folding makes two words of 64½F
      note(word);
    } else if (counts_judgement()) {
      return take_counted();
    } else if (const auto reading =
                   is_ordinal(plain) ? std::nullopt : unnamed_value(plain, reader_)) {
      return take(*reading, plain);
    } else if (reader_.around.keeps_rest && !is_name(word, reader_.kind) &&
               (is_ordinal(plain) || !begins_with_digit(plain))) {
      rest_.push_back(word);
    } else {
      return not_understood(word, reader_);
    }
    return std::nullopt;
  }

  std::optional<Mistake> take_named(const std::string& plain, std::size_t equals) {
    const auto name = std::string_view(plain).substr(0, equals);
    const auto aim = read_quantity_name(name, reader_.kind);
    if (!aim) {
      const auto why = no_judgement(name, std::string_view(plain).substr(equals + 1), reader_.kind);
      return why ? *why : aim.mistake();
    }
    const std::string typed = plain.substr(equals + 1);
    return take(value_of(*aim->quantity, aim->position, typed, reader_), typed);
  }

  std::optional<Mistake> take(const Result<LoggedReading>& reading, std::string_view typed) {
    if (!reading) return reading.mistake();
    if (!sure_) {
      if (auto why = against_value(*reading, typed, reader_)) return why;
    }
    for (const LoggedReading& other : logged_.readings) {
      if (other.quantity == reading->quantity && other.was_guessed != reading->was_guessed &&
          other.position.empty() != reading->position.empty()) {
        return Mistake{std::string(typed),
                       fmt::format("of two readings of {} in one line each wants its place or its "
                                   "name",
                                   reading->quantity->name)};
      }
      if (other.quantity == reading->quantity && other.position == reading->position) {
        return Mistake{std::string(typed),
                       fmt::format("{} gives {} a second value in one line", measure::quoted(typed),
                                   reading->position.empty() ? std::string(reading->quantity->name)
                                                             : "the " + reading->position)};
      }
    }
    logged_.readings.push_back(*reading);
    return std::nullopt;
  }

  // "1 broody" beside the day's eggs: so many of the hens.
  bool counts_judgement() const { return counts_judgement(at_); }
  bool counts_judgement(std::size_t at) const {
    const Quantity* daily = daily_of(reader_);
    if (daily == nullptr || daily->dimension != measure::Dimension::kCount) return false;
    if (!measure::parse_number(words_[at]) || at + 1 >= words_.size()) return false;
    const kinds::Word* next = find_spoken(reader_.kind, measure::folded(words_[at + 1]));
    return next != nullptr && !next->sense.empty();
  }

  std::optional<Mistake> take_counted() {
    const Quantity& daily = *daily_of(reader_);
    const std::string named = fmt::format("{}=", daily.name);
    const bool daily_is_said = std::any_of(words_.begin(), words_.end(), [&](const auto& word) {
      return measure::folded(word).starts_with(named);
    });
    if (!daily_is_said) return number_or_judgement(at_, words_, daily, reader_);
    note(words_[at_] + " " + words_[at_ + 1]);
    return std::nullopt;  // the judgement itself is the next word
  }

  // The line without the numbers that say how many a judgement is of.
  std::vector<std::string> unread_numbers() const {
    std::vector<std::string> left;
    for (std::size_t i = 0; i < words_.size(); ++i) {
      if (!counts_judgement(i)) left.push_back(words_[i]);
    }
    return left;
  }

  void note(const std::string& text) { logged_.note += (logged_.note.empty() ? "" : " ") + text; }

  const std::vector<std::string>& words_;
  const Reader& reader_;
  bool sure_;
  std::size_t at_ = 0;
  Logged logged_;
  std::vector<std::string> rest_;  // what is neither a reading nor a word
};

}  // namespace

const kinds::Word* find_spoken(const Kind& kind, std::string_view plain) {
  std::string phrase(plain);
  std::replace(phrase.begin(), phrase.end(), ' ', '-');
  return kinds::find_word(kind, phrase);
}

Result<NamedQuantity> read_quantity_name(std::string_view name, const Kind& kind) {
  const std::size_t dot = name.find('.');
  const std::string head(name.substr(0, dot));
  if (dot != std::string_view::npos) {
    if (!kinds::has_position(kind, head)) {
      return Mistake{
          head,
          fmt::format("{} has no probe position {}; it has {}", kinds::one_of(kind),
                      measure::quoted(head),
                      kind.vocabulary.positions.empty() ? "none" : kind.vocabulary.positions)};
    }
    const Quantity* quantity = kinds::find_quantity(kind, name.substr(dot + 1));
    if (quantity == nullptr) return no_quantity(name.substr(dot + 1), kind);
    return NamedQuantity{quantity, head};
  }
  if (const Quantity* quantity = kinds::find_quantity(kind, head)) {
    return NamedQuantity{quantity, ""};
  }
  if (kinds::has_position(kind, head) && !kind.vocabulary.temperature.empty()) {
    return NamedQuantity{kinds::find_quantity(kind, kind.vocabulary.temperature), head};
  }
  return no_quantity(head, kind);
}

Result<Logged> read_log_words(const std::vector<std::string>& words, const Kind& kind,
                              const measure::Printer& print, bool sure, const LookInto& study,
                              std::span<const measure::Container> containers,
                              const LineAround& around) {
  const Reader reader{kind, print, study, containers, around};
  const auto plain = unquoted(words, reader);
  if (!plain) return plain.mistake();
  const std::vector<std::string> phrases = log_phrases(*plain, kind, containers);
  return LineReader(phrases, reader, sure).read();
}

}  // namespace cli
