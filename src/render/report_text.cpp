#include "render/report_text.h"

#include <fmt/format.h>

#include <algorithm>

#include "render/text.h"

namespace render {
namespace {

using season::Cell;
using Role = season::Column::Role;

std::string figure_lines(const season::Section& section, std::size_t width) {
  std::size_t longest = 0, widest = 0;
  for (const season::Figure& one : section.figures) {
    longest = std::max(longest, columns(one.name));
    widest = std::max(widest, columns(one.shown));
  }
  std::string lines;
  for (const season::Figure& one : section.figures) {
    lines += "  " + padded(one.name, longest) + "  " + padded(one.shown, widest, true);
    if (one.before) lines += "  before: " + one.before_shown;
    lines += '\n';
    if (!one.basis.empty()) lines += wrapped("      " + one.basis, width, 6) + '\n';
  }
  return lines;
}

// The widths of the columns that stand beside each other.
std::vector<std::size_t> widths_of(const season::ReportTable& table) {
  std::vector<std::size_t> widths;
  for (std::size_t i = 0; i < table.columns.size(); ++i) {
    std::size_t widest = columns(table.columns[i].name);
    for (const auto& row : table.rows) widest = std::max(widest, columns(row[i].text));
    widths.push_back(table.columns[i].role == Role::kAside ? 0 : widest);
  }
  return widths;
}

std::string aligned(const season::ReportTable& table, const std::vector<std::size_t>& widths,
                    std::size_t width) {
  const auto line = [&](const auto& text_of) {
    std::string made = "   ";
    for (std::size_t i = 0; i < widths.size(); ++i) {
      if (table.columns[i].role == Role::kAside) continue;
      made += (i == 0 ? " " : "  ") +
              padded(text_of(i), widths[i], table.columns[i].role == Role::kNumber);
    }
    while (made.back() == ' ') made.pop_back();
    return made + '\n';
  };
  std::string out = line([&](std::size_t i) { return table.columns[i].name; });
  for (const auto& row : table.rows) {
    out += line([&](std::size_t i) { return row[i].text; });
    for (std::size_t i = 0; i < widths.size(); ++i) {
      if (table.columns[i].role != Role::kAside || row[i].text.empty()) continue;
      out += wrapped("        " + row[i].text, width, 8) + '\n';
    }
  }
  return out;
}

std::string paragraphs(const season::ReportTable& table, std::size_t width) {
  std::string out;
  for (const auto& row : table.rows) {
    std::string text = "    " + row[0].text + ": ";
    bool first = true;
    for (std::size_t i = 1; i < row.size(); ++i) {
      if (row[i].text.empty()) continue;
      if (!first) text += " · ";
      first = false;
      const bool named = table.columns[i].role != Role::kText && !table.columns[i].name.empty();
      text += (named ? table.columns[i].name + " " : "") + row[i].text;
    }
    out += wrapped(text, width, 6) + '\n';
  }
  return out;
}

std::string table_text(const season::ReportTable& table, std::size_t width) {
  std::string out = "\n  " + table.caption + '\n';
  const auto widths = widths_of(table);
  std::size_t across = 2;
  for (const std::size_t one : widths) across += one == 0 ? 0 : one + 2;
  return out + (across <= width ? aligned(table, widths, width) : paragraphs(table, width));
}

std::string heading(const season::Report& report) {
  std::string out = fmt::format("{}, {} ({} day{})\n", report.site, report.span, report.days,
                                report.days == 1 ? "" : "s");
  if (!report.compared.empty()) out += "before: " + report.compared + '\n';
  return out;
}

// A chapter to show how one is asked for: the first of a kind, else the first.
std::string one_chapter(const season::Report& report) {
  constexpr std::string_view kOfAKind = "kind.";
  for (const season::Section& one : report.sections) {
    if (one.key.starts_with(kOfAKind)) return one.key.substr(kOfAKind.size());
  }
  return report.sections.front().key;
}

std::string section_text(const season::Section& section, std::size_t width) {
  std::string out = '\n' + section.title + '\n';
  for (const std::string& one : section.says) out += wrapped("  " + one, width, 2) + '\n';
  out += figure_lines(section, width);
  if (section.flow) out += wrapped("  " + section.flow->says, width, 2) + '\n';
  for (const season::ReportTable& table : section.tables) {
    if (!table.appendix) out += table_text(table, width);
  }
  return out;
}

}  // namespace

std::string report_text(const season::Report& report, std::size_t width) {
  std::string out = heading(report);
  for (const season::Section& section : report.sections) out += section_text(section, width);
  return out;
}

std::string chapter_text(const season::Report& report, const season::Section& chapter,
                         std::size_t width) {
  return heading(report) + section_text(chapter, width);
}

std::string report_screen(const season::Report& report, std::size_t width) {
  constexpr std::size_t kMostFigures = 14;
  std::string out = heading(report);
  if (report.sections.empty()) return out;
  season::Section first = report.sections.front();
  // What each number rests on is its chapter's to say; "~" marks what leans on an estimate.
  for (season::Figure& one : first.figures) one.basis.clear();
  if (first.figures.size() > kMostFigures) first.figures.resize(kMostFigures);
  out += '\n' + first.title + '\n' + figure_lines(first, width);
  std::string chapters = "Chapters:";
  for (const season::Section& one : report.sections)
    chapters += " " + one.key.substr(one.key.find('.') + 1);
  out += '\n' + wrapped(chapters, width, 2) + '\n';
  const std::string year = report.from.substr(0, 4), last = one_chapter(report);
  return out +
         wrapped(fmt::format("'roundbook season {} {}' shows one, --all everything.", year, last),
                 width, 0) +
         '\n';
}

}  // namespace render
