#pragma once

#include <string_view>
#include <vector>

// What a note tells of that can hurt someone, so that what to do is said at once. It is the one
// place that looks for a danger in what a person typed.
namespace model {

enum class Danger {
  kGasSmell,     // it smells of gas, or gas escapes
  kPersonDown,   // somebody fainted, climbed in or leans into it
  kFallen,       // somebody fell from a ladder or a roof
  kFlameOnIce,   // a flame or a heat gun at what is frozen
  kBirdsDying,   // several birds dead or dying, or bird flu feared
  kSomeDead,     // so many dead, without saying of what
  kOneDead,      // one bird dead
  kMedicine,     // birds were given a medicine or a wormer
  kBadBattery,   // one that swells, smells, smokes, leaks or grows hot
  kBareWire,     // sparks, a shock, a wire laid bare
  kSmoke,        // smoke, embers, a fire
  kBulging,      // a lid, a drum or a holder that swells
  kDeadInWater,  // a dead animal in the water
  kLidOff,       // a lid or a screen that is off, broken or gone
  kCaustic,      // lye, quicklime, bleach with what it must not meet
  kHotQuench,    // water into a hot or a closed kiln
  kFuelDrum,     // a kiln made of a drum that held fuel, or galvanized
  kCharIndoors,  // char or a kiln under a roof
  kAmmoniaAir,   // air that stings of ammonia
  kPoisonAir,    // carbon monoxide, or gas burned where people breathe
  kFlameOut,     // a gas flame that went out by itself, or was lit again
  kInEye,        // something that burns in an eye or on the skin
  kPeopleIll,    // people fell ill of what they drank or ate
  kFoulFuel,     // painted, treated or glued wood in a fire, or plastic
  kRawOnBed,     // raw manure or mess of pets on the ground, told in passing
  kSprayed,      // hay or manure off a sprayed field, or the look of its harm
};

// As the moments of schema/cautions.csv name it: "gas_smell".
std::string_view word(Danger danger);

// Whether it is meant of people wherever it was noted, on whatever batch.
bool is_everywhere(Danger danger);

// By whole words, whatever stands around them; what is denied ("no smell of gas") does not count.
// Each once, in the order of the table of signs.
std::vector<Danger> dangers_in(std::string_view note);
bool tells_of(std::string_view note, Danger danger);

// Whether what someone means to burn, by the name they gave it ("painted boards"), gives poisonous
// smoke and ash: paint, glue, treated wood, plastic, a pallet of no known mark, oleander.
bool is_foul_fuel(std::string_view name);

}  // namespace model
