#include "model/danger.h"

#include <doctest/doctest.h>

#include <string>

namespace danger_test {

using model::Danger;

std::string told(const char* note) {
  std::string all;
  for (const Danger one : model::dangers_in(note))
    all += (all.empty() ? "" : " ") + std::string(model::word(one));
  return all;
}

// What people note, and what it tells of; look-alikes that harm nobody tell of nothing.
TEST_CASE("danger: what a note tells of, by the table of signs") {
  struct Row {
    const char* note;
    const char* tells;
  };
  const Row rows[] = {
      {"smell gas in the glasshouse", "gas_smell"},
      {"Smells of rotten eggs by the inlet!", "gas_smell"},
      {"gas is escaping at the hose", "gas_smell"},
      {"hissing at the valve", "gas_smell"},
      {"no smell of gas", ""},
      {"did not smell any gas", ""},
      {"gas stove lunch", ""},
      {"gas stove smells of lunch", ""},
      {"the lid does not leak", ""},
      {"read the gas meter", ""},
      {"Jo fainted beside it", "person_down"},
      {"the boy climbed in to get the fork", "person_down"},
      {"nobody climbed in", ""},
      {"temperature fell in the night", ""},
      {"used a blowlamp on the frozen line", "flame_on_ice"},
      {"thawed the pipe with a torch", "flame_on_ice"},
      {"frozen line, thawed with warm water", ""},
      {"blue flame, cooked beans", ""},
      {"three hens dead this morning", "birds_dying"},
      {"birds are dying", "birds_dying"},
      {"dead leaves cleared", ""},
      {"battery is swollen", "bad_battery"},
      {"the battery smells", "bad_battery"},
      {"new battery fitted", ""},
      {"smoke from the middle", "smoke"},
      {"embers under the ash", "smoke"},
      {"wildfire smoke all day", ""},
      {"smoke break", ""},
      {"no smoke any more", ""},
      {"lid is bulging", "bulging"},
      {"the drum has swollen", "bulging"},
      {"peas bulging in the pod", ""},
      {"", ""},
      {"smell gas, and Jo fainted", "gas_smell person_down"},
  };
  for (const Row& row : rows) {
    CAPTURE(row.note);
    CHECK(told(row.note) == row.tells);
  }
}

}  // namespace danger_test
