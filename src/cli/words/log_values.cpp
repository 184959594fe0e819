#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "cli/words/log_phrases.h"
#include "cli/words/log_reader.h"
#include "kinds/finding.h"
#include "measure/text.h"

namespace cli {
namespace {

using kinds::Kind;
using kinds::Quantity;
using measure::Mistake;
using measure::Result;

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
  // A pressure was read off a gauge with that unit on it, and 1013 mbar is the air's own: another
  // unit would make a harmless one of it.
  if (said.dimension == measure::Dimension::kPressure) return "";
  const measure::Unit& usual = bare_unit(quantity, print);
  if (fits(usual)) return asked(usual);
  if (said.dimension == measure::Dimension::kFraction) return "";  // no slip for millionths
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
      fmt::format("{} is not a plausible {}{} for {} ({} to {}){}{}", measure::quoted(typed),
                  quantity.dimension == measure::Dimension::kCount ? "number of " : "",
                  quantity.name, kinds::one_of(kind), print(least, quantity.shown_in),
                  print(greatest, quantity.shown_in), hint,
                  hint.empty() ? "; --sure records it anyway" : " --sure records it as it is")};
}

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

std::optional<Mistake> impossible(const LoggedReading& reading, std::string_view typed,
                                  const Reader& reader) {
  if (!reader.study) return std::nullopt;
  const auto why = reader.study()->doubts(*reading.quantity, reading.value.si);
  if (!why) return std::nullopt;
  return Mistake{std::string(typed),
                 fmt::format("{} is {}; --sure records it anyway", measure::quoted(typed), *why)};
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

// The readings of that dimension that such a value can be.
std::vector<const Quantity*> fitting(const Kind& kind, measure::Value value) {
  std::vector<const Quantity*> found;
  for (const Quantity& quantity : kind.vocabulary.quantities) {
    if (quantity.dimension == value.dimension && value.si >= quantity.least &&
        value.si <= quantity.greatest) {
      found.push_back(&quantity);
    }
  }
  return found;
}

// Whether a bare number may as well be a pH: the one reading that is always said without a unit.
const Quantity* also_acidity(std::string_view word, const Quantity& daily, const Reader& reader) {
  for (const Quantity& quantity : reader.kind.vocabulary.quantities) {
    if (quantity.dimension != measure::Dimension::kAcidity || &quantity == &daily) continue;
    const double number = *measure::parse_number(word);
    if (number >= quantity.least && number <= quantity.greatest) return &quantity;
  }
  return nullptr;
}

// "250 is no level a tank can have; did you mean held=250gal?"
Mistake no_daily(std::string_view word, const Quantity& daily, const Reader& reader) {
  std::string other;
  for (const Quantity& quantity : reader.kind.vocabulary.quantities) {
    const measure::Unit& usual = bare_unit(quantity, reader.print);
    const double si = usual.to_base(*measure::parse_number(word));
    if (&quantity == &daily || si < quantity.least || si > quantity.greatest) continue;
    if (daily.dimension == measure::Dimension::kTemperature) break;  // no volume is meant by 480
    const bool has_unit = usual.dimension == quantity.dimension &&
                          quantity.dimension != measure::Dimension::kNumber &&
                          quantity.dimension != measure::Dimension::kCount &&
                          quantity.dimension != measure::Dimension::kAcidity;
    other = fmt::format("{}={}{}", quantity.name, word, has_unit ? usual.symbol : "");
    break;
  }
  return {std::string(word),
          fmt::format("{} is no {} that {} can have ({} to {}); {}", measure::quoted(word),
                      daily.name, kinds::one_of(reader.kind),
                      reader.print({daily.dimension, daily.least}, daily.shown_in),
                      reader.print({daily.dimension, daily.greatest}, daily.shown_in),
                      other.empty() ? "write it " + named_examples(word, reader.kind)
                                    : fmt::format("did you mean {}?", other))};
}

Result<LoggedReading> bare_value(std::string_view word, const Reader& reader) {
  const Quantity* daily = daily_of(reader);
  if (daily == nullptr) {
    return Mistake{std::string(word), fmt::format("{} of what? Write it {}", measure::quoted(word),
                                                  named_examples(word, reader.kind))};
  }
  auto value = value_of(*daily, "", word, reader);
  if (!value) return value;
  const bool fits = value->value.si >= daily->least && value->value.si <= daily->greatest;
  const Quantity* other = also_acidity(word, *daily, reader);
  if (other != nullptr) {
    return Mistake{std::string(word), fits ? fmt::format("{0} can be {1}={0} or {2}={0}: say which",
                                                         word, daily->name, other->name)
                                           : fmt::format("{0} is no {1}; did you mean {2}={0}?",
                                                         word, daily->name, other->name)};
  }
  if (!fits) return no_daily(word, *daily, reader);
  LoggedReading read = *value;
  read.was_guessed = true;
  return read;
}

// "20mg/m3" of a gas in air; none: it is not typed so, or the quantity is no such gas.
std::optional<double> by_weight_in_air(const Quantity& quantity, std::string_view typed) {
  constexpr std::string_view kUnit = "mg/m3";
  const std::string plain = measure::folded(typed);
  if (quantity.milligrams_a_cubic_metre <= 0 || !plain.ends_with(kUnit)) return std::nullopt;
  const auto number = measure::parse_number(
      measure::folded(std::string_view(plain).substr(0, plain.size() - kUnit.size())));
  if (!number) return std::nullopt;
  return *number * quantity.milligrams_a_cubic_metre;
}

}  // namespace

