#pragma once

#include <optional>

#include "measure/scalar.h"

// The self-heating test: compost, moistened as needed, warms itself for days in a vacuum flask
// (Dewar vessel); how far it gets above the room says how much is left to rot.
namespace science {

// The classes of the German compost quality scheme (Rottegrad), which the trade uses elsewhere too.
enum class SelfHeatingClass {
  I,    // above 40 K: raw
  II,   // 30-40 K: active, fresh compost
  III,  // 20-30 K: active, part rotted
  IV,   // 10-20 K: moderately stable, curing
  V     // up to 10 K: very stable, finished
};

// The class of the greatest rise above the room. A rise right between two classes is put with the
// more stable one; which way the scheme itself has it is not known to us. None for NaN.
// Source: classes I, II and V as Paderborn's composting works print them for a room at 20 degC
// (https://paderkompost.de/kreislauf/kompostierung); III, IV and the rises from memory, as in
// W. F. Brinton et al. (1995), BioCycle.
std::optional<SelfHeatingClass> self_heating_class(measure::Kelvins greatest_rise);

}  // namespace science
