#include <fmt/format.h>

#include <algorithm>
#include <ostream>

#include "cli/desk/ahead.h"
#include "cli/desk/last_words.h"
#include "cli/desk/morning.h"
#include "cli/shell/commands.h"
#include "cli/shell/write_file.h"
#include "kinds/rhythm.h"
#include "measure/text.h"
#include "render/paper.h"
#include "render/text.h"

namespace cli {
namespace {

constexpr std::string_view kSheetFile = "sheet.html";

// What is written down at a look: "temperature, °F".
std::string wanted_words(const kinds::Kind& kind, const measure::Printer& print) {
  std::string_view name = kind.vocabulary.rhythm;
  if (name.empty()) name = kind.vocabulary.daily.substr(0, kind.vocabulary.daily.find(' '));
  const kinds::Quantity* quantity = kinds::find_quantity(kind, name);
  if (quantity == nullptr) return "";
  if (quantity->dimension != measure::Dimension::kTemperature) return std::string(name);
  return fmt::format("{}, {}", name, print.system() == measure::UnitSystem::kUs ? "°F" : "°C");
}

// "bed-1, bed-2 lettuce until Fri 13 Aug": batches that wait alike together.
std::vector<std::string> held_words(const season::Morning& morning, measure::Day today) {
  std::vector<std::pair<std::string, std::string>> waits;  // what, of which batches
  for (const season::Job& job : morning.jobs) {
    if (job.slot != season::Slot::kHold || !job.lead().due) continue;
    std::string what =
        fmt::format("{} until {}", tag_of(job.lead()), measure::day_words(*job.lead().due, today));
    const auto same = std::find_if(waits.begin(), waits.end(),
                                   [&](const auto& one) { return one.first == what; });
    if (same == waits.end()) {
      waits.emplace_back(std::move(what), job.batch);
    } else {
      same->second += ", " + job.batch;
    }
  }
  std::vector<std::string> words;
  for (const auto& [what, codes] : waits) words.push_back(codes + " " + what);
  return words;
}

render::PaperSheet sheet_of(const Desk& desk, const season::Morning& morning) {
  render::PaperSheet sheet;
  sheet.site = desk.site().name;
  sheet.day = measure::full_day_words(desk.today());
  for (const season::Job& job : morning.jobs) {
    if (!season::wants_hands(job.slot) || job.batch.empty())
      continue;  // what only wants a look has its blank below
    sheet.jobs.push_back({job.batch, line_of(job.lead()), model::brief_text(job.cautions()),
                          job.slot == season::Slot::kNow});
  }
  sheet.held = held_words(morning, desk.today());
  for (const model::Batch& batch : desk.open_batches()) {
    const Studied study = desk.study(batch);
    const bool has_job =
        std::any_of(morning.jobs.begin(), morning.jobs.end(), [&](const season::Job& job) {
          return season::wants_hands(job.slot) &&
                 std::any_of(job.findings.begin(), job.findings.end(),
                             [&](const auto& one) { return one.batch == batch.code; });
        });
    sheet.blanks.push_back({batch.code, batch.place, last_words(study->history(), desk),
                            wanted_words(desk.kind(batch), desk.print()),
                            has_job || kinds::wants_look(*study)});
  }
  return sheet;
}

}  // namespace

Outcome run_sheet(Context& context, const Arguments& arguments) {
  if (arguments.words.size() > 1) {
    return measure::Mistake{"", "sheet takes one file to write, like 'sheet sheet.html'"};
  }
  const book::View view(*context.book);
  const auto desk = Desk::lay_out(context);
  if (!desk) return desk.mistake();
  if (desk->open_batches().empty())
    return measure::Mistake{"", "no batch is open: there is nothing to print"};
  const std::string file = arguments.words.empty() ? std::string(kSheetFile) : arguments.words[0];
  const auto all = desk->batches();
  if (std::any_of(all.begin(), all.end(), [&](const auto& one) { return one.code == file; })) {
    return measure::Mistake{file, fmt::format("{} is a batch; sheet is of all of them, and takes a "
                                              "file to write, like 'sheet sheet.html'",
                                              file)};
  }
  render::PaperSheet sheet = sheet_of(*desk, look_round(*desk));
  sheet.large = arguments.flag("large");
  const std::string page = render::sheet_page(sheet);
  write_or_print(context, file, page,
                 measure::counted(sheet.jobs.size(), "job") + ", " +
                     measure::counted(sheet.blanks.size(), "batch", "batches"));
  return kDone;
}

}  // namespace cli
