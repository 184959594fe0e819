#include "cli/season/flow_lines.h"

#include <fmt/format.h>

#include "measure/text.h"

namespace cli {
namespace {

const std::vector<render::CsvColumn> kBalanceColumns{
    {"batch", "the batch over its whole life; empty: the site over the span"},
    {"kind", "its kind"},
    {"of", "mass, carbon, nitrogen, phosphorus or potassium"},
    {"in_kg", "put in", "number"},
    {"out_kg", "taken out", "number"},
    {"kept_kg", "still in it, while it is open", "number"},
    {"lost_kg", "the loss expected of such a batch", "number"},
    {"lost_as", "what as, and how it is reckoned"},
    {"unaccounted_kg", "what is left; below zero: more out than can be", "number"},
    {"left_out", "materials whose figure is not known"}};
const std::vector<render::CsvColumn> kGreenhouseColumns{
    {"key", "a stable name of the line"},
    {"name", "the line in words"},
    {"co2e_kg", "kg of CO2 equivalent kept out of the air; below zero: let in", "number"},
    {"basis", "how it is reckoned"},
    {"source", "of its factors"},
    {"low_kg", "the lower end of co2e_kg, by the factors' ranges"},
    {"high_kg", "its upper end"}};

std::string balances_csv(const season::ReportInput& input) {
  render::Csv csv(render::names(kBalanceColumns));
  const auto add = [&](const season::Balance& balance) {
    for (const season::BalanceLine& line : balance.lines) {
      csv.text(balance.batch).text(balance.kind).text(model::key(line.stuff));
      const auto number = [&](measure::Kilograms mass, bool unknown) {
        unknown ? csv.text("") : csv.number(mass.value);
      };
      const bool rest_unknown = line.in_unknown || line.out_unknown;
      number(line.in, line.in_unknown);
      number(line.out, line.out_unknown);
      number(line.kept, rest_unknown);
      csv.number(line.lost.value).text(line.lost_as);
      number(line.unaccounted, rest_unknown);
      csv.text(measure::joined(line.left_out, "; ")).end_row();
    }
  };
  add(input.site_balance);
  for (const season::Balance& balance : input.balances) add(balance);
  return csv.str();
}

std::string greenhouse_csv(const season::Greenhouse& account) {
  render::Csv csv(render::names(kGreenhouseColumns));
  for (const season::GreenhouseLine& line : account.lines) {
    csv.text(line.key).text(line.name).number(line.co2e.value);
    csv.text(line.basis).text(line.source).number(line.low.value).number(line.high.value).end_row();
  }
  return csv.str();
}

}  // namespace

void add_flow_json(const Season& season, const Desk& desk, render::Json& into) {
  const auto& print = desk.print();
  for (const char* key : {"balances", "findings"}) {
    into[key] = render::Json::array();
  }
  const auto add_balance = [&](const season::Balance& balance) {
    render::Json one{
        {"batch", balance.batch.empty() ? render::Json(nullptr) : render::Json(balance.batch)},
        {"kind", balance.kind},
        {"open", balance.open},
        {"lines", render::Json::array()}};
    for (const season::BalanceLine& line : balance.lines) {
      const auto known = [](measure::Kilograms mass, bool unknown) {
        return unknown ? render::Json(nullptr) : render::Json(mass.value);
      };
      const bool rest_unknown = line.in_unknown || line.out_unknown;
      one["lines"].push_back({{"of", model::key(line.stuff)},
                              {"in_kg", known(line.in, line.in_unknown)},
                              {"out_kg", known(line.out, line.out_unknown)},
                              {"kept_kg", known(line.kept, rest_unknown)},
                              {"lost_kg", line.lost.value},
                              {"lost_as", line.lost_as},
                              {"unaccounted_kg", known(line.unaccounted, rest_unknown)},
                              {"left_out", line.left_out},
                              {"impossible", line.impossible}});
    }
    into["balances"].push_back(one);
  };
  add_balance(season.input.site_balance);
  for (const season::Balance& balance : season.input.balances) add_balance(balance);
  for (const model::Told& one : season.input.impossible) {
    into["findings"].push_back(render::json_of(one, print));
  }
  render::Json loop{{"shares", render::Json::array()},
                    {"kept_from_landfill_kg", season.input.loop.kept_from_landfill.value},
                    {"replaced", render::Json::array()},
                    {"greenhouse",
                     {{"set", season.input.loop.greenhouse.set},
                      {"net_kg", season.input.loop.greenhouse.net().value},
                      {"net_low_kg", season.input.loop.greenhouse.low().value},
                      {"net_high_kg", season.input.loop.greenhouse.high().value},
                      {"lines", render::Json::array()},
                      {"notes", season.input.loop.greenhouse.notes}}}};
  for (const season::LoopShare& one : season.input.loop.shares) {
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
  for (const season::Replaced& one : season.input.loop.replaced) {
    loop["replaced"].push_back(
        {{"key", one.key},
         {"name", one.name},
         {"si", one.amount.value.si},
         {"unit", model::unit_of(one.amount)},
         {"shown", model::shown({one.key, one.name, one.amount, "", one.range}, print)},
         {"low_si", one.range ? render::Json(one.range->low) : render::Json(nullptr)},
         {"high_si", one.range ? render::Json(one.range->high) : render::Json(nullptr)},
         {"money", one.money ? render::Json(*one.money) : render::Json(nullptr)},
         {"basis", one.basis}});
  }
  for (const season::GreenhouseLine& line : season.input.loop.greenhouse.lines) {
    loop["greenhouse"]["lines"].push_back({{"key", line.key},
                                           {"name", line.name},
                                           {"co2e_kg", line.co2e.value},
                                           {"low_kg", line.low.value},
                                           {"high_kg", line.high.value},
                                           {"basis", line.basis},
                                           {"source", line.source}});
  }
  into["loop"] = loop;
}

std::vector<CsvFile> flow_csv(const Season& season) {
  return {{"balances.csv", "in = out + kept + lost + unaccounted, a row a batch and stuff",
           kBalanceColumns, balances_csv(season.input)},
          {"greenhouse.csv", "the greenhouse account, an estimate", kGreenhouseColumns,
           greenhouse_csv(season.input.loop.greenhouse)}};
}

}  // namespace cli
