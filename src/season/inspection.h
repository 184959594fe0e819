#pragma once

#include <functional>
#include <map>
#include <string>
#include <vector>

#include "measure/printer.h"
#include "model/assessment.h"
#include "model/recorded.h"
#include "model/rules.h"
#include "season/document.h"
#include "season/span.h"
#include "season/trace.h"

// What an inspector is handed: the record of one batch, and of the site's season.
namespace season {

// A batch with all that was recorded of it, as of the moment of its history.
struct InspectedBatch {
  std::string label;
  const model::History* history{};
  const model::Rules* rules{};
  model::Recorded recorded;
  std::vector<model::RecordedChange> changes;  // oldest first
};

struct Inspected {
  model::Site site;
  measure::UnitSystem units;
  measure::Instant now;
  std::vector<model::Movement> movements;  // all of the site up to the moment, oldest first
  std::map<std::int64_t, std::string> carried_by;
  std::vector<model::ToolCheck> checks;
};

Document batch_record(const InspectedBatch& batch, const Inspected& site);

// The site's over a span: its batches with what their records show, what came in and from whom,
// the raw manure that went to ground with the harvests after it, what was harvested and who got it;
// then the record of each batch that keeps one of its treatment.
Document site_record(const std::vector<InspectedBatch>& batches, const Inspected& site,
                     const Span& span);

// Inside the two: the parts of a batch's record.
std::vector<DocumentPart> batch_parts(const InspectedBatch& batch, const Inspected& site);
DocumentTable loads_in(const std::vector<model::Movement>& loads, const Inspected& site);
DocumentTable loads_out(const std::vector<model::Movement>& loads, const Inspected& site);
DocumentTable tools_table(const Inspected& site);
// What was harvested of a ground (the code of its batches) from a day on, oldest first.
std::vector<const model::Movement*> harvests_after(const std::string& ground, measure::Day day,
                                                   const Inspected& site);
std::string made_words(const Inspected& site);
// A load's mass, its amount where that is not known.
DocumentCell mass_cell(const model::Movement& load, const measure::Printer& print);

}  // namespace season