const Quantity* daily_of(const Reader& reader) {
  const Kind& kind = reader.kind;
  if (kind.vocabulary.daily.empty()) return nullptr;
  const std::vector<std::string> names = measure::split(kind.vocabulary.daily, ' ');
  const Quantity* daily = kinds::find_quantity(kind, names.front());
  if (names.size() == 1 || !reader.study) return daily;
  const Studied study = reader.study();
  std::optional<model::Instant> last;
  for (const std::string& name : names) {
    const model::Series* series = study->history().find(name);
    if (series == nullptr || !series->last || (last && *last >= series->last->at)) continue;
    last = series->last->at;
    daily = kinds::find_quantity(kind, name);
  }
  return daily;
}

Result<LoggedReading> value_of(const Quantity& quantity, std::string position,
                               std::string_view typed, const Reader& reader) {
  if (const auto si = by_weight_in_air(quantity, typed))
    return LoggedReading{&quantity, std::move(position), {quantity.dimension, *si}, true};
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

std::optional<Mistake> against_value(const LoggedReading& reading, std::string_view typed,
                                     const Reader& reader) {
  if (auto why = implausible(reading, typed, reader.kind, reader.print)) return why;
  return impossible(reading, typed, reader);
}

std::optional<Result<LoggedReading>> unnamed_value(std::string_view word, const Reader& reader) {
  const Kind& kind = reader.kind;
  if (measure::parse_number(word)) return bare_value(word, reader);
  const auto amount = measure::parse_amount_then(word, reader.containers);
  if (!amount || !amount->rest.empty()) return std::nullopt;
  const measure::Value value = amount->amount.value;
  std::string_view name;
  if (value.dimension == measure::Dimension::kTemperature) name = kind.vocabulary.temperature;
  if (value.dimension == measure::Dimension::kFraction) name = kind.vocabulary.percentage;
  if (!name.empty()) return value_of(*kinds::find_quantity(kind, name), "", word, reader);
  const auto guessed = [&](const Quantity& quantity) {
    auto read = value_of(quantity, "", word, reader);
    if (!read) return read;
    LoggedReading reading = *read;
    reading.was_guessed = true;
    return Result<LoggedReading>(reading);
  };
  const std::vector<const Quantity*> can_be = fitting(kind, value);
  if (can_be.size() == 1) return guessed(*can_be.front());
  const Quantity* daily = daily_of(reader);
  if (std::find(can_be.begin(), can_be.end(), daily) != can_be.end()) return guessed(*daily);
  std::string names;
  for (const Quantity& quantity : kind.vocabulary.quantities) {
    if (quantity.dimension != value.dimension) continue;
    names += fmt::format("{}{}={}", names.empty() ? "" : " or ", quantity.name, word);
  }
  return Mistake{std::string(word),
                 names.empty() ? fmt::format("{} has no reading that is {}", kinds::one_of(kind),
                                             measure::described(value.dimension))
                               : fmt::format("{} needs a name: {}", measure::quoted(word), names)};
}

bool has_unit(std::string_view typed) {
  return measure::folded(typed).find_first_not_of("0123456789.-+/ ") != std::string::npos;
}

std::string taken_remark(const LoggedReading& reading, const measure::Printer& print) {
  if (!reading.was_guessed) {
    return unit_remark(reading.unit_was_said, reading.value, reading.quantity->shown_in, print);
  }
  // The value itself stands in the line before, with its name unless it is the temperature.
  if (reading.value.dimension != measure::Dimension::kTemperature) {
    return fmt::format("taken as {}", reading.quantity->name);
  }
  return fmt::format("taken as {} {}", reading.quantity->name,
                     print(reading.value, reading.quantity->shown_in));
}

std::string unit_remark(bool unit_was_said, measure::Value value, measure::ShownIn shown_in,
                        const measure::Printer& print) {
  using measure::Dimension;
  const bool bare = value.dimension == Dimension::kCount ||
                    value.dimension == Dimension::kAcidity || value.dimension == Dimension::kNumber;
  if (unit_was_said || bare) return "";
  return fmt::format("no unit given; taken as {}", print(value, shown_in));
}

const measure::Unit& bare_unit(const Quantity& quantity, const measure::Printer& print) {
  const std::string_view asked =
      print.system() == measure::UnitSystem::kUs ? quantity.shown_in.us : quantity.shown_in.metric;
  return asked.empty() ? measure::usual_unit(quantity.dimension, print.system())
                       : measure::unit(asked);
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
  return Mistake{"", fmt::format("{} of {} is more than the {} since {}; --sure records it anyway",
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
      "that is a bigger jump than {} makes in that time: check the probe and the "
      "unit ('roundbook undo' takes the line back)",
      kinds::one_of(kind));
}

}  // namespace cli
