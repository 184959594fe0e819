#include "model/assessment.h"

namespace model {

std::string_view word(Urgency urgency) {
  switch (urgency) {
    case Urgency::kNow:
      return "now";
    case Urgency::kToday:
      return "today";
    case Urgency::kSoon:
      return "soon";
    case Urgency::kReady:
      return "ready";
  }
  return "today";
}

}  // namespace model
