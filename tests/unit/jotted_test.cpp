#include "cli/words/jotted.h"

#include <doctest/doctest.h>

#include <string>

namespace jotted_test {

using Words = std::vector<std::string>;

TEST_CASE("a jotted line is parted at blanks, and what is quoted is one word") {
  CHECK(*cli::split_words("") == Words{});
  CHECK(*cli::split_words("  \t ") == Words{});
  CHECK(*cli::split_words("heap-3  148F\tturned") == Words{"heap-3", "148F", "turned"});
  CHECK(*cli::split_words("heap-3 'steam when opened' damp") ==
        Words{"heap-3", "steam when opened", "damp"});
  CHECK(*cli::split_words("\"a b\" ''") == Words{"a b", ""});
}

TEST_CASE("quotes as a phone writes them, and its hard spaces") {
  CHECK(*cli::split_words("hens “two on the nest” 9") == Words{"hens", "two on the nest", "9"});
  CHECK(*cli::split_words("hens ‘the hens’ grain’") == Words{"hens", "the hens", "grain’"});
  CHECK(*cli::split_words("heap-3\u00a0148F") == Words{"heap-3", "148F"});
}

TEST_CASE("a quote within a word is a letter; one that is not closed is asked back") {
  CHECK(*cli::split_words("don't know") == Words{"don't", "know"});
  CHECK(*cli::split_words("'don't know'") == Words{"don't know"});
  CHECK_FALSE(cli::split_words("heap-3 'steam"));
  CHECK_FALSE(cli::split_words("heap-3 \"steam' x"));
  CHECK_FALSE(cli::split_words("heap-3 \x1b[A"));
  CHECK_FALSE(cli::split_words("heap-3 \xff"));
  CHECK(cli::split_words(std::string(8192, 'a')));
  CHECK_FALSE(cli::split_words(std::string(8193, 'a')));
}

TEST_CASE("--sure is taken out, any other option is a mistake") {
  Words words{"heap-3", "--sure", "148C"};
  CHECK(*cli::take_sure(words));
  CHECK(words == Words{"heap-3", "148C"});
  CHECK_FALSE(*cli::take_sure(words));
  words.emplace_back("--when");
  CHECK_FALSE(cli::take_sure(words));
}

TEST_CASE("a line is shown as it would be typed") {
  CHECK(cli::typed_line({"log", "heap-3", "don't know"}) ==
        "roundbook log heap-3 'don'\\''t know'");
  CHECK(cli::typed_line({"log", ""}) == "roundbook log ''");
}

}  // namespace jotted_test
