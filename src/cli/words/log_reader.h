#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "cli/words/log_words.h"

// What the files that read the words of a `log` line share.
namespace cli {

// What a value is read for.
struct Reader {
  const kinds::Kind& kind;
  const measure::Printer& print;
  const LookInto& study;
  std::span<const measure::Container> containers;
  const LineAround& around;
};

// Its number and unit, as the quantity takes them. A container is a unit of volume.
measure::Result<LoggedReading> value_of(const kinds::Quantity& quantity, std::string position,
                                        std::string_view typed, const Reader& reader);

// "148", "148F", "55%", "3.5ft": a value without a name, where the kind has one reading that it can
// be; a mistake that asks for the name where it has several; none: it is no value.
std::optional<measure::Result<LoggedReading>> unnamed_value(std::string_view word,
                                                            const Reader& reader);

// What a bare number is for this batch: of its kind's daily readings the one that it was last read
// of, else the first; null: the kind has none.
const kinds::Quantity* daily_of(const Reader& reader);

// What speaks against the value: that it is implausible for its quantity, or impossible or doubtful
// for that batch.
std::optional<measure::Mistake> against_value(const LoggedReading& reading, std::string_view typed,
                                              const Reader& reader);

// The same words, spoken apart or in quotes, as one word that the kind knows; null: none.
const kinds::Word* find_spoken(const kinds::Kind& kind, std::string_view plain);

// The line as it would have to be typed, with these words of it changed.
std::string retyped(const std::vector<std::string>& words, const Reader& reader);

// "1st", "2nd": no number of anything.
bool is_ordinal(std::string_view word);

// Why a word is none of the line's, and what it may be instead.
measure::Mistake not_understood(const std::string& word, const Reader& reader);
// The same of a word that says something, but not what, or when, or what belongs to `add` and
// `take`; none: it is no such word.
std::optional<measure::Mistake> asked_back(const std::string& word,
                                           const std::vector<std::string>& words,
                                           const Reader& reader);
// Bare numbers of which it cannot be told which is which; none: there is at most one.
std::optional<measure::Mistake> several_bare(const std::vector<std::string>& words,
                                             const Reader& reader);
// "10 broody": so many of them, or a bare number and a judgement.
measure::Mistake number_or_judgement(std::size_t at, const std::vector<std::string>& words,
                                     const kinds::Quantity& daily, const Reader& reader);
// "flame=green": the judgements of a sense; none where the name is no sense.
std::optional<measure::Mistake> no_judgement(std::string_view name, std::string_view typed,
                                             const kinds::Kind& kind);
measure::Mistake no_quantity(std::string_view name, const kinds::Kind& kind);

}  // namespace cli
