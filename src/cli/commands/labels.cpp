#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <ostream>

#include "cli/desk/desk.h"
#include "cli/desk/morning.h"
#include "cli/shell/commands.h"
#include "cli/shell/write_file.h"
#include "kinds/caution.h"
#include "measure/text.h"
#include "render/paper.h"
#include "render/text.h"

namespace cli {
namespace {

constexpr std::string_view kLabelsFile = "labels.html";
constexpr std::size_t kMostMaterials = 5;
constexpr std::size_t kMostCautions = 4;

// What went in, the most by weight first; what was never weighed stands last.
std::vector<std::string> materials_in(const model::History& history) {
  std::map<std::string, double> mass;
  for (const model::Movement& load : history.in)
    mass[load.material.name] += load.mass().value_or(measure::Kilograms{}).value;
  std::vector<std::pair<std::string, double>> sorted(mass.begin(), mass.end());
  std::stable_sort(sorted.begin(), sorted.end(),
                   [](const auto& a, const auto& b) { return a.second > b.second; });
  std::vector<std::string> names;
  for (const auto& [name, kilograms] : sorted) names.push_back(name);
  if (names.size() > kMostMaterials) {
    const std::size_t more = names.size() - kMostMaterials;
    names.resize(kMostMaterials);
    names.push_back(fmt::format("and {} more", more));
  }
  return names;
}

// What grows or lives there, where it was told in words of one's own: "garlic".
std::vector<std::string> told_in_words(const model::Batch& batch, const kinds::Kind& kind) {
  std::vector<std::string> told;
  for (const model::Setting& one : batch.settings) {
    const kinds::SettingSpec* spec = kinds::find_setting(kind, one.key);
    if (spec != nullptr && spec->choices == "text" && spec->told_anew) told.push_back(one.typed);
  }
  return told;
}

// Of whoever opens it or takes something out; and of what is found of it now.
std::vector<std::string> cautions_of_batch(const kinds::Study& study, const Desk& desk,
                                           const std::vector<model::Told>& told) {
  model::Movement out;
  out.at = desk.now();
  out.day = desk.today();
  out.from = study.history().batch.code;
  out.material = desk.materials().named(std::string(study.product()));
  kinds::Handled opened;
  opened.starts = true;
  if (!study.product().empty()) opened.out = &out;
  std::vector<std::string> brief;
  const auto add = [&](const model::Caution* one) {
    const std::string text(one->brief);
    if (brief.size() < kMostCautions && std::find(brief.begin(), brief.end(), text) == brief.end())
      brief.push_back(text);
  };
  for (const model::Told& finding : told) {
    for (const model::Caution* one : finding.cautions) add(one);
  }
  for (const model::Caution* one : kinds::cautions_at(opened, study)) add(one);
  return brief;
}

render::PaperLabel label_of(const model::Batch& batch, const Desk& desk) {
  const Studied study = desk.study(batch);
  const kinds::Kind& kind = desk.kind(batch);
  const std::vector<model::Told> told = study->told();
  render::PaperLabel label;
  label.code = batch.code;
  label.kind = kind.name;
  label.begun = "since " + measure::full_day_words(batch.started_day);
  label.holds = told_in_words(batch, kind);
  for (std::string& name : materials_in(study->history())) label.holds.push_back(std::move(name));
  label.minds = cautions_of_batch(*study, desk, told);
  for (const model::Told& one : told) {
    if (!one.hold || !one.due || !label.wait.empty()) continue;
    label.wait = fmt::format("not before {}: {}", measure::full_day_words(*one.due), tag_of(one));
  }
  return label;
}

}  // namespace

Outcome run_labels(Context& context, const Arguments& arguments) {
  const book::View view(*context.book);
  const auto desk = Desk::lay_out(context);
  if (!desk) return desk.mistake();
  std::vector<model::Batch> batches;
  for (const std::string& word : arguments.words) {
    if (kinds::find_kind(measure::folded(word)) != nullptr) {
      for (const model::Batch& one : desk->open_batches()) {
        if (one.kind == measure::folded(word)) batches.push_back(one);
      }
      continue;
    }
    const auto batch = desk->open_batch(word, desk->now());
    if (!batch) return batch.mistake();
    batches.push_back(*batch);
  }
  if (arguments.words.empty()) batches = desk->open_batches();
  if (batches.empty()) return measure::Mistake{"", "no batch is open: there is nothing to label"};
  std::vector<render::PaperLabel> labels;
  for (const model::Batch& one : batches) labels.push_back(label_of(one, *desk));
  const std::string page = render::label_page(desk->site().name, labels);
  const std::string file = arguments.option("html").value_or(std::string(kLabelsFile));
  write_or_print(context, file, page, measure::counted(labels.size(), "label"));
  return kDone;
}

}  // namespace cli
