#include "measure/dimension.h"

#include <algorithm>
#include <array>
#include <utility>

namespace measure {
namespace {

constexpr std::array<std::pair<Dimension, std::string_view>, 16> kKeys{{
    {Dimension::kTemperature, "temperature"},
    {Dimension::kTemperatureDifference, "temperature-difference"},
    {Dimension::kMass, "mass"},
    {Dimension::kVolume, "volume"},
    {Dimension::kArea, "area"},
    {Dimension::kLength, "length"},
    {Dimension::kFraction, "share"},
    {Dimension::kAcidity, "acidity"},
    {Dimension::kConductivity, "conductivity"},
    {Dimension::kPressure, "pressure"},
    {Dimension::kEnergy, "energy"},
    {Dimension::kPower, "power"},
    {Dimension::kCount, "count"},
    {Dimension::kDuration, "duration"},
    {Dimension::kDegreeDays, "degree-days"},
    {Dimension::kNumber, "number"},
}};

}  // namespace

std::string_view key(Dimension dimension) {
  return std::find_if(kKeys.begin(), kKeys.end(),
                      [&](const auto& row) { return row.first == dimension; })
      ->second;
}

std::optional<Dimension> find_dimension(std::string_view key) {
  const auto found =
      std::find_if(kKeys.begin(), kKeys.end(), [&](const auto& row) { return row.second == key; });
  return found == kKeys.end() ? std::nullopt : std::optional(found->first);
}

std::string_view base_unit(Dimension dimension) {
  switch (dimension) {
    case Dimension::kTemperature:
      return "degC";
    case Dimension::kTemperatureDifference:
      return "K";
    case Dimension::kMass:
      return "kg";
    case Dimension::kVolume:
      return "L";
    case Dimension::kArea:
      return "m2";
    case Dimension::kLength:
      return "m";
    case Dimension::kFraction:
      return "1";
    case Dimension::kAcidity:
      return "pH";
    case Dimension::kConductivity:
      return "dS/m";
    case Dimension::kPressure:
      return "kPa";
    case Dimension::kEnergy:
      return "kWh";
    case Dimension::kPower:
      return "W";
    case Dimension::kCount:
      return "1";
    case Dimension::kDuration:
      return "d";
    case Dimension::kDegreeDays:
      return "degC d";
    case Dimension::kNumber:
      return "1";
  }
  return "1";
}

std::string_view described(Dimension dimension) {
  switch (dimension) {
    case Dimension::kTemperature:
      return "a temperature";
    case Dimension::kTemperatureDifference:
      return "a temperature difference";
    case Dimension::kMass:
      return "a mass";
    case Dimension::kVolume:
      return "a volume";
    case Dimension::kArea:
      return "an area";
    case Dimension::kLength:
      return "a length";
    case Dimension::kFraction:
      return "a share in %";
    case Dimension::kAcidity:
      return "a pH";
    case Dimension::kConductivity:
      return "an electrical conductivity";
    case Dimension::kPressure:
      return "a pressure";
    case Dimension::kEnergy:
      return "an energy";
    case Dimension::kPower:
      return "a power";
    case Dimension::kCount:
      return "a count";
    case Dimension::kDuration:
      return "a number of days";
    case Dimension::kDegreeDays:
      return "degree-days";
    case Dimension::kNumber:
      return "a number";
  }
  return "a number";
}

}  // namespace measure
