#include "render/html.h"

#include <fmt/format.h>

#include <algorithm>

#include "render/html_parts.h"

namespace render {
namespace {

using Role = season::Column::Role;

// The shown text of a figure with the value itself behind it, for whoever reads the page by
// program.
std::string figure_html(const season::Figure& one) {
  return fmt::format(R"(<data value="{}" data-key="{}" data-of="{}">{}</data>)", one.si,
                     html_text(one.key), html_text(one.of), html_text(one.shown));
}

std::string cell_html(const season::Cell& cell) {
  return cell.figure ? figure_html(*cell.figure) : html_text(cell.text);
}

std::string figures_html(const std::vector<season::Figure>& figures) {
  if (figures.empty()) return "";
  std::string out = "<dl class=\"figures\">\n";
  for (const season::Figure& one : figures) {
    const std::string name = one.of.empty() || one.name.find(one.of) != std::string::npos
                                 ? one.name
                                 : one.of + ": " + one.name;
    out += fmt::format("<div><dt>{}</dt><dd class=\"value\">{}</dd>", html_text(name),
                       figure_html(one));
    if (one.before) out += "<dd>before: " + html_text(one.before_shown) + "</dd>";
    if (!one.basis.empty()) out += "<dd class=\"basis\">" + html_text(one.basis) + "</dd>";
    out += "</div>\n";
  }
  return out + "</dl>\n";
}

std::string_view class_of(const season::Column& column) {
  switch (column.role) {
    case Role::kText:
      return "";
    case Role::kNumber:
      return " class=\"number\"";
    case Role::kAside:
      return " class=\"aside\"";
  }
  return "";
}

std::string table_html(const season::ReportTable& table) {
  // A table that is wider than a phone scrolls by itself, by keyboard too.
  std::string out = fmt::format(
      "<div class=\"scroll\" tabindex=\"0\" role=\"group\" aria-label=\"{0}\">\n<table "
      "class=\"of-{1}\">\n<caption><span>{0}</span></caption>\n<thead><tr>",
      html_text(table.caption), html_text(table.key));
  for (const season::Column& column : table.columns) {
    out += column.name.empty() ? "<td></td>"
                               : fmt::format("<th scope=\"col\"{}>{}</th>", class_of(column),
                                             html_text(column.name));
  }
  out += "</tr></thead>\n<tbody>\n";
  for (std::size_t r = 0; r < table.rows.size(); ++r) {
    const bool total = table.totalled && r + 1 == table.rows.size();
    out += total ? "<tr class=\"total\">" : "<tr>";
    for (std::size_t i = 0; i < table.columns.size(); ++i) {
      const std::string cell = cell_html(table.rows[r][i]);
      out += i == 0 ? fmt::format("<th scope=\"row\">{}</th>", cell)
                    : fmt::format("<td{}>{}</td>", class_of(table.columns[i]), cell);
    }
    out += "</tr>\n";
  }
  return out + "</tbody>\n</table>\n</div>\n";
}

// A picture, its words beside it, and the place where a script may draw it anew.
std::string picture_html(const std::string& id, const std::string& title, const std::string& svg,
                         const std::string& says) {
  return fmt::format(
      "<figure id=\"{}\">\n<h4>{}</h4>\n<div class=\"live\"></div>\n<div "
      "class=\"still\">{}</div>\n<figcaption>{}</figcaption>\n</figure>\n",
      id, html_text(title), svg, html_text(says));
}

std::string section_html(const season::Section& section) {
  const std::string key = html_text(section.key);
  std::string out = fmt::format(
      "<section id=\"{0}\" aria-labelledby=\"{0}-title\">\n<h3 "
      "id=\"{0}-title\">{1}</h3>\n",
      key, html_text(section.title));
  for (const std::string& one : section.says) out += "<p>" + html_text(one) + "</p>\n";
  out += figures_html(section.figures);
  if (section.flow) out += "<p>" + html_text(section.flow->says) + "</p>\n";
  if (!section.bars.empty()) {
    out += "<div class=\"multiples\">\n";
    for (std::size_t i = 0; i < section.bars.size(); ++i) {
      const season::Bars& bars = section.bars[i];
      out += picture_html(bars_id(i),
                          bars.of + (bars.unit.empty() ? " by month" : " by month, " + bars.unit),
                          bars_svg(bars), bars.says);
    }
    out += "</div>\n";
  }
  for (std::size_t i = 0; i < section.plots.size(); ++i) {
    const season::TimePlot& plot = section.plots[i];
    out += picture_html(html_text(plot_id(section, i)), plot.title, plot_svg(plot), plot.says);
  }
  for (const season::ReportTable& table : section.tables) out += table_html(table);
  return out + "</section>\n";
}

std::string head_html(const season::Report& report) {
  const PageAssets& assets = page_assets();
  // dygraphs sets styles on what it draws, which a hash of the sheet would forbid; scripts stay
  // hashed.
  std::string out = fmt::format(
      "<!doctype html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n<meta "
      "http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src "
      "'unsafe-inline'; script-src 'sha256-{}'; base-uri 'none'; form-action 'none'\">\n<meta "
      "name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n<meta "
      "name=\"color-scheme\" content=\"light dark\">\n<title>{}: season report, {} to "
      "{}</title>\n<style>",
      assets.script_hash, html_text(report.site), report.from, report.to);
  for (const std::string_view piece : assets.style) out += piece;
  out += page_margins(report.site + " · " + report.span);
  return out + "</style>\n</head>\n";
}

// The picture of the loop, wherever its section stands.
const season::FlowPicture* loop_of(const season::Report& report) {
  for (const season::Section& one : report.sections) {
    if (one.flow) return &*one.flow;
  }
  return nullptr;
}

std::string front_html(const season::Report& report) {
  std::string out;
  for (const std::string& one : report.front.says) {
    out += "<p class=\"first\">" + html_text(one) + "</p>\n";
  }
  if (!report.front.figures.empty()) {
    out += "<dl class=\"large\">\n";
    for (const auto& one : report.front.figures) {
      out += fmt::format("<div><dt>{}</dt><dd class=\"value\">{}</dd>", html_text(one.name),
                         html_text(one.shown));
      if (!one.before.empty()) out += "<dd>before: " + html_text(one.before) + "</dd>";
      out += "</div>\n";
    }
    out += "</dl>\n";
  }
  if (const season::FlowPicture* flow = loop_of(report)) {
    out += picture_html("flow", "What came, what it became, and what left", flow_svg(*flow),
                        "By weight, without water. A band is as wide as its weight; what goes "
                        "round returns below.");
  }
  return out;
}

// The plot that says most of those that the chapter opens: of the most readings.
const season::TimePlot* fullest_plot(const season::Chapter& chapter, const season::Report& report) {
  const season::TimePlot* fullest = nullptr;
  std::size_t most = 0;
  for (const season::Section& section : report.sections) {
    if (std::ranges::find(chapter.sections, section.key) == chapter.sections.end()) continue;
    for (const season::TimePlot& plot : section.plots) {
      std::size_t points = 0;
      for (const season::PlotLine& line : plot.lines) points += line.points.size();
      if (points > most) fullest = &plot;
      most = std::max(most, points);
    }
  }
  return fullest;
}

// Its pictures that need no script.
std::string chapter_pictures(const season::Chapter& chapter, const season::Report& report) {
  std::string out;
  const std::string id = chapter.key + "-picture-";
  if (!chapter.grid && chapter.beside.empty()) {
    if (const season::TimePlot* plot = fullest_plot(chapter, report)) {
      out += picture_html(id + "plot", plot->title, plot_svg(*plot), plot->says);
    }
  }
  if (chapter.grid) {
    out +=
        picture_html(id + "grid", chapter.grid->title, grid_svg(*chapter.grid), chapter.grid->says);
  }
  for (std::size_t i = 0; i < chapter.beside.size(); ++i) {
    const season::Beside& one = chapter.beside[i];
    out += picture_html(id + std::to_string(i), one.title, beside_svg(one), one.says);
  }
  if (chapter.lives) {
    out += picture_html(id + "lives", chapter.lives->title, lives_svg(*chapter.lives),
                        chapter.lives->says);
  }
  return out;
}

std::string chapter_html(const season::Chapter& chapter, const season::Report& report, bool all) {
  const std::string key = html_text(chapter.key);
  std::string out = fmt::format(
      "<section class=\"chapter\" id=\"{0}\" aria-labelledby=\"{0}-title\">\n<h2 "
      "id=\"{0}-title\">{1}</h2>\n<p>{2}</p>\n",
      key, html_text(chapter.title), html_text(chapter.says));
  out += chapter_pictures(chapter, report);
  out += fmt::format("<details{}>\n<summary>Figures by batch, and what they rest on</summary>\n",
                     all ? " open" : "");
  for (const std::string& wanted : chapter.sections) {
    for (const season::Section& one : report.sections) {
      if (one.key == wanted) out += section_html(one);
    }
  }
  return out + "</details>\n</section>\n";
}

}  // namespace

std::string html_text(std::string_view text) {
  std::string out;
  out.reserve(text.size());
  for (const char c : text) {
    switch (c) {
      case '&':
        out += "&amp;";
        break;
      case '<':
        out += "&lt;";
        break;
      case '>':
        out += "&gt;";
        break;
      case '"':
        out += "&quot;";
        break;
      case '\'':
        out += "&#39;";
        break;
      default:
        out += c;
    }
  }
  return out;
}

std::string html(const season::Report& report, bool all) {
  const PageAssets& assets = page_assets();
  std::string out = head_html(report);
  out += fmt::format("<body>\n<header>\n<h1>{}: the season</h1>\n<p>{} ({} day{}).",
                     html_text(report.site), html_text(report.span), report.days,
                     report.days == 1 ? "" : "s");
  if (!report.compared.empty()) {
    out += fmt::format(" Compared with {}, called before.", html_text(report.compared));
  }
  out += "</p>\n</header>\n<main>\n" + front_html(report);
  out += "<nav aria-label=\"Chapters\">\n<ul>\n";
  for (const season::Chapter& one : report.front.chapters) {
    out +=
        fmt::format("<li><a href=\"#{}\">{}</a></li>\n", html_text(one.key), html_text(one.title));
  }
  out += "</ul>\n</nav>\n";
  for (const season::Chapter& one : report.front.chapters) out += chapter_html(one, report, all);
  out += fmt::format(
      "<p class=\"made\">Made with roundbook on {} by the site's clock ({}). A number led by ~ is "
      "an estimate in part.</p>\n",
      html_text(report.made), html_text(report.zone));
  out +=
      "</main>\n<footer>\n<p>The moving pictures use dygraphs (MIT licence) and modules of D3 "
      "(BSD licence); their licences stand in this page's source. Without scripts the page says "
      "the same.</p>\n</footer>\n<script type=\"application/json\" id=\"pictures\">";
  out += picture_data(report);
  out += "</script>\n<script>";
  for (const std::string_view piece : assets.script) out += piece;
  return out + "</script>\n</body>\n</html>\n";
}

}  // namespace render
