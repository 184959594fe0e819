#include <fmt/format.h>

#include <cmath>

#include "measure/text.h"
#include "season/report_parts.h"

// What became of everything: balances, how far the loop closes, what it replaced, greenhouse gas.
namespace season {
namespace {

using measure::Kilograms;

Figure estimate(std::string key, std::string of, std::string name, Kilograms mass,
                const ReportWords& words) {
  Figure made;
  made.key = std::move(key);
  made.of = std::move(of);
  made.name = std::move(name);
  made.si = mass.value;
  made.unit = "kg";
  made.shown = words.print(mass);
  made.estimated = true;
  return made;
}

// Whether the site kept gas out of the air, as far as that is known.
std::string sign_words(const Greenhouse& account, const measure::Printer& print) {
  const Kilograms low = account.low(), high = account.high();
  if (low.value < 0 && high.value > 0) {
    return fmt::format(
        "Not known whether more was let into the air or kept out of it: between {} let into it and "
        "{} kept out, as carbon dioxide.",
        print.roughly(measure::value_of(Kilograms{} - low)),
        print.roughly(measure::value_of(high)));
  }
  if (high.value <= 0) {
    return fmt::format(
        "More was let into the air than kept out of it: {}, as carbon dioxide.",
        print.between(measure::value_of(Kilograms{} - high), measure::value_of(Kilograms{} - low)));
  }
  return fmt::format("More was kept out of the air than let into it: {}, as carbon dioxide.",
                     print.between(measure::value_of(low), measure::value_of(high)));
}

// How it is lost, and what the line leaves out.
std::string rests_on(const BalanceLine& line) {
  std::vector<std::string> parts;
  if (!line.lost_as.empty()) parts.push_back("lost " + line.lost_as);
  if (!line.left_out.empty()) {
    parts.push_back("leaves out, for want of a figure: " + measure::joined(line.left_out, ", "));
  }
  return measure::joined(parts, "; ");
}

void add_rows(const Balance& balance, const ReportWords& words, ReportTable& table) {
  const bool site = balance.batch.empty();
  const std::string who = site ? "the site" : balance.batch;
  for (const BalanceLine& line : balance.lines) {
    const bool none = line.in.value == 0 && line.out.value == 0;
    if (none && !line.in_unknown && !line.out_unknown) continue;
    const std::string what(model::name(line.stuff));
    const std::string of = who + " " + std::string(model::key(line.stuff));
    const auto cell = [&](const char* column, Kilograms mass) {
      Cell made = figure_cell(estimate(std::string("balance.") + column, of, column, mass, words));
      if (mass.value == 0) made.text = "-";
      return made;
    };
    const auto known = [&](const char* column, Kilograms mass, bool unknown) {
      return unknown ? text_cell("not known") : cell(column, mass);
    };
    const bool rest_unknown = line.in_unknown || line.out_unknown;
    std::vector<Cell> row{text_cell(who),
                          text_cell(what),
                          known("in", line.in, line.in_unknown),
                          known("out", line.out, line.out_unknown),
                          cell("lost", line.lost),
                          known("kept", line.kept, rest_unknown)};
    if (!site) row.push_back(known("unaccounted", line.unaccounted, rest_unknown));
    row.push_back(text_cell(rests_on(line)));
    table.rows.push_back(std::move(row));
  }
}

ReportTable balance_table(std::string key, std::string caption, bool site) {
  ReportTable table{std::move(key),
                    std::move(caption),
                    {{site ? "" : "batch"},
                     {"of"},
                     {"in", Role::kNumber},
                     {"out", Role::kNumber},
                     {"expected loss", Role::kNumber},
                     {"still there", Role::kNumber}},
                    {},
                    false,
                    !site};
  if (!site) table.columns.push_back({"unaccounted", Role::kNumber});
  table.columns.push_back({"rests on", Role::kAside});
  return table;
}

}  // namespace

Section section_balances(const ReportWords& words) {
  Section section{"balances", "What became of it", {}, {}, {}, {}, {}, std::nullopt};
  ReportTable site = balance_table(
      "balance", "The site over these days, but for water: in = out + loss + there", true);
  add_rows(words.input.site_balance, words, site);
  ReportTable batches = balance_table(
      "balances", "Each batch over its whole life: in = out + loss + there + unaccounted", false);
  for (const Balance& one : words.input.balances) add_rows(one, words, batches);
  if (site.rows.empty() && batches.rows.empty()) {
    section.says.emplace_back("Nothing was carried in these days.");
    return section;
  }
  section.says.emplace_back(
      "Carbon and nutrients are estimates by the materials' figures or a laboratory; losses are "
      "those that the literature expects of such a batch.");
  for (const model::Told& one : words.input.impossible) {
    section.says.push_back(
        fmt::format("{}: {}; {}; {}.", one.batch, one.words.says, one.words.why, one.words.action));
  }
  if (!site.rows.empty()) section.tables.push_back(std::move(site));
  if (!batches.rows.empty()) section.tables.push_back(std::move(batches));
  return section;
}

Section section_loop(const ReportWords& words) {
  Section section{"loop",      "How far the loop closes, and what it replaced", {}, {}, {}, {}, {},
                  std::nullopt};
  const Loop& loop = words.input.loop;
  for (const LoopShare& one : loop.shares) {
    const auto add = [&](const std::string& key, const std::string& name, double share) {
      Figure made;
      made.key = key;
      made.name = name;
      made.si = share;
      made.unit = "1";
      made.shown = words.print(measure::Fraction{share});
      made.basis = one.basis;
      section.figures.push_back(std::move(made));
    };
    const auto share = one.share();
    if (!share) continue;
    add("loop." + one.key, "of what was " + one.name + ", the site's own", share->value);
    if (one.nitrogen_share) {
      add("loop." + one.key + ".nitrogen", "the same by nitrogen, of what was " + one.name,
          one.nitrogen_share->value);
    }
  }
  if (loop.kept_from_landfill.value > 0) {
    Figure kept =
        estimate("loop.landfill", "", "kept from landfill", loop.kept_from_landfill, words);
    kept.basis = loop.kept_basis;
    section.figures.push_back(std::move(kept));
  }
  ReportTable table{"replaced",
                    "What the site's own took the place of",
                    {{"bought otherwise"},
                     {"amount", Role::kNumber},
                     {"worth", Role::kNumber},
                     {"rests on", Role::kAside}},
                    {},
                    false};
  for (const Replaced& one : loop.replaced) {
    Figure made;
    made.key = "replaced." + one.key;
    made.name = one.name;
    made.si = one.amount.value.si;
    made.unit = std::string(measure::base_unit(one.amount.value.dimension));
    made.shown = model::shown({one.key, one.name, one.amount, "", one.range}, words.print);
    if (one.range) {
      made.low = one.range->low;
      made.high = one.range->high;
    }
    made.basis = one.basis;
    made.estimated = true;
    Cell worth = text_cell("no price set");
    if (one.money) {
      worth = figure_cell(money_figure("replaced." + one.key + ".worth", "", one.name,
                                       std::llround(*one.money * 100)));
    }
    table.rows.push_back(
        {text_cell(one.name), figure_cell(std::move(made)), worth, text_cell(one.basis)});
  }
  if (!table.rows.empty()) section.tables.push_back(std::move(table));
  if (section.figures.empty() && section.tables.empty()) {
    section.says.emplace_back(
        "Nothing of the site's own went to a bed or the flock in these days.");
  }
  return section;
}

Section section_greenhouse(const ReportWords& words) {
  Section section{"greenhouse", "Greenhouse gas", {}, {}, {}, {}, {}, std::nullopt};
  const Greenhouse& account = words.input.loop.greenhouse;
  if (account.lines.empty()) {
    section.says.emplace_back("Nothing of these days enters the account.");
    return section;
  }
  ReportTable table{"greenhouse",
                    "Kept out of the air, as carbon dioxide; below zero: let into it",
                    {{"by"}, {"CO2 equivalent", Role::kNumber}, {"rests on", Role::kAside}},
                    {},
                    true};
  const auto row = [&](const std::string& key, const std::string& name, Kilograms usual,
                       Kilograms low, Kilograms high, std::string basis) {
    Figure made = estimate("greenhouse." + key, "", name, usual, words);
    made.low = low.value;
    made.high = high.value;
    made.shown = words.print.between(measure::value_of(low), measure::value_of(high));
    made.basis = std::move(basis);
    table.rows.push_back({text_cell(name), figure_cell(made), text_cell(made.basis)});
  };
  for (const GreenhouseLine& line : account.lines) {
    row(line.key, line.name, line.co2e, line.low, line.high, line.basis + " (" + line.source + ")");
  }
  row("net", "net", account.net(), account.low(), account.high(), "");
  section.tables.push_back(std::move(table));
  section.says.push_back(sign_words(account, words.print));
  section.says.push_back(account.set + ".");
  for (const std::string& note : account.notes) section.says.push_back(note);
  return section;
}

}  // namespace season
