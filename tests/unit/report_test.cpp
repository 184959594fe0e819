#include "season/report.h"

#include <doctest/doctest.h>

#include <algorithm>

#include "build_history.h"
#include "render/html.h"
#include "render/html_parts.h"
#include "render/report_data.h"
#include "render/report_text.h"
#include "season/report_input.h"

namespace report_test {

using build::contains;

namespace {

model::Site site() {
  return {"Tern Hollow", *measure::Zone::named("UTC"), measure::UnitSystem::kMetric, std::nullopt};
}

model::Movement carried(const char* material, const char* from, const char* from_kind,
                        const char* to, const char* to_kind, double kilograms, const char* day) {
  model::Movement one =
      build::movement(build::material(material), {measure::Dimension::kMass, kilograms},
                      build::at(build::day(day)));
  one.from = from;
  one.from_kind = from_kind;
  one.to = to;
  one.to_kind = to_kind;
  return one;
}

season::ReportInput input() {
  return {site(),
          measure::UnitSystem::kMetric,
          build::at(build::day("2026-06-30")),
          {build::day("2026-03-01"), build::day("2026-06-30")},
          season::span_before({build::day("2026-03-01"), build::day("2026-06-30")})};
}

const season::Section& section(const season::Report& report, std::string_view key) {
  for (const auto& one : report.sections) {
    if (one.key == key) return one;
  }
  FAIL("no section ", key);
  return report.sections.front();
}

const season::Figure* figure(const season::Section& in, std::string_view key, std::string_view of) {
  for (const season::Figure* one : season::all_figures(in)) {
    if (one->key == key && one->of == of) return one;
  }
  return nullptr;
}

}  // namespace

TEST_CASE("report: a movement between two batches is neither brought nor taken") {
  auto in = input();
  in.movements = {carried("horse manure", "", "", "heap-1", "pile", 100, "2026-03-02"),
                  carried("larvae", "bin-a", "larvae", "hens", "flock", 3, "2026-04-02"),
                  carried("effluent", "dig-1", "digester", "", "", 40, "2026-05-02")};
  in.movements_before = {carried("horse manure", "", "", "heap-1", "pile", 80, "2026-01-02")};
  const season::Report report = season::make_report(in);
  const auto& came = section(report, "came");
  CHECK(figure(came, "came.brought", "")->si == 100);
  CHECK(figure(came, "came.brought", "")->before == 80);
  CHECK(figure(came, "came.carried", "")->si == 3);
  CHECK(figure(came, "came.taken", "")->si == 40);
  CHECK(report.compared == "Thu 30 Oct 2025 to Sat 28 Feb 2026");
}

TEST_CASE("report: what was measured by volume is an estimate and says so; a weight is not") {
  auto in = input();
  in.movements = {carried("straw", "", "", "heap-1", "pile", 10, "2026-03-02")};
  const season::Report weighed = season::make_report(in);
  CHECK(figure(section(weighed, "came"), "came.brought", "")->shown == "10 kg");
  in.movements.push_back(in.movements[0]);
  in.movements[1].amount = {measure::Dimension::kVolume, 100};
  const season::Report report = season::make_report(in);
  const season::Figure& brought = *figure(section(report, "came"), "came.brought", "");
  CHECK(brought.estimated == true);
  CHECK(brought.shown.starts_with("~"));
  CHECK(contains(brought.basis, "bulk density"));
}

TEST_CASE("report: effluent that goes to soil starts a harvest interval of 90 and 120 days") {
  // 7 CFR 205.203(c)(1)(ii) and (iii): 120 and 90 days; the days by a calendar: 2 May + 90 days is
  // 31 July, + 120 days is 30 August.
  auto in = input();
  in.movements = {carried("effluent", "dig-1", "digester", "", "", 40, "2026-05-02"),
                  carried("effluent", "dig-1", "digester", "heap-1", "pile", 5, "2026-05-03")};
  for (auto& one : in.movements) one.manure = {{"dairy manure", {"dig-1"}, "it stays raw"}};
  in.rules.set("bed.wait.apart", {100, "stricter here"});
  const season::Report report = season::make_report(in);
  const auto& treatment = section(report, "treatment");
  REQUIRE(treatment.tables.size() == 1);
  REQUIRE(treatment.tables[0].rows.size() == 1);
  CHECK(treatment.tables[0].rows[0][4].text == "Mon 10 Aug 2026 or Sun 30 Aug 2026");
}

TEST_CASE("report: raw manure that left the site's batches went to soil, whatever carried it") {
  auto in = input();
  in.movements = {carried("manure brew", "drum-1", "brew", "", "", 10, "2026-05-02"),
                  carried("hen manure", "hens", "flock", "", "", 5, "2026-05-03"),
                  carried("compost", "heap-1", "pile", "", "", 50, "2026-05-04")};
  in.movements[0].manure = {{"cow manure", {"drum-1"}, "brewing does not kill its germs"}};
  in.movements[1].manure = {{"hen manure", {"hens"}, "it is raw"}};
  const season::Report report = season::make_report(in);
  const auto& treatment = section(report, "treatment");
  REQUIRE(treatment.tables.size() == 1);
  CHECK(treatment.tables[0].rows.size() == 2);
  // 7 CFR 205.203(c)(1): 90 or 120 days after 2 May.
  CHECK(treatment.tables[0].rows[0][4].text == "Fri 31 Jul 2026 or Sun 30 Aug 2026");
}

TEST_CASE("report: a month's bar is in the unit that its words are in") {
  auto in = input();
  in.units = measure::UnitSystem::kUs;
  in.movements = {carried("compost", "heap-1", "pile", "", "", 45.359237, "2026-04-02")};
  in.movements.push_back(in.movements[0]);
  in.movements[1].material.name = "eggs";
  in.movements[1].amount = {measure::Dimension::kCount, 12};
  const auto report = season::make_report(in);  // `section` points into it
  const auto& bars = section(report, "yields").bars;
  REQUIRE(bars.size() == 2);
  CHECK(bars[0].unit == "lb");
  REQUIRE(bars[0].bars.size() == 4);                     // March to June
  CHECK(bars[0].bars[1].value == doctest::Approx(100));  // 1 lb is 0.45359237 kg
  CHECK(bars[0].bars[1].shown == "100 lb");
  CHECK(bars[0].says == "compost: Apr 100 lb; no other month.");
  CHECK(bars[1].unit.empty());
  CHECK(bars[1].bars[1].value == 12);
}

TEST_CASE("report: nutrients are mass x dry matter x share, and name what has no figure") {
  auto in = input();
  in.movements = {carried("straw", "", "", "heap-1", "pile", 10, "2026-03-02")};
  in.movements[0].material.figures = {{model::Property::kMoisture, 0.2, "test"},
                                      {model::Property::kNitrogen, 0.01, "test"}};
  const season::Report report = season::make_report(in);
  const auto& nutrients = section(report, "nutrients");
  CHECK(figure(nutrients, "nutrients.nitrogen_in", "nitrogen (N)")->si == doctest::Approx(0.08));
  const season::Figure& potassium = *figure(nutrients, "nutrients.potassium_in", "potassium (K)");
  CHECK(potassium.si == 0);
  CHECK(contains(potassium.basis, "straw"));
}

TEST_CASE("report: what goes round is named once, and drawn from end to end") {
  auto in = input();
  in.movements = {carried("vegetable waste", "", "", "bin-a", "larvae", 50, "2026-03-02"),
                  carried("larvae", "bin-a", "larvae", "hens", "flock", 5, "2026-04-02"),
                  carried("hen manure", "hens", "flock", "bin-a", "larvae", 9, "2026-04-03")};
  const season::Report report = season::make_report(in);
  const auto& flows = section(report, "flows");
  REQUIRE(flows.flow);
  CHECK(contains(flows.flow->says, "It goes round: larvae to flock to larvae."));
  const std::string drawn = render::flow_svg(*flows.flow);
  std::vector<double> widths;
  const std::string lead = "stroke-width=\"";
  for (std::size_t at = drawn.find(lead); at != std::string::npos; at = drawn.find(lead, at + 1)) {
    widths.push_back(std::stod(drawn.substr(at + lead.size())));
  }
  std::sort(widths.begin(), widths.end());
  REQUIRE(widths.size() == 3);
  // As wide as their weights: 50, 9 and 5 kg.
  CHECK(widths[2] / widths[1] == doctest::Approx(50.0 / 9).epsilon(0.01));
  CHECK(widths[2] / widths[0] == doctest::Approx(10).epsilon(0.01));
  // Only the manure goes back; each band bears its weight.
  CHECK(contains(drawn, "class=\"band back\""));
  CHECK(drawn.find("band back") == drawn.rfind("band back"));
  CHECK(contains(drawn, "class=\"band came\""));
  for (const auto& link : flows.flow->links) {
    CHECK(contains(drawn, "text-anchor=\"middle\">" + link.shown));
  }
}

TEST_CASE("report: markup that someone typed is text in the page and inert in its data") {
  auto in = input();
  in.site.name = "<b>Tern</b> & 'Hollow'";
  const std::string evil = "</script><script>alert(1)</script><!-- \"x\" onload='y'";
  season::ReportBatch batch{
      evil,
      build::batch("pile", evil, build::day("2026-03-01"), build::day("2026-06-30")),
      {},
      {},
      {}};
  batch.history.notes.push_back(
      {build::at(build::day("2026-04-01")), build::day("2026-04-01"), evil});
  batch.lines = {{"core",
                  {{date::local_days{build::day("2026-04-01")}, 50, 50, 50},
                   {date::local_days{build::day("2026-04-02")}, 60, 60, 60}}}};
  in.batches = {batch};
  in.movements = {carried("straw", "", "", "heap-1", "pile", 10, "2026-03-02")};
  in.movements[0].to = evil;
  in.movements[0].purpose = evil;
  const std::string page = render::html(season::make_report(in));
  const std::string data = render::picture_data(season::make_report(in));
  CHECK(!contains(page, "<b>Tern"));
  CHECK(!contains(page, "<script>alert"));
  CHECK(contains(page, "onload=&#39;y&#39;"));
  CHECK(contains(page, "&lt;/script&gt;&lt;script&gt;alert(1)"));
  CHECK(data.find_first_of("<>&") == std::string::npos);
  CHECK(contains(data, "\\u003c/script\\u003e"));
  // Exactly the two script elements of the page's own.
  std::size_t scripts = 0;
  for (std::size_t at = page.find("<script"); at != std::string::npos;
       at = page.find("<script", at + 1))
    ++scripts;
  CHECK(scripts == 2);
}

TEST_CASE("report: a cell that a spreadsheet would run gets an apostrophe") {
  auto in = input();
  in.movements = {carried("straw", "", "", "heap-1", "pile", 10, "2026-03-02")};
  in.movements[0].material.name = "=HYPERLINK(\"http://example.org\")";
  const std::string csv = render::report_csv(season::make_report(in));
  CHECK(contains(csv, ",\"'=HYPERLINK("));
  CHECK(!contains(csv, ",\"=HYPERLINK("));
}

TEST_CASE("report: with nothing recorded it says so and every form stands") {
  const season::Report report = season::make_report(input());
  CHECK(contains(render::report_text(report, 80), "Nothing was carried"));
  CHECK(contains(render::html(report), "</html>"));
  CHECK(render::json_of(report.sections).size() == report.sections.size());
}

TEST_CASE("span: what a span is compared with") {
  const auto before = [](const char* from, const char* to) {
    const season::Span span = season::span_before({build::day(from), build::day(to)});
    return measure::iso_date(span.from) + ".." + measure::iso_date(span.to);
  };
  CHECK(before("2026-01-01", "2026-10-19") == "2025-01-01..2025-10-19");
  CHECK(before("2028-01-01", "2028-02-29") == "2027-01-01..2027-02-28");
  CHECK(before("2026-03-01", "2026-03-31") == "2026-01-29..2026-02-28");
  CHECK(before("2025-01-01", "2026-06-30") == "2023-07-05..2024-12-31");
}

}  // namespace report_test
