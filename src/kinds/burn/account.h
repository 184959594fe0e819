#pragma once

#include <optional>
#include <string>
#include <vector>

#include "kinds/burn/course.h"
#include "model/assessment.h"
#include "model/history.h"
#include "model/rules.h"
#include "science/soil/char.h"

// What a burn took and gave, from its movements and readings.
namespace kinds::burn {

// An amount with what it rests on, or why there is none.
template <class T>
struct Known {
  std::optional<T> value;
  std::string basis;
};

// Char carried out, by where to.
struct Carried {
  std::string to;  // batch label; empty: away
  std::string to_kind;
  std::optional<measure::Kilograms> dry;  // none: neither its dry weight nor its moisture is known
};

struct Account {
  Known<measure::Kilograms> feed_dry;
  Known<measure::Kilograms> feed_carbon;
  std::optional<measure::Fraction> feed_moisture;  // as it was lit, or as last read
  Known<measure::Kilograms> char_dry;
  Known<measure::Litres> char_volume;
  std::vector<Carried> carried;
  std::optional<measure::Kilograms> left;  // dry char still here; none: not known

  // Nothing is left here to charge or to keep moist.
  bool all_gone() const;
  // Dry char of dry feedstock; none where either is not known.
  std::optional<measure::Fraction> yield() const;
};

Account account_of(const model::History& history, const Course& course);

// The organic carbon of the dry char: the laboratory's, else the IPCC table's for what was burnt. A
// laboratory value comes without an uncertainty.
struct CharCarbon {
  std::optional<science::UncertainFraction> share;
  std::string basis;
};
CharCarbon char_carbon(const model::History& history, const Course& course);

// The laboratory's molar ratio of hydrogen to organic carbon, as read or from its mass shares.
std::optional<measure::Number> hydrogen_ratio(const model::History& history);
std::optional<science::CharGrade> grade(const model::History& history);

// The highest temperature of the kiln that can have been charring.
std::optional<measure::Celsius> peak(const model::History& history, const model::Rules& rules);

// Methane by the method and the feedstock's moisture, in g a kg of char.
struct MethaneFactor {
  science::KilogramsPerTonne value;
  science::KilogramsPerTonne least, most;  // what was measured lies between
  std::string source;
};
MethaneFactor methane_factor(const model::History& history, const model::Rules& rules,
                             std::optional<measure::Fraction> feed_moisture);

// The day on which a quantity was read last, at whatever position, or null; and that reading.
const model::DayRoll* latest_day(const model::History& history, std::string_view quantity);
std::optional<double> latest(const model::History& history, std::string_view quantity);

}  // namespace kinds::burn
