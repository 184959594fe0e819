#include "model/stuff.h"

namespace model {

std::string_view key(Stuff stuff) {
  switch (stuff) {
    case Stuff::kMass:
      return "mass";
    case Stuff::kCarbon:
      return "carbon";
    case Stuff::kNitrogen:
      return "nitrogen";
    case Stuff::kPhosphorus:
      return "phosphorus";
    case Stuff::kPotassium:
      return "potassium";
  }
  return "";
}

std::string_view name(Stuff stuff) {
  switch (stuff) {
    case Stuff::kMass:
      return "weight";
    case Stuff::kCarbon:
      return "carbon";
    case Stuff::kNitrogen:
      return "nitrogen";
    case Stuff::kPhosphorus:
      return "phosphorus (P)";
    case Stuff::kPotassium:
      return "potassium (K)";
  }
  return "";
}

std::optional<measure::Kilograms> amount(const Load& load, Stuff stuff) {
  switch (stuff) {
    case Stuff::kMass:
      return load.mass;
    case Stuff::kCarbon:
      return load.carbon;
    case Stuff::kNitrogen:
      return load.nitrogen;
    case Stuff::kPhosphorus:
      return load.phosphorus;
    case Stuff::kPotassium:
      return load.potassium;
  }
  return std::nullopt;
}

}  // namespace model
