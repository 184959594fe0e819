#pragma once

#include <string>
#include <vector>

#include "model/assessment.h"
#include "model/history.h"
#include "model/rules.h"
#include "season/balance.h"
#include "season/loop.h"
#include "season/report.h"
#include "season/span.h"

namespace season {

// A batch that was alive in the span, as it stood at the span's end.
struct ReportBatch {
  std::string label;
  model::History history;
  model::Assessment assessment;
  model::Rules rules;
  std::vector<PlotLine> lines;  // of what its kind charts, in base units
};

// All that the report is made of.
struct ReportInput {
  model::Site site;
  measure::UnitSystem units;
  measure::Instant now;
  Span span, before;
  std::vector<model::Movement> movements{}, movements_before{};
  std::vector<ReportBatch> batches{};     // all that were alive in the span
  std::vector<Compared> figures{};        // the site's large figures, beside the span before
  Balance site_balance{};                 // over the span
  std::vector<Balance> balances{};        // of the batches, each over its whole life
  std::vector<model::Told> impossible{};  // balances that cannot be
  Loop loop{};
  model::Rules rules{};  // the site's, where no batch has its own
};

// The sections in the order in which a reader asks. The same input has the same report.
Report make_report(const ReportInput& input);

}  // namespace season
