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
      {"whiff of eggs by the hose", "gas_smell"},
      {"soapy water, bubbles at the valve", "gas_smell"},
      {"cooked eggs for breakfast", ""},
      {"smells earthy", ""},
      {"eggy pong round the pipe joint", "gas_smell"},
      {"three layers wheezing, eyes shut, green poo", "birds_dying"},
      {"found two cold on the floor", "some_dead"},
      {"inverter smells of burning plastic", "bare_wire foul_fuel"},
      {"clippings from lawn treated with 2,4-D", "sprayed"},
      {"cat using the bed as a litter tray", "raw_on_bed"},
      {"old deck boards on the fire", "foul_fuel"},
      {"bubbles in the airlock", ""},
      {"carbon monoxide alarm went off in kitchen", "poison_air"},
      {"heater in the shed on biogas all night", "poison_air"},
      {"smoke alarm tested ok", ""},
      {"cooker works outdoors", ""},
      {"flame went out while I was in the house, lit it again", "flame_out"},
      {"mixed bleach and ammonia to clean trays, eyes burning", "in_eye caustic"},
      {"hosed with bleach and then the ammonia cleaner", "caustic"},
      {"cleaned with a little bleach", ""},
      {"splashed lime in my eye", "in_eye"},
      {"kept an eye on the ash", ""},
      {"we drank it, both ill with diarrhea", "people_ill"},
      {"kids had the runs", "people_ill"},
      {"hens have the runs", ""},
      {"lit railway sleepers and old painted door", "foul_fuel"},
      {"burning pressure treated offcuts", "foul_fuel"},
      {"painted the coop door", ""},
      {"melted connector, scorch marks", "bare_wire"},
      {"gasping, swollen purple combs", "birds_dying"},
      {"one didnt wake up", "one_dead"},
      {"spread raw chicken manure tea between rows", "raw_on_bed"},
      {"dog mess dug in", "raw_on_bed"},
      {"spread composted manure", ""},
      {"horse owner says field was sprayed for thistles", "sprayed"},
      {"tips are curling, leaves cupped", "sprayed"},
      {"sprayed the leaves with water", ""},
      {"gave corid for coccidia", "medicine"},
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
      {"three hens dead this morning", "birds_dying some_dead"},
      {"eight dead overnight", "some_dead"},
      {"bird flu suspected", "birds_dying"},
      {"no bird flu here", ""},
      {"found one dead", "one_dead"},
      {"eight hens, none dead", ""},
      {"two dead leaves", ""},
      {"gave them dewormer", "medicine"},
      {"vet says antibiotics for a week", "medicine"},
      {"battery acid spilled", "bad_battery"},
      {"battry all puffy", "bad_battery"},
      {"my kid was playing inside the tank", "person_down"},
      {"the bag looks very tight", "bulging"},
      {"kiln made of an old oil drum", "fuel_drum"},
      {"brought the hot char into the garage", "char_indoors"},
      {"char spread on the bed", ""},
      {"sparks at the inverter", "bare_wire"},
      {"Jo fell off the ladder", "fallen"},
      {"leaves fell on the roof", "fallen"},
      {"dead pigeon in the tank", "dead_in_water"},
      {"a drowned rat floating", "dead_in_water"},
      {"lid off", "lid_off"},
      {"screen is broken", "lid_off"},
      {"lid is not loose", ""},
      {"added some lye", "caustic"},
      {"bleach and vinegar in the bucket", "caustic"},
      {"threw water in the hot kiln", "hot_quench"},
      {"strong ammonia in the house", "ammonia_air"},
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

// What people call what they mean to burn: foul, or plain wood.
TEST_CASE("danger: fuel whose smoke is toxic, by the name that it was given") {
  for (const char* name : {"painted boards", "greenhouse plastic", "old pallet", "railroad ties",
                           "Plywood offcuts", "oleander", "pressure-treated posts", "pvc pipe"}) {
    CAPTURE(name);
    CHECK(model::is_foul_fuel(name));
  }
  for (const char* name : {"firewood", "pallet stamped HT", "heat-treated pallets",
                           "untreated pine", "boards without paint", "straw", ""}) {
    CAPTURE(name);
    CHECK_FALSE(model::is_foul_fuel(name));
  }
}

}  // namespace danger_test
