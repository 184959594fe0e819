#pragma once

#include <optional>
#include <set>
#include <string>
#include <vector>

#include "kinds/digester/ban.h"
#include "kinds/digester/study.h"
#include "model/finding.h"

// All sentences about a digester, written from what its study found.
namespace kinds::digester {

model::Words words_of(const model::Finding& finding, const Study& study);
// Of its feed and its slurry (says_feed.cpp), of its start and its filling (says_start.cpp), of its
// gas (says_gas.cpp), of its trends (says_trend.cpp).
model::Words feed_words(const model::Finding& finding, const Study& study);
model::Words start_words(const model::Finding& finding, const Study& study);
model::Words low_gas_words(const model::Finding& finding, const Study& study);
model::Words trend_words(const model::Finding& finding, const Study& study);

// "starting at 63.4 °F (the mean of 7 days)".
std::string well_words(const Study& study);
// "hen manure is refused: ...".
std::string ban_words(Ban ban, const std::string& material, const model::Rules& rules);
std::string leak_objection_words(const Study& study);
std::string flame_forbidden_words(const model::Told& hold);
std::string holder_words();
std::string flame_at_leak_words();
std::string gas_in_it_words(const Study& study);  // what must be made safe before it is closed

// The lines of how it goes (says_start.cpp, says_gas.cpp, says_trend.cpp), each where there is one.
std::vector<model::Progress> startup_lines(const Study& study);
std::optional<model::Progress> feed_line(const Study& study);
std::optional<model::Progress> mix_line(const Study& study);
std::optional<model::Progress> chemistry_line(const Study& study);
std::optional<model::Progress> gas_line(const Study& study);
std::optional<model::Progress> due_line(const Study& study);
std::optional<model::Progress> trend_line(const Study& study);
model::Progress warmth_line(const Study& study);

std::optional<model::Forecast> gas_forecast(const Study& study);
std::vector<model::Forecast> limit_forecasts(const Study& study);
std::vector<model::Forecast> warmth_forecasts(const Study& study);

// "the mean of 7 days", "the mean of 5 of the last 7 days".
std::string window_words(const Study& study);
// "falling 0.6 °F a day", "steady"; in K a day.
bool is_steady(double a_day, const measure::Printer& print);
std::string change_words(double a_day, const measure::Printer& print);
// Slurry and its water in gallons or litres however much it is, as a digester's size is told.
std::string slurry_words(measure::Litres volume, const measure::Printer& print);
inline constexpr measure::ShownIn kSlurryShown{"gal", "L"};
// Standard volume in the site's units: "9.2 ft3", "260 L"; of an estimate, to two figures ("about"
// is for the sentence to say).
std::string gas_words(science::NormalLitres gas, const measure::Printer& print);
// Where gas is measured for comparing, in the site's degrees: "32 °F".
std::string freezing_words(const measure::Printer& print);
std::string about_gas_words(science::NormalLitres gas, const measure::Printer& print);
std::string loading_words(double loading);
// With the digits that tell it from that limit.
std::string loading_words(double loading, double limit);
// "1.6 gal of cow manure", "1.6 gal": that share of a day's feed in the unit it is carried in,
// rounded down to two figures so that it is no more.
std::string daily_words(const Feed& feed, double share, const measure::Printer& print);
std::string daily_amount(const Feed& feed, double share, const measure::Printer& print);
// "24.3:1"
std::string ratio_words(measure::Number ratio);
// "without straw, not known of it"; empty where nothing is left out.
std::string without_words(const std::set<std::string>& names);
// The step of the last of two figures of a number above zero: 0.1 of 1.63, 10 of 163.
double two_figure_step(double number);
// The first of them that a morning's line has room for.
std::string fitting(std::initializer_list<std::string> lines);

}  // namespace kinds::digester
