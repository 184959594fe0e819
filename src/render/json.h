#pragma once

#include <optional>
#include <string>

#include "measure/printer.h"
#include "model/assessment.h"
#include "model/history.h"
#include "render/json_value.h"

// Values as JSON: stable names, instants and days as ISO 8601, numbers in base units beside the
// shown.
namespace render {

// {"quantity","si","unit","shown"}
Json json_of(const model::Measured& measured, const measure::Printer& print);
Json json_of(const model::Told& finding, const measure::Printer& print);
Json json_of(const model::Forecast& forecast);
Json json_of(const model::Progress& progress);
Json json_of(const model::Measure& measure, const measure::Printer& print);
Json json_of(const model::Movement& movement, const measure::Printer& print,
             const measure::Zone& zone);
Json json_of(const model::Batch& batch, const std::string& label, const measure::Zone& zone);
Json json_of(std::optional<measure::Day> day);

}  // namespace render
