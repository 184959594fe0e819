#include <doctest/doctest.h>

#include "build_history.h"
#include "cli/words/log_words.h"
#include "measure/spoken.h"
#include "measure/text.h"
#include "measure/when.h"

// What people type without having read how it is meant to be typed.
namespace typed_words_test {

using measure::with_digits;

namespace {

const measure::Printer kUs(measure::UnitSystem::kUs);

measure::Result<cli::Logged> read(std::string_view kind, const std::vector<std::string>& words,
                                  bool keeps_rest = false) {
  return cli::read_log_words(words, *kinds::find_kind(kind), kUs, false, {}, {},
                             {"roundbook log x", "", keeps_rest});
}

std::string refusal(std::string_view kind, const std::vector<std::string>& words) {
  const auto logged = read(kind, words);
  REQUIRE_FALSE(logged.ok());
  return logged.mistake().why;
}

// The one reading of a line: its name and its value in the base unit.
cli::LoggedReading reading(std::string_view kind, const std::vector<std::string>& words) {
  const auto logged = read(kind, words);
  REQUIRE_MESSAGE(logged.ok(), (logged.ok() ? "" : logged.mistake().why));
  REQUIRE(logged->readings.size() == 1);
  return logged->readings[0];
}

}  // namespace

TEST_CASE("numbers in words") {
  CHECK(with_digits("a bucket of scraps") == "1 bucket of scraps");
  CHECK(with_digits("half a bucket") == "1/2 bucket");
  CHECK(with_digits("a half bucket") == "1/2 bucket");
  CHECK(with_digits("a quarter of a barrow") == "1/4 barrow");
  CHECK(with_digits("One and a half barrows") == "1 1/2 barrows");
  CHECK(with_digits("a dozen eggs") == "1 dozen eggs");
  CHECK(with_digits("dozen eggs") == "1 dozen eggs");
  CHECK(with_digits("a couple of buckets") == "2 buckets");
  CHECK(with_digits("twenty eggs") == "20 eggs");
  CHECK(with_digits("2 buckets") == "2 buckets");
  CHECK(with_digits("halfway") == "halfway");
  CHECK(with_digits("and a half") == "and a half");
  CHECK(with_digits("") == "");
}

TEST_CASE("a short word for a container, and a full one") {
  const std::vector<measure::Container> known{{"bucket", measure::Litres{19}},
                                              {"barrow", measure::Litres{85}}};
  const auto typed = [&](std::string_view text) {
    const auto read = measure::parse_amount_then(text, known);
    return read ? read->amount.typed : "refused";
  };
  CHECK(typed("1 bkt scraps") == "1 bucket");
  CHECK(typed("2 bkts scraps") == "2 bucket");
  CHECK(typed("2 bucketfuls scraps") == "2 bucketfuls");
  CHECK(typed("a wheelbarrow leaves") == "1 barrow");
  CHECK(typed("1 bet scraps") == "refused");
  CHECK(typed("1 bw scraps") == "1 barrow");
  const std::vector<measure::Container> two{{"bucket", measure::Litres{19}},
                                            {"basket", measure::Litres{40}}};
  CHECK_FALSE(measure::parse_amount_then("1 bkt scraps", two).ok());
}

TEST_CASE("a degree sign stands behind a number, alone or before its letter") {
  CHECK(measure::parse_number("148°").ok());
  CHECK_FALSE(measure::parse_number("1°3").ok());
  CHECK_FALSE(measure::parse_value("1°3", measure::Dimension::kVolume, measure::unit("gal")).ok());
  CHECK(measure::parse_value("64 °C", measure::Dimension::kTemperature, measure::unit("°F"))
            ->value.si == 64);
}

TEST_CASE("a moment in several words") {
  CHECK(measure::goes_on_a_moment("yesterday", "7:15"));
  CHECK(measure::goes_on_a_moment("--when=mon", "7am"));
  CHECK(measure::goes_on_a_moment("2027-05-03", "07:15"));
  CHECK(measure::goes_on_a_moment("yesterday 7:15", "pm"));
  CHECK_FALSE(measure::goes_on_a_moment("yesterday", "148"));
  CHECK_FALSE(measure::goes_on_a_moment("7:15", "148F"));
  CHECK_FALSE(measure::goes_on_a_moment("yesterday 7:15", "8:15"));
  CHECK_FALSE(measure::goes_on_a_moment("yesterday", "turned"));
}

TEST_CASE("a bare number is the daily reading, where the kind has one") {
  const auto pile = reading("pile", {"148"});
  CHECK(pile.quantity->name == "temperature");
  CHECK(pile.was_guessed);
  CHECK(pile.value.si == doctest::Approx(64.44).epsilon(0.001));
  CHECK(reading("flock", {"10"}).quantity->name == "eggs");
  CHECK(reading("panel", {"412"}).quantity->name == "meter");
  CHECK(reading("tank", {"60"}).value.si == doctest::Approx(0.6));
  CHECK(refusal("tank", {"250"}).ends_with("did you mean held=250gal?"));
  CHECK(refusal("nestbox", {"4"}).starts_with("'4' of what?"));
  CHECK(refusal("pile", {"300"}).starts_with("'300' is no temperature"));
  CHECK(refusal("brew", {"3.8"}).ends_with("did you mean ph=3.8?"));
}

TEST_CASE("two bare numbers are asked back with both readings") {
  CHECK(refusal("pile", {"148", "138", "turned"}) ==
        "148 and 138: which is which? Type 'roundbook log x core=148 edge=138 turned' or "
        "'roundbook log x edge=148 core=138 turned'");
  CHECK(refusal("pile", {"148", "138", "120"}).starts_with("3 numbers without a name"));
}

TEST_CASE("an amount is the one reading that it can be") {
  CHECK(reading("tank", {"3.5ft"}).quantity->name == "depth");
  CHECK(refusal("tank", {"4in"}) == "'4in' needs a name: rain=4in or depth=4in");
  CHECK(reading("tank", {"half", "full"}).value.si == doctest::Approx(0.5));
  CHECK(reading("bed", {"23.5in"}).quantity->name == "height");
  CHECK(reading("digester", {"20", "L", "gas"}).quantity->name == "gas");
  CHECK(refusal("digester", {"20L"}).starts_with("'20l' needs a name"));
}

TEST_CASE("counts in words, and how many a judgement is of") {
  CHECK(reading("flock", {"a", "dozen", "eggs"}).value.si == 12);
  CHECK(reading("flock", {"no", "eggs"}).value.si == 0);
  CHECK(reading("flock", {"1", "egg"}).quantity->name == "eggs");
  CHECK(reading("flock", {"one", "dead"}).quantity->name == "dead");
  const auto broody = read("flock", {"12", "eggs,", "1", "broody"});
  REQUIRE(broody.ok());
  CHECK(broody->readings.size() == 1);
  CHECK(broody->words[0]->word == "broody");
  CHECK(broody->note == "1 broody");
  CHECK(refusal("flock", {"10", "broody"}).find("eggs=10 broody") != std::string::npos);
}

TEST_CASE("a vague word is asked back with the words that it can mean") {
  for (const kinds::Kind* kind : kinds::all_kinds()) {
    for (const kinds::Vague& vague : kind->vocabulary.vague) {
      CAPTURE(vague.word);
      CHECK(kinds::find_word(*kind, vague.word) == nullptr);
      for (const std::string& one : measure::split(vague.means, ' ')) {
        CAPTURE(one);
        CHECK(kinds::find_word(*kind, one) != nullptr);
        CHECK(refusal(kind->name, {std::string(vague.word)}).find("log x " + one + "'") !=
              std::string::npos);
      }
    }
    for (const std::string& daily : measure::split(kind->vocabulary.daily, ' ')) {
      CHECK((daily.empty() || kinds::find_quantity(*kind, daily) != nullptr));
    }
  }
}

TEST_CASE("the weather goes for every batch") {
  for (const kinds::Kind* kind : kinds::all_kinds()) {
    CAPTURE(kind->name);
    const auto logged = read(kind->name, {"frost"});
    REQUIRE(logged.ok());
    CHECK(logged->words[0]->sense == "weather");
  }
  // A tank's rain has its gauge.
  CHECK(refusal("tank", {"rain"}).starts_with("'rain' needs its value"));
}

TEST_CASE("what is in quotes is an entry where all of it is one") {
  CHECK(reading("pile", {"158 F"}).value.si == doctest::Approx(70));
  CHECK(reading("pile", {"core =158F"}).position == "core");
  CHECK(refusal("pile", {"turned twice"}).find("--note \"turned twice\"") != std::string::npos);
  CHECK(refusal("pile", {"still 158 F down there, as it was on Monday"}).find("half a reading") !=
        std::string::npos);
  CHECK(read("pile", {"smells of mushrooms"})->note == "smells of mushrooms");
  CHECK(read("pile", {"moved the tarp as it was wet after the rain"})->words.empty());
}

TEST_CASE("words that are no readings become a remark where that is asked for") {
  CHECK_FALSE(read("bed", {"1st", "frost", "touched"}).ok());
  const auto kept = read("bed", {"1st", "frost", "touched", "61F"}, true);
  REQUIRE(kept.ok());
  CHECK(kept->note == "1st frost touched");
  CHECK(kept->words[0]->word == "frost");
  CHECK(kept->readings.size() == 1);
  CHECK_FALSE(read("bed", {"61Q", "steamy"}, true).ok());
  CHECK(refusal("bed", {"damp", "yesterday"}) ==
        "a time goes after --when: 'roundbook log x damp --when yesterday'");
}

TEST_CASE("hens that died are not counted on the days after") {
  const auto day = [](int later) { return build::day("2027-03-01") + date::days{later}; };
  model::History hens = build::batch("flock", "coop", day(0), day(9), measure::UnitSystem::kMetric);
  build::setting(hens, "hens", "told", measure::Value{measure::Dimension::kCount, 12});
  const auto doubts = [&](double eggs) {
    const model::Rules rules;
    return kinds::study(hens, rules)
        ->doubts(*kinds::find_quantity(*kinds::find_kind("flock"), "eggs"), eggs);
  };
  CHECK_FALSE(doubts(12));
  build::reading(hens, "dead", "", build::at(day(3)), 2);
  CHECK(doubts(12));
  CHECK_FALSE(doubts(10));
  // A count taken later found only those that lived.
  build::reading(hens, "birds", "", build::at(day(5)), 11);
  CHECK_FALSE(doubts(11));
  CHECK(doubts(12));
}

}  // namespace typed_words_test
