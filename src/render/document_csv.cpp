#include "render/csv.h"
#include "render/document.h"
#include "render/json.h"

namespace render {
namespace {

using Type = season::DocumentColumn::Type;

std::string_view type_name(Type type) {
  switch (type) {
    case Type::kText:
      return "string";
    case Type::kNumber:
      return "number";
    case Type::kWhole:
      return "integer";
    case Type::kDay:
      return "date";
    case Type::kMoment:
      return "datetime";
  }
  return "string";
}

void write_cell(Csv& csv, const season::DocumentColumn& column, const season::DocumentCell& cell) {
  if (column.type == Type::kNumber || column.type == Type::kWhole) {
    cell.number ? csv.number(*cell.number) : csv.empty();
  } else {
    csv.text(cell.data.value_or(cell.shown));
  }
}

}  // namespace

std::vector<std::pair<std::string, std::string>> csv_files(const season::Document& document) {
  std::vector<std::pair<std::string, std::string>> files;
  Json resources = Json::array();
  for (const season::DocumentPart& part : document.parts) {
    for (const season::DocumentTable& table : part.tables) {
      if (table.key.empty()) continue;
      std::vector<std::string> header;
      Json fields = Json::array();
      for (const season::DocumentColumn& column : table.columns) {
        header.push_back(column.name);
        Json field{{"name", column.name},
                   {"type", std::string(type_name(column.type))},
                   {"description", column.meaning}};
        if (column.type == Type::kMoment) field["format"] = "any";
        fields.push_back(field);
      }
      Csv csv(header);
      for (const auto& row : table.rows) {
        for (std::size_t i = 0; i < row.size(); ++i) write_cell(csv, table.columns[i], row[i]);
        csv.end_row();
      }
      const std::string stem = document.key + "-" + table.key;
      resources.push_back({{"name", stem},
                           {"path", stem + ".csv"},
                           {"title", table.title},
                           {"profile", "tabular-data-resource"},
                           {"format", "csv"},
                           {"encoding", "utf-8"},
                           {"schema", {{"fields", fields}, {"missingValues", {""}}}}});
      files.emplace_back(stem + ".csv", csv.str());
    }
  }
  files.emplace_back(document.key + "-datapackage.json",
                     dumped({{"profile", "tabular-data-package"},
                             {"name", document.key},
                             {"title", document.site + ": " + document.title},
                             {"description", document.span},
                             {"resources", resources}}));
  return files;
}

}  // namespace render
