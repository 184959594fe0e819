#include "measure/text.h"

#include <doctest/doctest.h>

#include <array>

namespace text_test {

using namespace std::string_literals;
using measure::folded;
using measure::is_clean_text;
using measure::nearest;
using measure::quoted;

TEST_CASE("clean text is well-formed UTF-8") {
  CHECK(is_clean_text(""));
  CHECK(is_clean_text("148F turned"));
  // The first and last code points of each length (RFC 3629, section 3), noncharacters included.
  CHECK(is_clean_text("\u00A0"));
  CHECK(is_clean_text("\u07FF"));
  CHECK(is_clean_text("\u0800"));
  CHECK(is_clean_text("\uFFFF"));
  CHECK(is_clean_text("\U00010000"));
  CHECK(is_clean_text("\U0010FFFF"));
  CHECK(is_clean_text("22 °C, pH 7 — ½ Eimer, 堆肥 🌱"));
}

TEST_CASE("what RFC 3629, section 4, does not allow is not clean") {
  for (const std::string& bad : {
           "\x80"s,
           "\xBF"s,  // a continuation alone
           "\xC0\x80"s,
           "\xC1\xBF"s,  // overlong, two bytes
           "\xE0\x80\x80"s,
           "\xE0\x9F\xBF"s,  // overlong, three
           "\xF0\x80\x80\x80"s,
           "\xF0\x8F\xBF\xBF"s,  // overlong, four
           "\xED\xA0\x80"s,
           "\xED\xBF\xBF"s,  // surrogates
           "\xF4\x90\x80\x80"s,
           "\xF5\x80\x80\x80"s,  // past U+10FFFF
           "\xFE"s,
           "\xFF"s,  // never
           "\xC3"s,
           "\xE2\x82"s,
           "\xF0\x9F\x8C"s,  // cut short
           "\xC3("s,
           "\xE2\x28\xA1"s,  // no continuation
           "caf\xE9"s,       // Latin-1
       }) {
    CAPTURE(quoted(bad));
    CHECK_FALSE(is_clean_text(bad));
    CHECK_FALSE(is_clean_text("148F " + bad));
    CHECK_FALSE(is_clean_text(bad + " 148F"));
  }
}

TEST_CASE("control characters are not clean: C0, DEL and C1 (ISO/IEC 6429)") {
  for (int c = 0; c < 0x20; ++c) {
    CAPTURE(c);
    CHECK_FALSE(is_clean_text(std::string(1, static_cast<char>(c))));
  }
  CHECK_FALSE(is_clean_text("\x7F"));
  for (int c = 0x80; c < 0xA0; ++c) {
    CAPTURE(c);
    CHECK_FALSE(is_clean_text("\xC2"s + static_cast<char>(c)));
  }
  for (const char* turned : {"\u2028", "\u202A", "\u202E", "\u2066", "\u2069"}) {
    CAPTURE(turned);
    CHECK_FALSE(is_clean_text(turned));
    CHECK(measure::inert(turned) == "?");
    CHECK(measure::quoted(turned) == "'?'");
  }
  for (const char* plain : {"\u2027", "\u202F", "\u2065", "\u206A", "\u200F"}) {
    CAPTURE(plain);
    CHECK(is_clean_text(plain));
  }
  CHECK_FALSE(is_clean_text("a\tb"));
  CHECK_FALSE(is_clean_text("a\nb"));
}

TEST_CASE("folding makes one spelling of many") {
  CHECK(folded("  148  °F ") == "148 f");
  CHECK(folded("148ºf") == "148f");
  CHECK(folded("2 Yd³") == "2 yd3");
  CHECK(folded("3 m²") == "3 m2");
  CHECK(folded("1½ lb") == "1 1/2 lb");
  CHECK(folded("½") == "1/2");
  CHECK(folded("¼ ¾") == "1/4 3/4");
  CHECK(folded("5\u00A0gal") == "5 gal");
  CHECK(folded("\t a \r\n b ") == "a b");
  CHECK(folded("") == "");
  CHECK(folded("   ") == "");
  CHECK(folded("Ängste ÀÉ") == "Ängste ÀÉ");  // letters past ASCII are left as they are
  CHECK(folded("\xFF\xC2") == "\xFF\xC2");    // bytes that are no text pass through
}

TEST_CASE("splitting and joining") {
  using Words = std::vector<std::string>;
  CHECK(measure::split("", ';').empty());
  CHECK(measure::split("a", ';') == Words{"a"});
  CHECK(measure::split("a;b;;c", ';') == Words{"a", "b", "", "c"});
  CHECK(measure::split(";", ';') == Words{"", ""});
  CHECK(measure::joined(Words{}, ", ") == "");
  CHECK(measure::joined(Words{"a", "b"}, ", ") == "a, b");
}

TEST_CASE("a list in words") {
  constexpr std::array<std::string_view, 3> kWords{"F", "C", "K"};
  CHECK(measure::listed({}) == "");
  CHECK(measure::listed(std::span(kWords).first(1)) == "F");
  CHECK(measure::listed(std::span(kWords).first(2)) == "F or C");
  CHECK(measure::listed(kWords) == "F, C or K");
  CHECK(measure::listed(kWords, "and") == "F, C and K");
}

TEST_CASE("the nearest word is a slip of the hand away") {
  constexpr std::array<std::string_view, 5> kKnown{"turned", "watered", "covered", "pH", "dry"};
  CHECK(nearest("turnd", kKnown) == "turned");
  CHECK(nearest("TURNED", kKnown) == "turned");
  CHECK(nearest("watred", kKnown) == "watered");
  CHECK(nearest("dri", kKnown) == "dry");
  CHECK(nearest("ph", kKnown) == "pH");
  CHECK_FALSE(nearest("steamed", kKnown));
  CHECK_FALSE(nearest("", kKnown));
  CHECK_FALSE(nearest("x", kKnown));
  CHECK_FALSE(nearest("turned", {}));
  // "kitten" to "sitting" is three edits (Wagner & Fischer 1974's distance; the usual worked
  // example): too many for six letters, of which a third is two.
  constexpr std::array<std::string_view, 1> kSitting{"sitting"};
  CHECK_FALSE(nearest("kitten", kSitting));
  constexpr std::array<std::string_view, 1> kMitten{"mittens"};
  CHECK(nearest("kitten", kMitten) == "mittens");
  CHECK_FALSE(nearest(std::string(10'000, 'a'), kKnown));
}

TEST_CASE("of two near words the nearer is taken") {
  constexpr std::array<std::string_view, 2> kKnown{"coverings", "covered"};
  CHECK(nearest("covere", kKnown) == "covered");
}

TEST_CASE("a slip of a name is a letter off or two swapped, and no digit") {
  CHECK(measure::is_slip_of("kitchn", "kitchen"));
  CHECK(measure::is_slip_of("kitcheen", "kitchen"));
  CHECK(measure::is_slip_of("kotchen", "kitchen"));
  CHECK(measure::is_slip_of("ktichen", "Kitchen"));
  CHECK_FALSE(measure::is_slip_of("kitchen", "kitchen"));
  CHECK_FALSE(measure::is_slip_of("upper yard", "lower yard"));
  CHECK_FALSE(measure::is_slip_of("east bed", "west bed"));
  CHECK_FALSE(measure::is_slip_of("bed 1", "bed 2"));
  CHECK_FALSE(measure::is_slip_of("bed 1", "bed 11"));
}

TEST_CASE("a quoted word is short and moves no cursor") {
  CHECK(quoted("148F") == "'148F'");
  CHECK(quoted("") == "''");
  CHECK(quoted("abcdef", 3) == "'abc...'");
  CHECK(quoted("abc", 3) == "'abc'");
  CHECK(quoted("½½½½", 3) == "'½½½...'");  // characters are counted, not bytes
  CHECK(quoted("a\x1b[2Jb") == "'a?[2Jb'");
  CHECK(quoted("\x7F a\r") == "'? a?'");
  CHECK(quoted("a\xC2\x9Bm") == "'a?m'");  // CSI as a C1 control
  CHECK(quoted("caf\xE9") == "'caf?'");
  for (const std::string& bad : {std::string(10'000, 'x'), std::string(10'000, '\x1b'),
                                 std::string(10'000, '\xFF'), "\0\0"s}) {
    CHECK(is_clean_text(measure::quoted(bad)));
    CHECK(measure::quoted(bad).size() <= 45);
  }
}

}  // namespace text_test
