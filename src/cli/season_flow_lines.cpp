#include "cli/season_flow_lines.h"

#include <fmt/format.h>

#include "cli/answer.h"
#include "cli/measure_lines.h"
#include "kinds/words.h"
#include "measure/text.h"
#include "render/csv.h"
#include "render/text.h"

namespace cli {
namespace {

std::string money_words(double money) {
  return fmt::format("{:.2f}", money);
}

std::string unit_of(const model::Measured& value) {
  return value.label.empty() ? std::string(measure::base_unit(value.value.dimension)) : value.label;
}

// "12 lb" or nothing where there is none: a table of dashes is easier to read than one of zeros.
std::string cell(measure::Kilograms mass, const measure::Printer& print) {
  return mass.value == 0 ? "-" : print(mass);
}

std::string who(const season::Balance& balance) {
  return balance.batch.empty() ? "the whole site"
                               : fmt::format("{} ({})", balance.batch, balance.kind);
}

// A row's notes: how it is lost, what it leaves out.
std::vector<std::string> notes_of(const season::Balance& balance) {
  std::vector<std::string> notes;
  for (const season::BalanceLine& line : balance.lines) {
    if (!line.lost_as.empty()) {
      notes.push_back(fmt::format("{} lost {}", season::name(line.stuff), line.lost_as));
    }
    if (!line.left_out.empty()) {
      notes.push_back(fmt::format("{} of {}: not known", season::name(line.stuff),
                                  measure::joined(line.left_out, ", ")));
    }
  }
  return notes;
}

std::string balance_table(const season::Balance& balance, const Desk& desk, std::size_t width) {
  const bool site = balance.batch.empty();
  std::vector<render::Table::Column> columns{{""}, {"in", true}, {"out", true}, {"lost", true}};
  if (site || balance.open) columns.push_back({"kept", true});
  if (!site) columns.push_back({"unaccounted", true});
  render::Table table(columns);
  for (const season::BalanceLine& line : balance.lines) {
    if (line.in.value == 0 && line.out.value == 0) continue;
    const auto& print = desk.print();
    std::vector<std::string> row{std::string(season::name(line.stuff)), cell(line.in, print),
                                 cell(line.out, print), cell(line.lost, print)};
    if (site || balance.open) row.push_back(cell(line.kept, print));
    if (!site) row.push_back(cell(line.unaccounted, print));
    table.add(row);
  }
  if (table.empty()) return "";
  std::string text = "\n" + who(balance) + "\n" + table.text(width, 2);
  for (const std::string& note : notes_of(balance)) {
    text += "    " + render::wrapped(note, width - 4, 6) + "\n";
  }
  return text;
}

std::string amount_of(const model::Measured& value, const measure::Printer& print) {
  if (value.label == "money") return money_words(value.value.si);
  return shown(value, print);
}

}  // namespace

std::string figures_text(const Season& season, const Desk& desk, std::size_t width) {
  render::Table table(
      {{""},
       {"", true},
       {fmt::format("the {} before", kinds::days_words(season.span.days())), true}});
  for (const season::Compared& row : season.site) {
    table.add({row.now.name, amount_of(row.now.value, desk.print()),
               row.before ? amount_of(*row.before, desk.print()) : "-"});
  }
  return "\nwhat it came to\n" + table.text(width, 2);
}

std::string balances_text(const Season& season, const Desk& desk, std::size_t width) {
  std::string text =
      "\nWhat became of it: in = out + lost + kept (in open batches) + unaccounted; a batch over "
      "its\nwhole life, the site over these days.\n";
  text += balance_table(season.site_balance, desk, width);
  for (const season::Balance& balance : season.balances) {
    text += balance_table(balance, desk, width);
  }
  for (const model::Finding& one : season.impossible) {
    text += "\n" + finding_text(one, desk, one.rule + ": " + one.batch + ": ", width, 4) + "\n";
  }
  return text;
}

std::string loop_text(const Season& season, const Desk& desk, std::size_t width) {
  const season::Loop& loop = season.loop;
  std::string text;
  if (!loop.replaced.empty()) {
    render::Table table({{""}, {"", true}, {"", true}});
    for (const season::Replaced& one : loop.replaced) {
      table.add({one.name, desk.print()(one.amount.value),
                 one.money ? money_words(*one.money) : "no price set"});
    }
    text += "\nwhat it replaced\n" + table.text(width, 2);
  }
  const season::Greenhouse& account = loop.greenhouse;
  if (account.lines.empty()) return text;
  render::Table table({{""}, {"CO2 equivalent", true}});
  for (const season::GreenhouseLine& line : account.lines) {
    table.add({line.name, desk.print()(line.co2e)});
  }
  table.add({"net", desk.print()(account.net())});
  text += "\ngreenhouse gas kept out of the air (below zero: let into it)\n" + table.text(width, 2);
  text += "    " + render::wrapped(account.set, width - 4, 6) + "\n";
  for (const std::string& note : account.notes) {
    text += "    " + render::wrapped(note, width - 4, 6) + "\n";
  }
  return text;
}

void add_flow_json(const Season& season, const Desk& desk, render::Json& into) {
  const auto& print = desk.print();
  into["before"] = {{"from", measure::iso_date(season.before.from)},
                    {"to", measure::iso_date(season.before.to)}};
  for (const char* key : {"site_figures", "balances", "findings"}) {
    into[key] = render::Json::array();
  }
  for (const season::Compared& row : season.site) {
    render::Json one = render::json_of(row.now, print);
    one["before_si"] = row.before ? render::Json(row.before->value.si) : render::Json(nullptr);
    into["site_figures"].push_back(one);
  }
  const auto add_balance = [&](const season::Balance& balance) {
    render::Json one{
        {"batch", balance.batch.empty() ? render::Json(nullptr) : render::Json(balance.batch)},
        {"kind", balance.kind},
        {"open", balance.open},
        {"lines", render::Json::array()}};
    for (const season::BalanceLine& line : balance.lines) {
      one["lines"].push_back({{"of", season::key(line.stuff)},
                              {"in_kg", line.in.value},
                              {"out_kg", line.out.value},
                              {"kept_kg", line.kept.value},
                              {"lost_kg", line.lost.value},
                              {"lost_as", line.lost_as},
                              {"unaccounted_kg", line.unaccounted.value},
                              {"left_out", line.left_out},
                              {"impossible", line.impossible}});
    }
    into["balances"].push_back(one);
  };
  add_balance(season.site_balance);
  for (const season::Balance& balance : season.balances) add_balance(balance);
  for (const model::Finding& one : season.impossible) {
    into["findings"].push_back(render::json_of(one, print));
  }
  render::Json loop{{"shares", render::Json::array()},
                    {"kept_from_landfill_kg", season.loop.kept_from_landfill.value},
                    {"replaced", render::Json::array()},
                    {"greenhouse",
                     {{"set", season.loop.greenhouse.set},
                      {"net_kg", season.loop.greenhouse.net().value},
                      {"lines", render::Json::array()},
                      {"notes", season.loop.greenhouse.notes}}}};
  for (const season::LoopShare& one : season.loop.shares) {
    const auto share = one.share();
    loop["shares"].push_back(
        {{"key", one.key},
         {"name", one.name},
         {"all_kg", one.all.value},
         {"own_kg", one.own.value},
         {"share", share ? render::Json(share->value) : render::Json(nullptr)},
         {"nitrogen_share",
          one.nitrogen_share ? render::Json(one.nitrogen_share->value) : render::Json(nullptr)},
         {"basis", one.basis}});
  }
  for (const season::Replaced& one : season.loop.replaced) {
    loop["replaced"].push_back(
        {{"key", one.key},
         {"name", one.name},
         {"si", one.amount.value.si},
         {"unit", unit_of(one.amount)},
         {"shown", print(one.amount.value)},
         {"money", one.money ? render::Json(*one.money) : render::Json(nullptr)},
         {"basis", one.basis}});
  }
  for (const season::GreenhouseLine& line : season.loop.greenhouse.lines) {
    loop["greenhouse"]["lines"].push_back({{"key", line.key},
                                           {"name", line.name},
                                           {"co2e_kg", line.co2e.value},
                                           {"basis", line.basis},
                                           {"source", line.source}});
  }
  into["loop"] = loop;
}

std::vector<DescribedCsv> flow_csv(const Season& season, const Desk& desk) {
  std::vector<DescribedCsv> files;
  {
    DescribedCsv file{"site.csv",
                      "the site's large figures, beside the span before",
                      "",
                      {{"key", "a stable name of the figure"},
                       {"name", "the figure in words"},
                       {"si", "its value"},
                       {"unit", "the unit of si"},
                       {"shown", "the value in the units asked for"},
                       {"before_si", "the same of the span before; empty: it has none"},
                       {"basis", "what it rests on and what it leaves out"}}};
    render::Csv csv({"key", "name", "si", "unit", "shown", "before_si", "basis"});
    for (const season::Compared& row : season.site) {
      csv.text(row.now.key).text(row.now.name).number(row.now.value.value.si);
      csv.text(unit_of(row.now.value)).text(amount_of(row.now.value, desk.print()));
      row.before ? csv.number(row.before->value.si) : csv.empty();
      csv.text(row.now.basis).end_row();
    }
    file.content = csv.str();
    files.push_back(std::move(file));
  }
  {
    DescribedCsv file{"balances.csv",
                      "in = out + kept + lost + unaccounted, a row a batch and stuff",
                      "",
                      {{"batch", "the batch over its whole life; empty: the site over the span"},
                       {"kind", "its kind"},
                       {"of", "mass, carbon, nitrogen, phosphorus or potassium"},
                       {"in_kg", "put in"},
                       {"out_kg", "taken out"},
                       {"kept_kg", "still in it, while it is open"},
                       {"lost_kg", "the loss expected of such a batch"},
                       {"lost_as", "what as, and how it is reckoned"},
                       {"unaccounted_kg", "what is left; below zero: more out than can be"},
                       {"left_out", "materials whose figure is not known"}}};
    render::Csv csv({"batch", "kind", "of", "in_kg", "out_kg", "kept_kg", "lost_kg", "lost_as",
                     "unaccounted_kg", "left_out"});
    const auto add = [&](const season::Balance& balance) {
      for (const season::BalanceLine& line : balance.lines) {
        csv.text(balance.batch).text(balance.kind).text(season::key(line.stuff));
        csv.number(line.in.value).number(line.out.value).number(line.kept.value);
        csv.number(line.lost.value).text(line.lost_as).number(line.unaccounted.value);
        csv.text(measure::joined(line.left_out, "; ")).end_row();
      }
    };
    add(season.site_balance);
    for (const season::Balance& balance : season.balances) add(balance);
    file.content = csv.str();
    files.push_back(std::move(file));
  }
  {
    DescribedCsv file{"greenhouse.csv",
                      "the greenhouse account, an estimate",
                      "",
                      {{"key", "a stable name of the line"},
                       {"name", "the line in words"},
                       {"co2e_kg", "kg of CO2 equivalent kept out of the air; below zero: let in"},
                       {"basis", "how it is reckoned"},
                       {"source", "of its factors"}}};
    render::Csv csv({"key", "name", "co2e_kg", "basis", "source"});
    for (const season::GreenhouseLine& line : season.loop.greenhouse.lines) {
      csv.text(line.key).text(line.name).number(line.co2e.value);
      csv.text(line.basis).text(line.source).end_row();
    }
    file.content = csv.str();
    files.push_back(std::move(file));
  }
  return files;
}

}  // namespace cli
