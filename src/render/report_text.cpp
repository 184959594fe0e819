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

}  // namespace

std::string report_text(const season::Report& report, std::size_t width) {
  std::string out = fmt::format("{}, {} ({} day{})\n", report.site, report.span, report.days,
                                report.days == 1 ? "" : "s");
  if (!report.compared.empty()) out += "before: " + report.compared + '\n';
  for (const season::Section& section : report.sections) {
    out += '\n' + section.title + '\n';
    for (const std::string& one : section.says) out += wrapped("  " + one, width, 2) + '\n';
    out += figure_lines(section, width);
    if (section.flow) out += wrapped("  " + section.flow->says, width, 2) + '\n';
    for (const season::ReportTable& table : section.tables) {
      if (!table.appendix) out += table_text(table, width);
    }
  }
  return out;
}

}  // namespace render
