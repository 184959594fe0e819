#pragma once

#include <string>
#include <utility>
#include <vector>

#include "cli/desk.h"
#include "render/json.h"
#include "season/balance.h"
#include "season/flows.h"
#include "season/loop.h"
#include "season/span.h"

// The season's rows, and their two machine-readable forms.
namespace cli {

struct BatchFigures {
  std::string label;
  model::History history;
  model::Assessment assessment;  // as of the span's end, or of the batch's own
};

struct Season {
  season::Span span;
  std::vector<season::Flow> flows;
  std::vector<season::Crossing> crossings;
  std::vector<BatchFigures> figures;   // of every batch that was alive in the span
  season::Span before;                 // the span just before, as long
  std::vector<season::Compared> site;  // its large figures, beside those of the span before
  season::Balance site_balance;
  std::vector<season::Balance> balances;   // of the same batches, each over its whole life
  std::vector<model::Finding> impossible;  // balances that cannot be
  season::Loop loop;
};

Season read_season(const Desk& desk, season::Span span);

render::Json json_season(const Season& season, const Desk& desk);

// File name and content: one tidy table a file, and a README that says what each column holds.
std::vector<std::pair<std::string, std::string>> csv_files(const Season& season, const Desk& desk);

}  // namespace cli
