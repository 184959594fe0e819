#pragma once

#include <string_view>
#include <vector>

// What a note tells of that can hurt someone, so that what to do is said at once. It is the one
// place that looks for a danger in what a person typed.
namespace model {

enum class Danger {
  kGasSmell,    // it smells of gas, or gas escapes
  kPersonDown,  // somebody fainted, climbed in or leans into it
  kFlameOnIce,  // a flame or a heat gun at what is frozen
  kBirdsDying,  // several birds dead or dying
  kBadBattery,  // one that swells, smells, smokes or grows hot
  kSmoke,       // smoke, embers, a fire
  kBulging,     // a lid, a drum or a holder that swells
};

// As the moments of schema/cautions.csv name it: "gas_smell".
std::string_view word(Danger danger);

// By whole words, whatever stands around them; what is denied ("no smell of gas") does not count.
// Each once, in the order above.
std::vector<Danger> dangers_in(std::string_view note);

}  // namespace model
