#include <fmt/format.h>

#include <fstream>
#include <ostream>

#include "book/error.h"
#include "cli/commands.h"
#include "cli/desk.h"
#include "cli/measure_lines.h"
#include "cli/season_flow_lines.h"
#include "cli/season_tables.h"
#include "measure/text.h"
#include "render/json.h"
#include "render/text.h"
#include "season/flows.h"
#include "season/span.h"

namespace cli {
namespace {

std::string money(std::int64_t cents) {
  return fmt::format("{}.{:02}", cents / 100, cents % 100);
}

// "1,250 lb, and 12 gal of unknown weight": what a sum came to, and what it leaves out.
std::string amount_of(const season::Sum& sum, const measure::Printer& print) {
  std::vector<std::string> parts;
  if (sum.mass.value > 0) parts.push_back((sum.estimated ? "~" : "") + print(sum.mass));
  if (sum.unweighed_volume.value > 0) parts.push_back(print(sum.unweighed_volume) + " unweighed");
  if (sum.count > 0) parts.push_back(measure::print_number(sum.count, 0));
  if (sum.energy.value > 0) parts.push_back(print(sum.energy));
  return measure::joined(parts, " + ");
}

std::string other_end(const season::Flow& flow) {
  if (!flow.other.empty()) return (flow.side == season::Side::kIn ? "from " : "to ") + flow.other;
  if (flow.side == season::Side::kIn) return "from outside";
  return flow.purpose.empty() ? "away" : "for " + flow.purpose;
}

void print_crossings(std::ostream& out, const std::vector<season::Crossing>& rows,
                     season::Side side, std::string_view title, const Desk& desk,
                     std::size_t width) {
  render::Table table({{""}, {"", true}, {"", true}});
  season::Sum total;
  for (const season::Crossing& row : rows) {
    if (row.side != side) continue;
    const std::int64_t cents = side == season::Side::kIn ? row.sum.paid_cents : row.sum.sold_cents;
    table.add({row.material, amount_of(row.sum, desk.print()), cents > 0 ? money(cents) : ""});
    total.mass += row.sum.mass;
    total.unweighed_volume += row.sum.unweighed_volume;
    total.estimated = total.estimated || row.sum.estimated;
    total.paid_cents += row.sum.paid_cents;
    total.sold_cents += row.sum.sold_cents;
  }
  if (table.empty()) return;
  const std::int64_t cents = side == season::Side::kIn ? total.paid_cents : total.sold_cents;
  table.add({"all by weight", amount_of(total, desk.print()), cents > 0 ? money(cents) : ""});
  out << '\n' << title << '\n' << table.text(width, 2);
}

void print_text(Context& context, const Desk& desk, const Season& season) {
  std::ostream& out = context.out;
  const auto width = static_cast<std::size_t>(context.width);
  out << fmt::format("{}, {} to {} ({} days)\n", desk.site().name,
                     measure::full_day_words(season.span.from),
                     measure::full_day_words(season.span.to), season.span.days());
  out << figures_text(season, desk, width);
  print_crossings(out, season.crossings, season::Side::kIn, "brought to the site", desk, width);
  print_crossings(out, season.crossings, season::Side::kOut, "taken from the site", desk, width);
  std::string batch;
  render::Table* table = nullptr;
  std::vector<std::pair<std::string, render::Table>> tables;
  for (const season::Flow& flow : season.flows) {
    if (flow.batch != batch) {
      batch = flow.batch;
      tables.emplace_back(fmt::format("{} ({})", flow.batch, flow.kind),
                          render::Table({{""}, {""}, {"", true}, {""}}));
      table = &tables.back().second;
    }
    table->add({flow.side == season::Side::kIn ? "in" : "out", flow.material,
                amount_of(flow.sum, desk.print()), other_end(flow)});
  }
  for (const auto& [title, rows] : tables) out << '\n' << title << '\n' << rows.text(width, 2);
  for (const BatchFigures& figures : season.figures) {
    if (figures.assessment.measures.empty()) continue;
    out << fmt::format("\n{} ({}), its figures\n", figures.label, figures.history.batch.kind)
        << measure_lines(figures.assessment.measures, desk.print(), width, true);
  }
  out << balances_text(season, desk, width) << loop_text(season, desk, width);
  if (season.flows.empty()) out << "\nNothing was carried in these days.\n";
  out << "\n~ some of it by bulk density, not by a scale. unweighed: no bulk density is known, so "
         "no "
         "mass\nis summed.\n";
}

// Whole or not at all: a file that could not be written is an error that names it.
void write_file(const std::filesystem::path& path, const std::string& content) {
  std::ofstream file(path, std::ios::binary | std::ios::trunc);
  file << content;
  file.close();
  if (!file) throw book::BookError(fmt::format("{}: could not be written", path.string()));
}

}  // namespace

Outcome run_season(Context& context, const Arguments& arguments) {
  const auto desk = Desk::lay_out(context);
  if (!desk) return desk.mistake();
  if (arguments.words.size() > 1) {
    return measure::Mistake{arguments.words[1],
                            "season takes one span, like 2026 or "
                            "2026-03-01..2026-10-31"};
  }
  const auto span =
      season::parse_span(arguments.words.empty() ? "" : arguments.words[0], desk->today());
  if (!span) return span.mistake();
  const Season season = read_season(*desk, *span);
  if (const auto folder = arguments.option("csv")) {
    std::filesystem::create_directories(*folder);
    for (const auto& [name, content] : csv_files(season, *desk)) {
      write_file(std::filesystem::path(*folder) / name, content);
      context.out << (std::filesystem::path(*folder) / name).string() << '\n';
    }
    return kDone;
  }
  if (context.json) {
    context.out << render::dumped(json_season(season, *desk));
  } else {
    print_text(context, *desk, season);
  }
  return kDone;
}

}  // namespace cli
