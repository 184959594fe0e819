#pragma once

#include <string>
#include <vector>

#include "render/csv.h"
#include "render/json.h"
#include "season/report.h"

// The season report for machines.
namespace render {

Json json_of(const season::Figure& figure);
// [{"key","title","says","figures","tables","pictures"}]; a cell is a text or a figure.
Json json_of(const std::vector<season::Section>& sections);

// A row a figure.
std::string report_csv(const season::Report& report);
const std::vector<CsvColumn>& report_csv_columns();

}  // namespace render
