#include <doctest/doctest.h>

#include "build_history.h"
#include "model/statement.h"

namespace model_statement_test {

// 7 CFR 205.203(c)(2) and 21 CFR 112.54 name the processes; 21 CFR 112.60(b) asks of a third
// party's treatment for a record that it was done.
TEST_CASE("a statement of treatment names who, by what process, and when") {
  for (const char* is :
       {"Hill Farm, turned windrow 15 days, 2027-03-20", "windrow, Hill Farm, 2027-03-20",
        "2027-03-20; Hill Farm; in-vessel 3 days at 140 F; lot 7",
        "No. 7 Farm, aerated static pile, letter of 2027-03-20",
        "Bauernhof Ägidi, heated to 165 F for an hour, 2027-03-20"}) {
    CAPTURE(is);
    REQUIRE(model::read_statement(is));
    CHECK(model::read_statement(is)->when == build::day("2027-03-20"));
  }
  CHECK(model::read_statement("windrow, Hill Farm, 2027-03-20")->law == "7 CFR 205.203(c)(2)(iii)");
  CHECK(model::read_statement("vessel, Hill Farm, 2027-03-20")->law == "7 CFR 205.203(c)(2)(ii)");
  CHECK(model::read_statement("heated, Hill Farm, 2027-03-20")->law ==
        "21 CFR 112.54(a); NOP 5006");
}

TEST_CASE("anything else is no statement") {
  for (const char* is_not : {"not treated",
                             "no",
                             "unknown",
                             "?",
                             "",
                             " ",
                             "\xE2\x80\x8B",
                             "Hill Farm",
                             "windrow",
                             "2027-03-20",
                             "windrow, 2027-03-20",
                             "Hill Farm, 2027-03-20",
                             "Hill Farm, windrow",
                             "Hill Farm, not windrow, 2027-03-20",
                             "Hill Farm, windrow not done, 2027-03-20",
                             "unknown, windrow, 2027-03-20",
                             "?, windrow, 2027-03-20",
                             "\xE2\x80\x8B\xE2\x80\x8B, windrow, 2027-03-20",
                             "Hill Farm, wasn't windrow, 2027-03-20",
                             "Hill Farm, windrow?, 2027-03-20",
                             "Hill Farm, windrowing, 2027-03-20",
                             "Hill Farm, windrow, 2027-13-40",
                             "Hill Farm, stored dry, 2027-03-20",
                             "Hill Farm, windrow, never., 2027-03-20"}) {
    CAPTURE(is_not);
    CHECK_FALSE(model::read_statement(is_not));
  }
}

TEST_CASE("a material counts as treated by a statement alone") {
  model::Material compost;
  compost.group = "compost";
  compost.flags = {"treated"};
  model::state_treatment(compost, "not treated");
  CHECK_FALSE(compost.is("treated"));
  CHECK(compost.is("unproven"));
  CHECK(compost.statement.empty());
  model::state_treatment(compost, "Hill Farm, windrow, 2027-03-20");
  CHECK(compost.is("treated"));
  CHECK_FALSE(compost.is("unproven"));
  model::Material manure;
  manure.group = "manure";
  model::state_treatment(manure, "?");
  CHECK(manure.is("manure"));
}

}  // namespace model_statement_test
