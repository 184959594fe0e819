#include "cli/words/log_words.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "cli/words/log_phrases.h"
#include "kinds/finding.h"
#include "measure/text.h"

namespace cli {
namespace {

using kinds::Kind;
using kinds::Quantity;
using measure::Mistake;
using measure::Result;

// The same in quotes: one argument with blanks in it.
const kinds::Word* find_spoken(const Kind& kind, std::string_view plain) {
  std::string phrase(plain);
  std::replace(phrase.begin(), phrase.end(), ' ', '-');
  return kinds::find_word(kind, phrase);
}

// "flame=blue": a judgement with its sense.
const kinds::Word* find_judgement(const Kind& kind, std::string_view plain) {
  const std::size_t equals = plain.find('=');
  if (equals == std::string_view::npos) return nullptr;
  const kinds::Word* word = find_spoken(kind, plain.substr(equals + 1));
  return word != nullptr && word->sense == plain.substr(0, equals) && !word->sense.empty()
             ? word
             : nullptr;
}

// Everything that `log` would understand of a kind, for a nearest match.
std::vector<std::string_view> vocabulary(const Kind& kind) {
  std::vector<std::string_view> known;
  for (const kinds::Word& word : kind.vocabulary.words) known.push_back(word.word);
  for (const Quantity& quantity : kind.vocabulary.quantities) known.push_back(quantity.name);
  return known;
}

// What goes in and comes out is no reading: "fed", "harvested".
std::string_view carrying_hint(std::string_view word) {
  static constexpr std::array<std::string_view, 4> kIn{"fed", "feed", "added", "topped"};
  static constexpr std::array<std::string_view, 5> kOut{"harvested", "harvest", "taken", "picked",
                                                        "sold"};
  if (std::ranges::find(kIn, word) != kIn.end()) return "add";
  if (std::ranges::find(kOut, word) != kOut.end()) return "take";
  return "";
}

Mistake not_understood(const std::string& word, const Kind& kind) {
  if (!word.empty() && word[0] >= '0' && word[0] <= '9') {
    const auto amount = measure::parse_amount_then(word, {});
    if (!amount) return amount.mistake();
  }
  if (is_name(word, kind)) {
    return {word, fmt::format("{} needs its value, like {}=...", measure::quoted(word), word)};
  }
  if (const auto command = carrying_hint(measure::folded(word)); !command.empty()) {
    return {word, fmt::format("{} is no reading or deed of {}; what {} is recorded by "
                              "'roundbook {}', with its amount and material",
                              measure::quoted(word), kinds::one_of(kind),
                              command == "add" ? "goes in" : "comes out", command)};
  }
  const auto known = vocabulary(kind);
  std::string why =
      fmt::format("{} is no reading or deed of {}", measure::quoted(word), kinds::one_of(kind));
  if (const auto near = measure::nearest(word, known)) {
    why += fmt::format("; did you mean {}?", *near);
  } else {
    why += fmt::format("; it takes {}; a remark goes in quotes or after --note",
                       measure::listed(known));
  }
  return {word, why};
}

// "flame=green": the judgements of a sense; none where the name is no sense.
std::optional<Mistake> no_judgement(std::string_view name, std::string_view typed,
                                    const Kind& kind) {
  std::vector<std::string_view> known;
  for (const kinds::Word& word : kind.vocabulary.words) {
    if (!word.sense.empty() && word.sense == name) known.push_back(word.word);
  }
  if (known.empty()) return std::nullopt;
  return Mistake{std::string(typed), fmt::format("{} is {}, not {}", name, measure::listed(known),
                                                 measure::quoted(typed))};
}

Mistake no_quantity(std::string_view name, const Kind& kind) {
  std::vector<std::string_view> known;
  for (const Quantity& quantity : kind.vocabulary.quantities) known.push_back(quantity.name);
  for (const std::string& position : measure::split(kind.vocabulary.positions, ' ')) {
    known.push_back(kind.vocabulary.positions.substr(kind.vocabulary.positions.find(position),
                                                     position.size()));
  }
  std::string why =
      fmt::format("{} has no reading called {}", kinds::one_of(kind), measure::quoted(name));
  if (const auto near = measure::nearest(name, known)) {
    why += fmt::format("; did you mean {}?", *near);
  } else {
    why += fmt::format("; it has {}", measure::listed(known, "and"));
  }
  return {std::string(name), why};
}

// What the number would be in another unit of its dimension, where that is plausible: "148 °F".
// The unit that the quantity is usually read in is asked first.
std::string likelier(double typed, const measure::Unit& said, const Quantity& quantity,
                     const measure::Printer& print) {
  const auto fits = [&](const measure::Unit& other) {
    const double si = other.to_base(typed);
    return other.dimension == said.dimension && other.symbol != said.symbol &&
           si >= quantity.least && si <= quantity.greatest;
  };
  const auto asked = [&](const measure::Unit& other) {
    return fmt::format("; did you mean {} {}?", measure::print_number(typed, 2), other.symbol);
  };
  const measure::Unit& usual = bare_unit(quantity, print);
  if (fits(usual)) return asked(usual);
  // The air's own pressure, 1013 mbar, is no slip for some small one; nor a share for millionths.
  if (said.dimension == measure::Dimension::kPressure ||
      said.dimension == measure::Dimension::kFraction) {
    return "";
  }
  const auto units = measure::all_units();
  const auto other = std::find_if(units.begin(), units.end(), fits);
  return other == units.end() ? std::string() : asked(*other);
}

std::optional<Mistake> implausible(const LoggedReading& reading, std::string_view typed,
                                   const Kind& kind, const measure::Printer& print) {
  const Quantity& quantity = *reading.quantity;
  const double si = reading.value.si;
  if (si >= quantity.least && si <= quantity.greatest) return std::nullopt;
  const measure::Value least{quantity.dimension, quantity.least};
  const measure::Value greatest{quantity.dimension, quantity.greatest};
  const std::string plain = measure::folded(typed);
  const std::size_t letters = plain.find_first_not_of("0123456789.-+/ ");
  const measure::Unit* said = letters == std::string::npos
                                  ? &bare_unit(quantity, print)
                                  : measure::find_unit(plain.substr(letters));
  const std::string hint =
      said == nullptr ? "" : likelier(said->from_base(si), *said, quantity, print);
  return Mistake{
      std::string(typed),
      fmt::format(
          "{} is not a plausible {}{} for {} ({} to {}){}{}", measure::quoted(typed),
          quantity.dimension == measure::Dimension::kCount ? "number of " : "", quantity.name,
          kinds::one_of(kind), print(least, quantity.shown_in), print(greatest, quantity.shown_in),
          hint, hint.empty() ? "; --sure records it all the same" : " --sure records it as it is")};
}

// What a value is read for.
struct Reader {
  const Kind& kind;
  const measure::Printer& print;
  const LookInto& study;
  std::span<const measure::Container> containers;
};

// Typed in another dimension, for a kind that knows what that is of its batch; none: it is not.
std::optional<Result<LoggedReading>> converted(const Quantity& quantity, std::string position,
                                               std::string_view typed, const Reader& reader) {
  const auto amount = measure::parse_amount_then(typed, {});
  if (!amount || !amount->rest.empty() || amount->amount.value.dimension == quantity.dimension) {
    return std::nullopt;
  }
  if (!reader.study) return std::nullopt;
  const auto si = reader.study()->reading_from(quantity, amount->amount.value);
  if (!si) return std::nullopt;
  if (!*si) return Mistake{std::string(typed), si->mistake().why};
  return LoggedReading{&quantity, std::move(position), {quantity.dimension, **si}};
}

Result<LoggedReading> value_of(const Quantity& quantity, std::string position,
                               std::string_view typed, const Reader& reader) {
  const auto amount = measure::parse_value(typed, quantity.dimension,
                                           bare_unit(quantity, reader.print), reader.containers);
  if (!amount) {
    if (const auto other = converted(quantity, position, typed, reader)) return *other;
    return Mistake{std::string(typed), fmt::format("{}: {}", quantity.name, amount.mistake().why)};
  }
  if (quantity.dimension == measure::Dimension::kCount &&
      std::floor(amount->value.si) != amount->value.si) {
    return Mistake{std::string(typed), fmt::format("{}: {} is no whole number, which a count is",
                                                   quantity.name, measure::quoted(typed))};
  }
  return LoggedReading{&quantity, std::move(position), amount->value, has_unit(typed)};
}

std::optional<Mistake> impossible(const LoggedReading& reading, std::string_view typed,
                                  const Reader& reader) {
  if (!reader.study) return std::nullopt;
  const auto why = reader.study()->doubts(*reading.quantity, reading.value.si);
  if (!why) return std::nullopt;
  return Mistake{std::string(typed), fmt::format("{} is {}; --sure records it all the same",
                                                 measure::quoted(typed), *why)};
}

// "with its unit, like 148F, or with its name, like temperature=148"
std::string named_examples(std::string_view number, const Kind& kind) {
  if (!kind.vocabulary.temperature.empty()) {
    return fmt::format("with its unit, like {0}F, or with its name, like {1}={0}", number,
                       kind.vocabulary.temperature);
  }
  std::string examples;
  for (const Quantity& quantity : kind.vocabulary.quantities.first(
           std::min<std::size_t>(2, kind.vocabulary.quantities.size()))) {
    examples += fmt::format("{}{}={}", examples.empty() ? "" : " or ", quantity.name, number);
  }
  return fmt::format("with its name, like {}", examples);
}

// "148F", "55%": a value that needs no name because the kind has one quantity of its sort.
std::optional<Result<LoggedReading>> unnamed_value(std::string_view word, const Reader& reader) {
  const Kind& kind = reader.kind;
  if (measure::parse_number(word)) {
    return Mistake{std::string(word), fmt::format("{} of what? Write it {}", measure::quoted(word),
                                                  named_examples(word, kind))};
  }
  const auto amount = measure::parse_amount_then(word, {});
  if (!amount || !amount->rest.empty()) return std::nullopt;
  std::string_view name;
  if (amount->amount.value.dimension == measure::Dimension::kTemperature)
    name = kind.vocabulary.temperature;
  if (amount->amount.value.dimension == measure::Dimension::kFraction)
    name = kind.vocabulary.percentage;
  if (!name.empty()) return value_of(*kinds::find_quantity(kind, name), "", word, reader);
  std::string fitting;
  for (const Quantity& quantity : kind.vocabulary.quantities) {
    if (quantity.dimension != amount->amount.value.dimension) continue;
    fitting += fmt::format("{}{}={}", fitting.empty() ? "" : " or ", quantity.name, word);
  }
  return Mistake{std::string(word),
                 fitting.empty()
                     ? fmt::format("{} has no reading that is {}", kinds::one_of(kind),
                                   measure::described(amount->amount.value.dimension))
                     : fmt::format("{} needs a name: {}", measure::quoted(word), fitting)};
}

}  // namespace

bool has_unit(std::string_view typed) {
  return measure::folded(typed).find_first_not_of("0123456789.-+/ ") != std::string::npos;
}

std::string unit_remark(bool unit_was_said, measure::Value value, measure::ShownIn shown_in,
                        const measure::Printer& print) {
  using measure::Dimension;
  const bool bare = value.dimension == Dimension::kCount ||
                    value.dimension == Dimension::kAcidity || value.dimension == Dimension::kNumber;
  if (unit_was_said || bare) return "";
  return fmt::format("no unit was said; taken as {}", print(value, shown_in));
}

const measure::Unit& bare_unit(const Quantity& quantity, const measure::Printer& print) {
  const std::string_view asked =
      print.system() == measure::UnitSystem::kUs ? quantity.shown_in.us : quantity.shown_in.metric;
  return asked.empty() ? measure::usual_unit(quantity.dimension, print.system())
                       : measure::unit(asked);
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
                              std::span<const measure::Container> containers) {
  const Reader reader{kind, print, study, containers};
  Logged logged;
  const auto take = [&](const Result<LoggedReading>& reading,
                        std::string_view typed) -> std::optional<Mistake> {
    if (!reading) return reading.mistake();
    if (!sure) {
      if (auto why = implausible(*reading, typed, kind, print)) return why;
      if (auto why = impossible(*reading, typed, reader)) return why;
    }
    for (const LoggedReading& other : logged.readings) {
      if (other.quantity == reading->quantity && other.position == reading->position) {
        return Mistake{std::string(typed),
                       fmt::format("{} gives {} a second value in one line", measure::quoted(typed),
                                   reading->position.empty() ? std::string(reading->quantity->name)
                                                             : "the " + reading->position)};
      }
    }
    logged.readings.push_back(*reading);
    return std::nullopt;
  };
  for (const std::string& word : log_phrases(words, kind, containers)) {
    const std::string plain = measure::folded(word);
    if (plain.empty()) return Mistake{word, "there is an empty word in the line"};
    const std::size_t equals = plain.find('=');
    if (const kinds::Word* judged = find_judgement(kind, plain)) {
      logged.words.push_back(judged);
    } else if (equals != std::string::npos && plain.find(' ') > equals) {
      const auto name = std::string_view(plain).substr(0, equals);
      const auto aim = read_quantity_name(name, kind);
      if (!aim) {
        const auto why = no_judgement(name, std::string_view(plain).substr(equals + 1), kind);
        return why ? *why : aim.mistake();
      }
      const std::string typed = plain.substr(equals + 1);
      if (const auto why = take(value_of(*aim->quantity, aim->position, typed, reader), typed))
        return *why;
    } else if (const kinds::Word* known = find_spoken(kind, plain)) {
      logged.words.push_back(known);
    } else if (word.find(' ') != std::string::npos) {  // as typed: folding makes two words of 64½F
      logged.note += (logged.note.empty() ? "" : " ") + word;
    } else if (const auto reading = unnamed_value(plain, reader)) {
      if (const auto why = take(*reading, plain)) return *why;
    } else {
      return not_understood(word, kind);
    }
  }
  return logged;
}

std::optional<Mistake> more_than_passed(const LoggedReading& reading,
                                        const std::optional<model::Reading>& before,
                                        const model::Batch& batch, measure::Instant at,
                                        const measure::Printer& print) {
  if (!reading.quantity->since_before || reading.value.dimension != measure::Dimension::kDuration) {
    return std::nullopt;
  }
  const measure::Instant since = before ? before->at : batch.started;
  const double passed = kinds::elapsed_days(since, std::max(at, since));
  if (reading.value.si <= passed) return std::nullopt;
  const auto words = [&](double days) {
    return print(measure::Value{reading.value.dimension, days}, reading.quantity->shown_in);
  };
  return Mistake{"", fmt::format("{} of {} is more than the {} since {}; --sure records it all the "
                                 "same",
                                 words(reading.value.si), reading.quantity->name, words(passed),
                                 before ? "the entry before" : batch.code + " began")};
}

std::string leap_remark(const kinds::Quantity& quantity, const kinds::Kind& kind, double value,
                        const model::Reading& before, measure::Instant at) {
  const double hours =
      std::max(std::chrono::duration<double, std::ratio<3600>>(at - before.at).count(), 1.0);
  const double most = quantity.hourly_change;
  if (most <= 0 || std::fabs(value - before.value) <= most * hours) return "";
  return fmt::format(
      "that is further than {} moves in that time: check the probe and the "
      "unit ('roundbook undo' takes the line back)",
      kinds::one_of(kind));
}

}  // namespace cli
