#include "kinds/finding.h"

#include <algorithm>

namespace kinds {

model::Finding finding(std::string_view rule, model::Urgency urgency, std::string_view source) {
  model::Finding made;
  made.rule = rule;
  made.urgency = urgency;
  made.source = source;
  return made;
}

std::string days_words(int days) {
  return fmt::format("{} day{}", days, days == 1 ? "" : "s");
}

std::string joined(const std::string& text, const std::string& more) {
  return text.empty() || more.empty() ? text + more : text + "; " + more;
}

std::string foreseen_words(const model::Forecast& forecast, model::Day today) {
  if (!forecast.likely) return "";
  std::string text = "about " + measure::day_words(*forecast.likely, today);
  if (forecast.earliest && forecast.latest && *forecast.earliest < *forecast.latest) {
    text += fmt::format(" ({} to {})", measure::day_words(*forecast.earliest, today),
                        measure::day_words(*forecast.latest, today));
  }
  return text;
}

std::string position_words(const model::Series& series) {
  return series.position.empty() ? "it" : "its " + series.position;
}

model::Progress progress(std::string_view goal, double done, double wanted, std::string says) {
  const double share = wanted > 0 ? std::clamp(done / wanted, 0.0, 1.0) : 1.0;
  return {std::string(goal), std::move(says), share};
}

}  // namespace kinds
