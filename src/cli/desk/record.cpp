#include "cli/desk/record.h"

#include <fmt/format.h>

#include <algorithm>
#include <ostream>

#include "cli/shell/write_file.h"
#include "render/csv.h"
#include "render/json.h"
#include "render/text.h"

namespace cli {
namespace {

constexpr std::size_t kBarWidth = 40;

render::Json json_of(const model::Record& record) {
  render::Json json{{"title", record.title},
                    {"outcome", record.outcome},
                    {"facts", render::Json::array()},
                    {"tables", render::Json::array()}};
  for (const auto& fact : record.facts) {
    json["facts"].push_back({{"name", fact.name}, {"value", fact.value}});
  }
  for (const auto& table : record.tables) {
    json["tables"].push_back({{"name", table.name},
                              {"title", table.title},
                              {"header", table.header},
                              {"rows", table.rows}});
  }
  for (const auto& picture : record.pictures) {
    render::Json bars = render::Json::array();
    for (const auto& bar : picture.bars) {
      bars.push_back({{"label", bar.label}, {"share", bar.share}, {"shown", bar.says}});
    }
    json["pictures"].push_back({{"title", picture.title}, {"bars", bars}});
  }
  return json;
}

void print(std::ostream& out, const model::Record& record, const Desk& desk, std::size_t width) {
  out << fmt::format("{} · {}\n", record.title, desk.site().name);
  for (const std::string& line : record.outcome)
    out << render::wrapped("  " + line, width, 4) << '\n';
  out << '\n';
  for (const auto& fact : record.facts) {
    out << render::wrapped(fmt::format("  {}: {}", fact.name, fact.value), width, 4) << '\n';
  }
  for (const auto& table : record.tables) {
    std::vector<render::Table::Column> columns;
    for (const std::string& name : table.header) columns.push_back({name, false});
    render::Table text(columns);
    for (const auto& row : table.rows) text.add(row);
    out << '\n' << table.title << '\n' << text.text(width, 2);
  }
  for (const auto& picture : record.pictures) {
    render::Table text({{"", true}, {""}, {"", true}});
    for (const auto& bar : picture.bars) {
      text.add({bar.label, render::bar(bar.share, kBarWidth), bar.says});
    }
    out << '\n' << picture.title << '\n' << text.text(width, 2);
  }
}

void write_named(std::ostream& out, const std::filesystem::path& path, const std::string& content) {
  write_file(path, content);
  out << path.string() << '\n';
}

void write_csv(std::ostream& out, const model::Record& record, std::string_view sort,
               const std::string& stem, const std::filesystem::path& folder) {
  std::filesystem::create_directories(folder);
  render::Csv facts({"name", "value"});
  for (const std::string& line : record.outcome) {
    facts.text("outcome").text(line).end_row();
  }
  for (const auto& fact : record.facts) facts.text(fact.name).text(fact.value).end_row();
  write_named(out, folder / fmt::format("{}-{}.csv", stem, sort), facts.str());
  for (const auto& table : record.tables) {
    render::Csv csv(table.header);
    for (const auto& row : table.rows) {
      for (const std::string& cell : row) csv.text(cell);
      csv.end_row();
    }
    write_named(out, folder / fmt::format("{}-{}.csv", stem, table.name), csv.str());
  }
}

}  // namespace

Outcome show_record(Context& context, const Arguments& arguments, const Desk& desk,
                    const model::History& history, const RecordSort& sort) {
  const kinds::Kind& kind = desk.kind(history.batch);
  const model::Rules rules = book::rules(desk.logbook(), history.batch);
  const auto made = kinds::study(history, rules)->record(sort.of);
  if (!made) {
    return measure::Mistake{history.batch.code,
                            fmt::format("{} is {}, which has no {}", history.batch.code,
                                        kinds::one_of(kind), sort.lacking)};
  }
  const model::Record& record = *made;
  if (const auto folder = arguments.option("csv")) {
    std::string stem =
        history.batch.code + (history.batch.run > 1 ? fmt::format("-{}", history.batch.run) : "");
    // A code as typed has none; a file made elsewhere may.
    std::replace(stem.begin(), stem.end(), '/', '-');
    write_csv(context.out, record, sort.option, stem, *folder);
  } else if (context.json) {
    context.out << render::dumped(json_of(record));
  } else {
    print(context.out, record, desk, static_cast<std::size_t>(context.width));
  }
  return kDone;
}

}  // namespace cli
