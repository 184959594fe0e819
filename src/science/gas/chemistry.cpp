#include "science/gas/chemistry.h"

#include <algorithm>
#include <cmath>

namespace science {

using measure::Celsius;
using measure::Fraction;
using measure::Number;
using measure::Ph;

std::optional<TitratedAcids> fos_tac(const Titration& titration) {
  if (!(titration.to_ph_5.value > 0 && titration.sample.value > 0 &&
        titration.from_ph_5_to_4_4.value >= 0)) {
    return std::nullopt;
  }
  const double scale = 20 / titration.sample.value;
  const double tac = titration.to_ph_5.value * scale * 250;
  const double fos = (titration.from_ph_5_to_4_4.value * scale * 1.66 - 0.15) * 500;
  const double acids = std::max(fos, 0.0);
  return TitratedAcids{
      .volatile_acids = MilligramsPerLitre{acids},
      .alkalinity = MilligramsPerLitre{tac},
      .ratio = Number{acids / tac},
      .below_range = fos < 0,
  };
}

std::optional<Number> acids_to_alkalinity(MilligramsPerLitre volatile_acids,
                                          MilligramsPerLitre alkalinity) {
  if (!(alkalinity.value > 0 && volatile_acids.value >= 0)) return std::nullopt;
  return Number{volatile_acids / alkalinity};
}

std::optional<FreeAmmonia> free_ammonia(MilligramsPerLitre total_ammonia_nitrogen, Ph ph,
                                        Celsius temperature) {
  constexpr double kAmmoniaOfNitrogen = (14.007 + 3 * 1.008) / 14.007;
  if (!(temperature.value >= 0 && temperature.value <= 60)) return std::nullopt;
  if (!(ph.value >= 0 && ph.value <= 14 && total_ammonia_nitrogen.value >= 0)) return std::nullopt;
  const double pka = 0.09018 + 2729.92 / (273.15 + temperature.value);
  const double share = 1 / (1 + std::pow(10, pka - ph.value));
  return FreeAmmonia{
      .share = Fraction{share},
      .nitrogen = total_ammonia_nitrogen * share,
      .ammonia = total_ammonia_nitrogen * (share * kAmmoniaOfNitrogen),
  };
}

}  // namespace science
