#include <fmt/format.h>

#include "render/document.h"
#include "render/html.h"
#include "render/html_parts.h"

namespace render {
namespace {

bool is_number(const season::DocumentColumn& column) {
  return column.type == season::DocumentColumn::Type::kNumber ||
         column.type == season::DocumentColumn::Type::kWhole;
}

// Whether no row has anything in a column: it would be an empty strip of paper.
bool is_empty(const season::DocumentTable& table, std::size_t column) {
  for (const auto& row : table.rows) {
    if (!row[column].shown.empty()) return false;
  }
  return true;
}

std::string document_table_html(const season::DocumentTable& table) {
  std::string head, body;
  std::vector<std::size_t> shown;
  for (std::size_t i = 0; i < table.columns.size(); ++i) {
    if (!table.columns[i].heading.empty() && !is_empty(table, i)) shown.push_back(i);
  }
  if (table.rows.empty()) {
    if (table.none.empty()) return "";
    return fmt::format("<h3>{}</h3>\n<p>{}</p>\n", html_text(table.title), html_text(table.none));
  }
  if (shown.empty()) return "";
  for (const std::size_t i : shown) {
    head += fmt::format("<th scope=\"col\"{}>{}</th>",
                        is_number(table.columns[i]) ? " class=\"number\"" : "",
                        html_text(table.columns[i].heading));
  }
  for (const auto& row : table.rows) {
    body += "<tr>";
    for (const std::size_t i : shown) {
      body += fmt::format("<td{}>{}</td>", is_number(table.columns[i]) ? " class=\"number\"" : "",
                          html_text(row[i].shown));
    }
    body += "</tr>\n";
  }
  return fmt::format(
      "<div class=\"scroll\" tabindex=\"0\" role=\"group\" aria-label=\"{0}\">\n<table>\n"
      "<caption><span>{0}</span></caption>\n<thead><tr>{1}</tr></thead>\n<tbody>\n{2}</tbody>\n"
      "</table>\n</div>\n",
      html_text(table.title), head, body);
}

std::string part_html(const season::DocumentPart& part) {
  std::string out = fmt::format("<section{}>\n<h2>{}</h2>\n",
                                part.new_page ? " class=\"new-page\"" : "", html_text(part.title));
  for (const std::string& one : part.says) out += "<p>" + html_text(one) + "</p>\n";
  if (!part.facts.empty()) {
    out += "<dl class=\"facts\">\n";
    for (const auto& [name, value] : part.facts) {
      out += fmt::format("<div><dt>{}</dt><dd>{}</dd></div>\n", html_text(name), html_text(value));
    }
    out += "</dl>\n";
  }
  for (const season::DocumentTable& table : part.tables) out += document_table_html(table);
  return out + "</section>\n";
}

}  // namespace

std::string html(const season::Document& document) {
  std::string out = fmt::format(
      "<!doctype html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n<meta "
      "http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src "
      "'unsafe-inline'; base-uri 'none'; form-action 'none'\">\n<meta name=\"viewport\" "
      "content=\"width=device-width, initial-scale=1\">\n<meta name=\"color-scheme\" "
      "content=\"light dark\">\n<title>{0}: {1}</title>\n<style>",
      html_text(document.site), html_text(document.title));
  for (const std::string_view piece : page_assets().style) out += piece;
  out += page_margins(document.site + " · " + document.title + " · " + document.span);
  out += fmt::format(
      "</style>\n</head>\n<body class=\"record\">\n<header>\n<h1>{}: {}</h1>\n<p>{}.</p>\n<p "
      "class=\"made\">Made on {}. ~ before a weight: by volume and bulk density, not by a scale. "
      "What is not recorded is left empty.</p>\n</header>\n<main>\n",
      html_text(document.site), html_text(document.title), html_text(document.span),
      html_text(document.made));
  for (const season::DocumentPart& part : document.parts) out += part_html(part);
  return out + "</main>\n</body>\n</html>\n";
}

std::string page_margins(const std::string& words) {
  // A string of the style sheet: whatever could end it or the sheet is written by its number.
  std::string safe;
  for (const char c : words) {
    const bool awkward = c == '"' || c == '\\' || c == '<' || c == '\n' || c == '\r';
    safe += awkward ? fmt::format("\\{:06x} ", static_cast<unsigned char>(c)) : std::string(1, c);
  }
  return fmt::format(
      "@page {{ @top-left {{ content: \"{}\"; font: 8pt Georgia, serif; color: #444; }} "
      "@bottom-right {{ content: counter(page) \" of \" counter(pages); font: 8pt Georgia, serif; "
      "color: #444; }} }}\n",
      safe);
}

}  // namespace render
