#include <fmt/format.h>

#include "kinds/finding.h"
#include "kinds/larvae/says.h"
#include "kinds/larvae/study.h"
#include "measure/text.h"

namespace kinds::larvae {
namespace {

std::string moistures_words(const Yield& yield) {
  if (yield.moistures_read.empty()) return "moistures from the catalogue, none was read";
  return "moisture read of: " + measure::joined(yield.moistures_read, ", ") +
         "; the rest from the catalogue";
}

// What both bases leave open.
std::string conversion_words(const Study& study) {
  const Yield& yield = study.yield();
  std::string basis = open_words(study.history());
  if (!yield.young_weighed) basis = joined(basis, "young larvae not weighed, taken as nothing");
  if (yield.counted_harvests > 0) basis = joined(basis, "counted larvae by the last sample");
  return basis;
}

}  // namespace

std::string open_words(const model::History& history) {
  return history.batch.ended ? "" : "so far, the bin is still open";
}

std::string unweighed_words(const Yield& yield) {
  if (yield.unweighed_feeds == 0) return "";
  return fmt::format("{} of {} feeds without a weight ({})", yield.unweighed_feeds, yield.feeds,
                     measure::joined(yield.unweighed_materials, ", "));
}

std::string harvest_basis(const Yield& yield) {
  std::string basis;
  if (yield.counted_harvests > 0) basis = "counted ones by the last sample";
  if (yield.unweighed_harvests > 0) {
    basis = joined(basis, fmt::format("{} without a weight left out", yield.unweighed_harvests));
  }
  return basis;
}

std::string wet_basis(const Study& study) {
  return joined(conversion_words(study), study.yield().dried > measure::Kilograms{0}
                                             ? "some larvae were weighed dried"
                                             : "");
}

std::string dry_basis(const Study& study) {
  return joined(conversion_words(study), moistures_words(study.yield()));
}

std::string survival_basis(const Course& course, measure::Fraction survival) {
  const std::string basis = joined("larvae out over the last sample", count_words(course));
  if (survival <= measure::Fraction{1}) return basis;
  return joined(basis, "above 100 %: the sample or the count is off, nothing was corrected");
}

std::string missing_words(const science::LarvaeMetrics& metrics, const Study& study) {
  const Yield& yield = study.yield();
  std::vector<std::string> missing;
  for (const science::LarvaeInput input : metrics.missing) {
    std::string name(science::plain_name(input));
    if (input == science::LarvaeInput::Feed && yield.unweighed_feeds > 0) {
      name += ", " + unweighed_words(yield);
    }
    missing.push_back(std::move(name));
  }
  if (yield.run.larvae_out && yield.dried <= measure::Kilograms{0} && !yield.larva_at_harvest)
    missing.emplace_back("a sample at harvest, to say how many lived");
  return measure::joined(missing, "; ");
}

std::string laboratory_basis() {
  return fmt::format("nitrogen by a laboratory, {}", science::kLarvaNitrogenFactor.name);
}

std::string left_out_words(const std::vector<std::string>& unknown) {
  if (unknown.empty()) return "contents from the catalogue";
  return fmt::format("contents from the catalogue; {} left out, not known there",
                     measure::joined(unknown, ", "));
}

std::string hen_days_basis(double grams, const std::string& protein_basis) {
  return joined(fmt::format("at {} of protein a hen a day", measure::Printer::labelled(grams, "g")),
                protein_basis);
}

}  // namespace kinds::larvae
