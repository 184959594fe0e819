#include <doctest/doctest.h>

#include "digester_site.h"
#include "kinds/digester/safety.h"

namespace kinds_digester_safety_test {

using measure::Dimension;
using site::contains;
using site::digester;
using site::kDefaults;
using site::on;

namespace {

std::string caution(const model::History& before, std::string_view logged) {
  return kinds::digester::caution_at({.logged = {logged}}, before, kDefaults);
}

}  // namespace

TEST_CASE("digester.leak: from the first word of it until it is mended, in any stage") {
  model::History history = digester(40);
  CHECK_FALSE(site::has(history, "digester.leak"));
  build::sensed(history, "leak", "leaking", build::at(on(3)));
  build::sensed(history, "leak", "leaking", build::at(on(5)));
  CHECK(site::found(history, "digester.leak").urgency == model::Urgency::kNow);
  CHECK(contains(site::found(history, "digester.leak").words.says, "on Thu 5 Mar"));
  build::deed(history, "checked", build::at(on(6)));
  CHECK(contains(site::found(history, "digester.leak").words.why, "a check mends nothing"));
  build::deed(history, "rested", build::at(on(7)));
  CHECK(site::has(history, "digester.leak"));
  build::sensed(history, "leak", "mended", build::at(on(8)));
  CHECK_FALSE(site::has(history, "digester.leak"));
  build::sensed(history, "leak", "leaking", build::at(on(9)));
  CHECK(contains(site::found(history, "digester.leak").words.says, "on Wed 11 Mar"));
}

TEST_CASE("digester.leak: its gas is for no flame") {
  model::History history = digester(40);
  build::sensed(history, "leak", "leaking", build::at(on(3)));
  const auto objection = [&](std::string_view material, std::string purpose) {
    auto load =
        build::movement(build::material(material), {Dimension::kVolume, 10}, build::at(on(40)));
    load.purpose = std::move(purpose);
    return kinds::digester::objects_to_taking(load, history, kDefaults);
  };
  REQUIRE(objection("biogas", "cooking"));
  CHECK_FALSE(objection("biogas", "cooking")->refuses);
  CHECK_FALSE(objection("biogas", "venting"));
  CHECK_FALSE(objection("effluent", ""));
}

TEST_CASE("cautions: where hands are put to it, and of routine work after a month without") {
  model::History history = digester(60);
  for (const char* word : {"vented", "drained", "renewed", "rested", "stirred", "checked"}) {
    CAPTURE(word);
    CHECK(contains(caution(history, word), "hydrogen sulfide"));
  }
  CHECK(contains(caution(history, "cooking"), "carbon monoxide"));
  for (const char* word : {"temperature", "filled", "covered", "none", "ph", "meter"}) {
    CAPTURE(word);
    CHECK(caution(history, word).empty());
  }
  build::deed(history, "stirred", build::at(on(30)));
  build::deed(history, "vented", build::at(on(59)));
  build::reading(history, "cooking", "", build::at(on(30)), 0.1);
  CHECK(caution(history, "stirred").empty());
  CHECK(caution(history, "cooking").empty());
  CHECK(caution(history, "strong").empty());
  CHECK_FALSE(caution(history, "vented").empty());
  history.today = on(61);
  CHECK_FALSE(caution(history, "stirred").empty());
  CHECK_FALSE(caution(history, "cooking").empty());
}

TEST_CASE("cautions: under glass the house is aired first") {
  model::History history = digester(60);
  CHECK_FALSE(contains(caution(history, "vented"), "Under glass"));
  build::setting(history, "site", "glass");
  CHECK(caution(history, "vented").starts_with("Under glass gas gathers"));
  CHECK(contains(kinds::digester::caution_at({.ends = true}, history, kDefaults), "Under glass"));
  CHECK(contains(kinds::digester::caution_at({.starts = true}, history, kDefaults), "local code"));
}

}  // namespace kinds_digester_safety_test
