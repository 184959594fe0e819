#pragma once

#include <string>
#include <utility>
#include <vector>

#include "cli/desk/desk.h"
#include "render/json.h"
#include "season/report_input.h"

// The season's rows, and their two machine-readable forms.
namespace cli {

struct Season {
  season::ReportInput input;
  season::Report report;
};

Season read_season(const Desk& desk, season::Span span);

render::Json json_season(const Season& season, const Desk& desk);

// What each column of the files holds.
std::string fields_text(const Season& season, const Desk& desk);
// File name and content: one tidy table a file, a README that says what each column holds, and the
// same as datapackage.json (Frictionless Data).
std::vector<std::pair<std::string, std::string>> csv_files(const Season& season, const Desk& desk);

}  // namespace cli
