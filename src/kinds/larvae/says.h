#pragma once

#include <string>
#include <vector>

#include "kinds/larvae/feeding.h"
#include "kinds/larvae/law.h"
#include "kinds/larvae/yield.h"
#include "model/assessment.h"
#include "science/animals/larvae.h"

// The sentences of a bin: says.cpp has findings of its course and its feed, says_care.cpp those of
// its care, its records and the law, says_course.cpp what is to come of it and what is said of a
// load, says_figures.cpp what the figures rest on.
namespace kinds::larvae {

struct Foreseen;
struct Expected;

model::Words words_of(const model::Finding& finding, const Study& study);
model::Words care_words_of(const model::Finding& finding, const Study& study);

// "252 of 250 °C·d"
std::string of_constant(const Study& study);
// How the sum of warmth came about, where not all of it was read: "3 of 18 days filled in between
// readings; by the air plus 1.5 °C". Empty: every day was read in the bin.
std::string filled_words(const Study& study);
// "it was 113 °F on Tue 1 Jun, at or above 104 °F, where larvae die"
std::string ordeal_words(const Ordeal& ordeal, const Study& study);
// "45 % dark on Sat 12 Jun"
std::string dark_words(const Study& study);
// "140.5 mg": a larva in milligrams, in either system of units.
std::string larva_words(measure::Kilograms mass);
// How their number is known: "26,250 larvae from the eggs"; empty: they were counted.
std::string count_words(const Course& course);

std::string well_words(const Study& study, const std::string& stage);
std::string harvest_words(const Study& study);
// The same after an entry: the warmth, and the dark share where one was logged.
std::string harvest_briefly(const Study& study);
std::string feed_advice(const Study& study);
std::string foreseen_words(const Foreseen& foreseen, const Study& study);
std::string harvest_line();  // of the days to come
std::string expected_words(const Expected& expected, const Study& study);

// Of what is about to be fed, and of larvae that are about to go to animals.
std::string feed_words(Unfit unfit, Law law, const model::Material& material);
std::string not_by_records_words(const std::string& purpose);
std::string to_animals_words(const std::vector<std::string>& feeds, const Study& study);
// "EU law keeps", "EU and US feed rules keep".
std::string law_keeps_words(Law law);

// Grounds of figures.
std::string open_words(const model::History& history);
// "2 of 5 feeds without a weight (food scraps)"; empty: all have one.
std::string unweighed_words(const Yield& yield);
std::string harvest_basis(const Yield& yield);
std::string wet_basis(const Study& study);
std::string dry_basis(const Study& study);
std::string survival_basis(const Course& course, measure::Fraction survival);
// What the figures of conversion and survival want; empty: nothing.
std::string missing_words(const science::LarvaeMetrics& metrics, const Study& study);
std::string laboratory_basis();
std::string left_out_words(const std::vector<std::string>& unknown);
std::string hen_days_basis(double grams, const std::string& protein_basis);

}  // namespace kinds::larvae
