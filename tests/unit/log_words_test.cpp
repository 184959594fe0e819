#include "cli/words/log_words.h"

#include <doctest/doctest.h>

#include <array>

#include "measure/text.h"

namespace log_words_test {

using cli::Logged;
using cli::read_log_words;
using measure::Dimension;
using measure::Printer;
using measure::UnitSystem;

namespace {

using Words = std::vector<std::string>;

// A kind of the test's own, so that the shipped kinds may change.
constexpr std::array kQuantities{
    kinds::Quantity{"temperature", "temp", Dimension::kTemperature, -30, 95, "in the heap"},
    kinds::Quantity{"air", "ambient", Dimension::kTemperature, -40, 50, "beside it"},
    kinds::Quantity{"moisture", "", Dimension::kFraction, 0, 1, "of mass"},
    kinds::Quantity{"ph", "", Dimension::kAcidity, 3, 11, "of a slurry"},
    kinds::Quantity{"height", "", Dimension::kLength, 0, 6, "of the heap", {"ft", "m"}},
    kinds::Quantity{"volume", "", Dimension::kVolume, 0, 1e6, "of the heap"},
};
constexpr std::array kDeeds{
    kinds::Word{"turned", "turn turned-over", "", "mixed through"},
    kinds::Word{"soggy", "wet", "moisture", "water runs from it"},
};
constexpr kinds::HazardAnswer kNone = kinds::HazardAnswer::none("a kind of these tests");
constexpr kinds::Hazards kHarmless{kNone, kNone, kNone, kNone, kNone, kNone, kNone, kNone, kNone};
const kinds::Kind kHeap{
    .name = "heap",
    .meaning = "a heap",
    .one = "a heap",
    .begun = "",
    .vocabulary = {kQuantities, kDeeds, {}, "core edge", "temperature", "moisture"},
    .study = nullptr,
    .hazards = kHarmless,
};
const kinds::Kind kNest{
    .name = "nest",
    .meaning = "without a temperature",
    .one = "a nest",
    .begun = "",
    .vocabulary = {std::span(kQuantities).subspan(3, 1), {}, {}},
    .study = nullptr,
    .hazards = kHarmless,
};

measure::Result<Logged> read(const Words& words, UnitSystem units = UnitSystem::kUs,
                             bool sure = false, const kinds::Kind& kind = kHeap) {
  return read_log_words(words, kind, Printer(units), sure);
}

std::string refusal(const Words& words, UnitSystem units = UnitSystem::kUs,
                    const kinds::Kind& kind = kHeap) {
  const auto logged = read(words, units, false, kind);
  REQUIRE_FALSE(logged.ok());
  CHECK(measure::is_clean_text(logged.mistake().why));
  CHECK(logged.mistake().why.size() < 500);
  return logged.mistake().why;
}

// One reading and nothing else.
cli::LoggedReading reading(const Words& words, UnitSystem units = UnitSystem::kUs) {
  const auto logged = read(words, units);
  REQUIRE_MESSAGE(logged.ok(), (logged.ok() ? "" : logged.mistake().why));
  REQUIRE(logged->readings.size() == 1);
  CHECK(logged->words.empty());
  CHECK(logged->note.empty());
  return logged->readings[0];
}

}  // namespace

TEST_CASE("a bare temperature and a bare percentage are the kind's own") {
  CHECK(reading({"131F"}).quantity->name == "temperature");
  CHECK(reading({"131F"}).value == measure::Value{Dimension::kTemperature, 55});
  CHECK(reading({"131F"}).position.empty());
  CHECK(reading({"131°F"}).value.si == 55);
  CHECK(reading({"131", "F"}).value.si == 55);  // apart, taken together
  CHECK(reading({"64.4C"}).value.si == 64.4);
  CHECK(reading({"64½C"}).value.si == 64.5);
  CHECK(reading({"-5C"}).value.si == -5);
  CHECK(reading({"55%"}).quantity->name == "moisture");
  CHECK(reading({"55%"}).value.si == doctest::Approx(0.55));
  CHECK(reading({"55", "%"}).value.si == doctest::Approx(0.55));
}

TEST_CASE("a name, a position, or both") {
  CHECK(reading({"core=131F"}).position == "core");
  CHECK(reading({"core=131F"}).quantity->name == "temperature");
  CHECK(reading({"core.moisture=55%"}).position == "core");
  CHECK(reading({"core.moisture=55%"}).quantity->name == "moisture");
  CHECK(reading({"Temp=131F"}).quantity->name == "temperature");
  CHECK(reading({"air=50F"}).value.si == 10);
  CHECK(reading({"ph=7.2"}).value.si == 7.2);
  CHECK(reading({"volume=1yd3"}).value.si == doctest::Approx(764.554857984));
  CHECK(reading({"volume=1/2 yd3"}).value.si == doctest::Approx(382.277428992));
}

TEST_CASE("a bare number takes the site's unit, or the quantity's own, and that is told") {
  CHECK(reading({"temp=131"}).value.si == 55);
  CHECK_FALSE(reading({"temp=131"}).unit_was_said);
  CHECK(reading({"temp=131F"}).unit_was_said);
  CHECK(reading({"temp=55"}, UnitSystem::kMetric).value.si == 55);
  CHECK(reading({"height=4"}).value.si == doctest::Approx(1.2192));  // 4 ft
  CHECK(reading({"height=1.2"}, UnitSystem::kMetric).value.si == 1.2);
  CHECK_FALSE(reading({"height=1 1/2"}).unit_was_said);
}

TEST_CASE("one line holds readings, deeds, judgements and a note, in any order") {
  const auto logged = read({"turned", "core=148F", "smells of earth", "wet", "edge=121F", "55%"});
  REQUIRE(logged.ok());
  CHECK(logged->readings.size() == 3);
  REQUIRE(logged->words.size() == 2);
  CHECK(logged->words[0]->word == "turned");
  CHECK(logged->words[1]->word == "soggy");
  CHECK(logged->words[1]->sense == "moisture");
  CHECK(logged->note == "smells of earth");
  CHECK(read({"a first remark", "A Second One"})->note == "a first remark A Second One");
  CHECK(read({})->readings.empty());
}

TEST_CASE("a deed in several words, in quotes, or a judgement with its sense") {
  const auto deed = [](const Words& words) {
    const auto logged = read_log_words(words, kHeap, Printer(UnitSystem::kUs), false);
    REQUIRE(logged);
    REQUIRE(logged->words.size() == 1);
    CHECK(logged->note.empty());
    return std::string(logged->words[0]->word);
  };
  CHECK(deed({"turned", "over"}) == "turned");
  CHECK(deed({"Turned over"}) == "turned");
  CHECK(deed({"148F", "turned", "over", "ph=7"}) == "turned");
  CHECK(deed({"moisture=soggy"}) == "soggy");
  CHECK_FALSE(read_log_words({"smell=soggy"}, kHeap, Printer(UnitSystem::kUs), false));
  CHECK_FALSE(read_log_words({"turned", "under"}, kHeap, Printer(UnitSystem::kUs), false));
}

TEST_CASE("a name and its value may stand apart, in either order") {
  const auto two = read({"core", "148F", "edge", "120", "F", "turned"});
  REQUIRE(two.ok());
  REQUIRE(two->readings.size() == 2);
  CHECK(two->readings[0].position == "core");
  CHECK(two->readings[1].position == "edge");
  CHECK(two->readings[1].value.si == doctest::Approx((120 - 32) / 1.8));
  CHECK(two->words.size() == 1);
  const auto turned_round = read({"148F", "core", "120F", "edge"});
  REQUIRE(turned_round.ok());
  CHECK(turned_round->readings[1].position == "edge");
  CHECK(turned_round->readings[1].value.si == doctest::Approx((120 - 32) / 1.8));
  const auto equals = read({"core", "=", "148F", "ph=", "7", "volume", "=20gal"});
  REQUIRE(equals.ok());
  CHECK(equals->readings.size() == 3);
  const auto counted =
      read({"9", "eggs", "3", "birds"}, UnitSystem::kUs, false, *kinds::find_kind("flock"));
  REQUIRE(counted.ok());
  REQUIRE(counted->readings.size() == 2);
  CHECK(counted->readings[0].quantity->name == "eggs");
  CHECK(counted->readings[0].value.si == 9);
  CHECK(counted->readings[1].value.si == 3);
  // A bare number before its name is a count; of anything else it wants its unit.
  CHECK(refusal({"7", "height"}).starts_with("'7' of what?"));
  CHECK(refusal({"ph"}) == "'ph' needs its value, like ph=...");
}

TEST_CASE("what goes in and comes out is no reading") {
  CHECK(refusal({"fed"}).find("'roundbook add'") != std::string::npos);
  CHECK(refusal({"harvested"}).find("'roundbook take'") != std::string::npos);
}

TEST_CASE("what is not understood is named, with the nearest word") {
  CHECK(refusal({"turnd"}) == "'turnd' is no reading or deed of a heap; did you mean turned?");
  CHECK(refusal({"zzzzzzz"}).find("it takes turned, soggy, temperature") != std::string::npos);
  CHECK(refusal({"moistur=5%"}) ==
        "a heap has no reading called 'moistur'; did you mean moisture?");
  CHECK(refusal({"middle.moisture=5%"}) ==
        "a heap has no probe position 'middle'; it has core edge");
  CHECK(refusal({"core.moistur=5%"}).find("did you mean moisture?") != std::string::npos);
  CHECK(refusal({"148"}) ==
        "'148' of what? Write it with its unit, like 148F, or with its name, like temperature=148");
  CHECK(refusal({"5kg"}) == "a heap has no reading that is a mass");
  CHECK(refusal({"ph=5kg"}) == "ph: '5kg' is a mass, not a pH (which takes pH)");
  CHECK(refusal({"ph="}).starts_with("ph: "));
  CHECK(refusal({"=5"}).starts_with("a heap has no reading called ''"));
  CHECK(refusal({"volume=-5gal"}) == "volume: '-5gal' is below zero, which a volume cannot be");
  CHECK(refusal({"148F"}, UnitSystem::kUs, kNest) == "a nest has no reading that is a temperature");
  CHECK(refusal({"core=148F"}, UnitSystem::kUs, kNest) ==
        "a nest has no reading called 'core'; it has ph");
  CHECK(refusal({""}) == "there is an empty word in the line");
}

TEST_CASE("a line with one bad word is refused as a whole") {
  CHECK_FALSE(read({"148F", "turned", "turnd"}).ok());
  CHECK_FALSE(read({"148F", "nan", "turned"}).ok());
}

TEST_CASE("a second value for the same thing is refused") {
  CHECK(refusal({"148F", "temp=150F"}) == "'150f' gives temperature a second value in one line");
  CHECK(refusal({"core=148F", "core.temperature=148F"}) ==
        "'148f' gives the core a second value in one line");
  CHECK(read({"core=148F", "edge=148F", "148F"}).ok());
}

TEST_CASE("an implausible value is refused with the likely meaning") {
  CHECK(refusal({"148C"}) ==
        "'148c' is not a plausible temperature for a heap (-22 °F to 203 °F); did you mean 148 °F? "
        "--sure records it as it is");
  CHECK(refusal({"temp=148"}, UnitSystem::kMetric) ==
        "'148' is not a plausible temperature for a heap (-30 °C to 95 °C); did you mean 148 °F? "
        "--sure records it as it is");
  CHECK(refusal({"ph=72"}) ==
        "'72' is not a plausible ph for a heap (pH 3 to pH 11); --sure records it anyway");
  CHECK(refusal({"130%"}).starts_with("'130%' is not a plausible moisture"));
  // A bare height is in feet here: 30 ft is no heap, 30 in would be one.
  const std::string height = refusal({"height=30"});
  CHECK(height.find("did you mean 30 cm?") != std::string::npos);
  CHECK(read({"148C"}, UnitSystem::kUs, true)->readings[0].value.si == 148);
  // The limits themselves are plausible.
  CHECK(read({"95C"}).ok());
  CHECK_FALSE(read({"95.1C"}).ok());
  CHECK(read({"-30C"}).ok());
  CHECK_FALSE(read({"-30.1C"}).ok());
  CHECK(read({"100%"}).ok());
}

TEST_CASE("rubbish is refused, not recorded") {
  using namespace std::string_literals;
  for (const std::string& word :
       {"nanF"s, "infC"s, "1e400F"s, "0x40F"s, "1,5C"s, "5gallon_s"s, "temp=nan"s, "temp=1e3"s,
        "temp=0x10"s, "temp=1,5"s, "temp="s + std::string(10'000, '9'), std::string(10'000, 'x'),
        "\xFF\xFE"s, "temp=5\x1b[2J"s, "temp=\xC2\x9B"s, "core.=5"s, ".=5"s,
        "core..moisture=5%"s}) {
    CAPTURE(measure::quoted(word));
    refusal({word});
    refusal({"148F", word});
  }
}

}  // namespace log_words_test
