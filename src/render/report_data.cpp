#include "render/report_data.h"

namespace render {
namespace {

template <class T>
Json value_or_null(const std::optional<T>& value) {
  return value ? Json(*value) : Json(nullptr);
}

Json json_table(const season::ReportTable& table) {
  Json json{{"key", table.key},
            {"caption", table.caption},
            {"totalled", table.totalled},
            {"columns", Json::array()},
            {"rows", Json::array()}};
  for (const season::Column& column : table.columns) json["columns"].push_back(column.name);
  for (const auto& row : table.rows) {
    Json cells = Json::array();
    for (const season::Cell& cell : row) {
      cells.push_back(cell.figure ? json_of(*cell.figure) : Json(cell.text));
    }
    json["rows"].push_back(std::move(cells));
  }
  return json;
}

Json pictures_of(const season::Section& section) {
  Json json = Json::array();
  for (const season::TimePlot& one : section.plots)
    json.push_back({{"title", one.title}, {"says", one.says}});
  for (const season::Bars& one : section.bars)
    json.push_back({{"title", one.of + " by month"}, {"says", one.says}});
  if (section.flow) json.push_back({{"title", "flows"}, {"says", section.flow->says}});
  return json;
}

}  // namespace

Json json_of(const season::Figure& figure) {
  return {{"key", figure.key},
          {"of", figure.of},
          {"name", figure.name},
          {"si", figure.si},
          {"unit", figure.unit},
          {"shown", figure.shown},
          {"estimated", value_or_null(figure.estimated)},
          {"basis", figure.basis},
          {"low_si", value_or_null(figure.low)},
          {"high_si", value_or_null(figure.high)},
          {"before_si", value_or_null(figure.before)},
          {"before_shown", figure.before ? Json(figure.before_shown) : Json(nullptr)},
          {"since", figure.since.empty() ? Json(nullptr) : Json(figure.since)},
          {"until", figure.until.empty() ? Json(nullptr) : Json(figure.until)}};
}

Json json_of(const std::vector<season::Section>& sections) {
  Json json = Json::array();
  for (const season::Section& section : sections) {
    Json one{{"key", section.key},      {"title", section.title},
             {"says", section.says},    {"figures", Json::array()},
             {"tables", Json::array()}, {"pictures", pictures_of(section)}};
    for (const season::Figure& figure : section.figures) one["figures"].push_back(json_of(figure));
    for (const season::ReportTable& table : section.tables)
      one["tables"].push_back(json_table(table));
    json.push_back(std::move(one));
  }
  return json;
}

const std::vector<CsvColumn>& report_csv_columns() {
  static const std::vector<CsvColumn> columns{
      {"section", "the report's section"},
      {"key", "a stable name of the figure"},
      {"of", "the batch, material or product it is of; empty: the site"},
      {"name", "the figure in words"},
      {"si", "its value", "number"},
      {"unit", "the unit of si"},
      {"shown", "the value in the units asked for; ~ leads what leans on an estimate"},
      {"estimated", "yes, no, or empty where the basis says what there is to say"},
      {"basis", "what it rests on and what it leaves out"},
      {"before_si", "the same of the span before; empty: not compared", "number"},
      {"before_shown", "the same in the units asked for"},
      {"low_si", "where only a range is known: its lower end; else empty", "number"},
      {"high_si", "its upper end", "number"},
      {"from_day", "the first day that it counts; a batch's own figures begin with the batch",
       "date"},
      {"to_day", "the last day that it counts", "date"}};
  return columns;
}

std::string report_csv(const season::Report& report) {
  Csv csv(names(report_csv_columns()));
  for (const season::Section& section : report.sections) {
    for (const season::Figure* one : season::all_figures(section)) {
      csv.text(section.key).text(one->key).text(one->of).text(one->name).number(one->si);
      csv.text(one->unit).text(one->shown);
      csv.text(!one->estimated ? "" : *one->estimated ? "yes" : "no").text(one->basis);
      one->before ? csv.number(*one->before) : csv.empty();
      csv.text(one->before_shown);
      one->low ? csv.number(*one->low) : csv.empty();
      one->high ? csv.number(*one->high) : csv.empty();
      csv.text(one->since.empty() ? report.from : one->since);
      csv.text(one->until.empty() ? report.to : one->until);
      csv.end_row();
    }
  }
  return csv.str();
}

}  // namespace render
