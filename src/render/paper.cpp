#include "render/paper.h"

#include <fmt/format.h>

#include "measure/text.h"
#include "render/html.h"

namespace render {
namespace {

// Black on white, as a cheap printer has it; sizes in points and inches, since it is for paper.
constexpr std::string_view kSheetStyle = R"css(
@page { margin: 0.4in; }
* { box-sizing: border-box; }
body { margin: 0 auto; max-width: 7.7in; color: #000; background: #fff;
  font: 9.5pt/1.2 "DejaVu Sans", "Liberation Sans", Arial, sans-serif; }
h1 { font-size: 13pt; margin: 0 0 3pt; }
h2 { font-size: 10.5pt; margin: 6pt 0 1pt; }
table { width: 100%; border-collapse: collapse; }
th { text-align: left; padding: 0 4pt 1pt 0; }
thead th { font-weight: normal; font-size: 8pt; }
td { padding: 1.5pt 4pt 1.5pt 0; vertical-align: top; }
.jobs td { border-bottom: 0.3pt solid #999; }
.tick { width: 14pt; }
.tick span { display: inline-block; width: 8.5pt; height: 8.5pt; border: 0.8pt solid #000; margin-top: 1pt; }
.code { white-space: nowrap; font-weight: bold; width: 1%; padding-right: 8pt; }
.minds { font-size: 8.5pt; margin-left: 6pt; }
.minds::before { content: "! "; font-weight: bold; }
.now .says { font-weight: bold; }
.blanks tr { height: 20pt; }
.blanks tbody > tr > * { border-bottom: 0.5pt solid #000; vertical-align: bottom; }
.last { font-size: 8.5pt; width: 36%; }
.wanted { font-size: 8.5pt; white-space: nowrap; }
.place { font-size: 8.5pt; max-width: 1.1in; white-space: nowrap; overflow: hidden; text-overflow: ellipsis; }
.due .code::before { content: "\25B8\00A0"; }
.line { width: 30%; }
p { margin: 4pt 0 0; font-size: 8.5pt; }
tr { break-inside: avoid; }
)css";

constexpr std::string_view kLargeStyle = R"css(
body { font-size: 17pt; }
h1 { font-size: 22pt; }
h2 { font-size: 18pt; margin-top: 12pt; }
thead th, .minds, .last, .wanted, .place, p { font-size: 14pt; }
.tick { width: 26pt; }
.tick span { width: 15pt; height: 15pt; border-width: 1.2pt; }
.blanks tr { height: 40pt; }
.wanted { white-space: normal; }
)css";

constexpr std::string_view kLabelStyle = R"css(
@page { margin: 0.4in; }
* { box-sizing: border-box; }
body { margin: 0 auto; width: 7.4in; color: #000; background: #fff;
  font: 10pt/1.25 "DejaVu Sans", "Liberation Sans", Arial, sans-serif; }
ul { list-style: none; margin: 0; padding: 0; display: flex; flex-wrap: wrap; }
.label { width: 3.7in; min-height: 2.4in; padding: 0.12in; border: 0.5pt dashed #777;
  break-inside: avoid; }
h2 { font-size: 26pt; line-height: 1; margin: 0 0 3pt; overflow-wrap: anywhere; }
.label p { margin: 0 0 2pt; }
.site { font-size: 8pt; }
.wait { font-weight: bold; }
.minds { border-top: 0.8pt solid #000; padding-top: 2pt; font-weight: bold; font-size: 9pt; }
)css";

std::string head(const std::string& title, std::initializer_list<std::string_view> styles) {
  std::string out = fmt::format(
      "<!doctype html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n<meta "
      "http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src "
      "'unsafe-inline'; base-uri 'none'; form-action 'none'\">\n<meta name=\"viewport\" "
      "content=\"width=device-width, initial-scale=1\">\n<title>{}</title>\n<style>",
      html_text(title));
  for (const std::string_view style : styles) out += style;
  return out + "</style>\n</head>\n<body>\n";
}

std::string job_row(const PaperJob& job) {
  std::string out = fmt::format(
      "<tr{}><td class=\"tick\"><span></span></td><td class=\"code\">{}</td><td><span "
      "class=\"says\">{}</span>",
      job.now ? " class=\"now\"" : "", html_text(job.batch), html_text(job.says));
  if (!job.minds.empty())
    out += fmt::format(" <span class=\"minds\">{}</span>", html_text(job.minds));
  return out + "</td></tr>\n";
}

std::string blank_row(const PaperBlank& blank) {
  return fmt::format(
      "<tr{}><th scope=\"row\" class=\"code\">{}</th><td class=\"place\">{}</td><td "
      "class=\"last\">{}</td><td "
      "class=\"wanted\">{}</td><td class=\"line\"></td></tr>\n",
      blank.due ? " class=\"due\"" : "", html_text(blank.batch), html_text(blank.place),
      html_text(blank.last), html_text(blank.wanted));
}

std::string label_html(const std::string& site, const PaperLabel& label) {
  std::string out =
      fmt::format("<li class=\"label\">\n<h2>{}</h2>\n<p>{}, {}</p>\n", html_text(label.code),
                  html_text(label.kind), html_text(label.begun));
  if (!label.holds.empty())
    out += fmt::format("<p>{}</p>\n", html_text(measure::joined(label.holds, ", ")));
  if (!label.wait.empty()) out += fmt::format("<p class=\"wait\">{}</p>\n", html_text(label.wait));
  for (const std::string& one : label.minds)
    out += fmt::format("<p class=\"minds\">{}</p>\n", html_text(one));
  return out + fmt::format("<p class=\"site\">{}</p>\n</li>\n", html_text(site));
}

}  // namespace

std::string sheet_page(const PaperSheet& sheet) {
  const std::string title = sheet.site + ", " + sheet.day;
  std::string out =
      sheet.large ? head(title, {kSheetStyle, kLargeStyle}) : head(title, {kSheetStyle});
  out += fmt::format("<h1>{}</h1>\n", html_text(title));
  if (!sheet.jobs.empty()) {
    out += "<h2>Jobs</h2>\n<table class=\"jobs\">\n<tbody>\n";
    for (const PaperJob& job : sheet.jobs) out += job_row(job);
    out += "</tbody>\n</table>\n";
  }
  if (!sheet.held.empty()) {
    out += fmt::format("<p>Not yet: {}</p>\n", html_text(measure::joined(sheet.held, "; ")));
  }
  out +=
      "<h2>The round</h2>\n<table class=\"blanks\">\n<thead><tr><th scope=\"col\">batch</th><th "
      "scope=\"col\">place</th><th scope=\"col\">last</th><th scope=\"col\">to read</th><th "
      "scope=\"col\">now, and what you see</th></tr></thead>\n<tbody>\n";
  for (const PaperBlank& blank : sheet.blanks) out += blank_row(blank);
  return out + "</tbody>\n</table>\n</body>\n</html>\n";
}

std::string label_page(const std::string& site, const std::vector<PaperLabel>& labels) {
  std::string out = head(site + ": labels", {kLabelStyle}) + "<ul>\n";
  for (const PaperLabel& label : labels) out += label_html(site, label);
  return out + "</ul>\n</body>\n</html>\n";
}

}  // namespace render
