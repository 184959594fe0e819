#include <fmt/format.h>

#include <algorithm>

#include "kinds/kind.h"
#include "season/inspection.h"

// The tables that a batch's record and the site's share.
namespace season {
namespace {

using Type = DocumentColumn::Type;

std::string who_of(const model::Movement& load, const Inspected& site) {
  const auto found = site.carried_by.find(load.id);
  return found == site.carried_by.end() ? "" : found->second;
}

const DocumentColumn kDay{"day", "day", "the site's own day", Type::kDay};
const DocumentColumn kMaterial{"material", "what", "the material's own name"};
const DocumentColumn kTyped{"amount_typed", "amount", "the amount as typed"};
const DocumentColumn kAmount{"amount", "", "the amount as measured, in amount_unit", Type::kNumber};
const DocumentColumn kUnit{"amount_unit", "", "kg, L, 1 (a count) or kWh"};
const DocumentColumn kMass{"mass_kg", "weight", "its mass in kg, where it is known", Type::kNumber};
const DocumentColumn kMassIs{"mass_is", "", "weighed, estimated (by bulk density) or unknown"};
const DocumentColumn kLot{"lot", "lot or invoice", "lot, invoice or delivery note, as typed"};
const DocumentColumn kWho{"recorded_by", "recorded by", "who recorded it"};

std::vector<DocumentCell> start_of_row(const model::Movement& load, const measure::Printer& print) {
  return {day_cell(load.day),
          {load.material.name},
          {load.typed},
          number_cell(load.amount.si, ""),
          {std::string(measure::base_unit(load.amount.dimension))},
          mass_cell(load, print),
          {!load.mass()     ? "unknown"
           : load.weighed() ? "weighed"
                            : "estimated"}};
}

void add(std::vector<DocumentCell>& row, std::vector<DocumentCell> cells) {
  for (DocumentCell& one : cells) row.push_back(std::move(one));
}

std::string code_of(const std::string& label) {
  return label.substr(0, label.find('/'));
}

}  // namespace

std::string made_words(const Inspected& site) {
  return measure::full_day_words(site.site.zone.day_of(site.now)) + ", " +
         date::format("%H:%M", site.site.zone.local(site.now)) + " by the site's clock (" +
         site.site.zone.name() + ")";
}

DocumentCell mass_cell(const model::Movement& load, const measure::Printer& print) {
  const auto mass = load.mass();
  if (!mass) return {load.amount.dimension == measure::Dimension::kCount ? "" : "not known"};
  return number_cell(mass->value, (load.weighed() ? "" : "~") + print(*mass));
}

DocumentTable loads_in(const std::vector<model::Movement>& loads, const Inspected& site) {
  const measure::Printer print(site.units);
  DocumentTable table{"loads-in",
                      "What went in",
                      {kDay,
                       kMaterial,
                       kTyped,
                       kAmount,
                       kUnit,
                       kMass,
                       kMassIs,
                       {"from", "from", "the batch it came from; outside: from outside"},
                       {"to", "to", "the batch it went to"},
                       {"supplier", "supplier", "who brought it, as typed"},
                       kLot,
                       {"statement", "", "its supplier's statement of treatment"},
                       kWho},
                      {},
                      "Nothing is recorded as having gone in."};
  for (const model::Movement& one : loads) {
    auto row = start_of_row(one, print);
    add(row, {{one.from.empty() ? "outside" : one.from},
              {one.to},
              {one.supplier},
              {one.lot},
              {one.material.statement},
              {who_of(one, site)}});
    table.rows.push_back(std::move(row));
  }
  return table;
}

DocumentTable loads_out(const std::vector<model::Movement>& loads, const Inspected& site) {
  const measure::Printer print(site.units);
  DocumentTable table{"loads-out",
                      "What came out, and where it went",
                      {kDay,
                       kMaterial,
                       kTyped,
                       kAmount,
                       kUnit,
                       kMass,
                       kMassIs,
                       {"from", "from", "the batch it came from"},
                       {"to", "to", "the batch it went to; away: off the site"},
                       {"for", "for", "what it was taken for, as typed"},
                       {"buyer", "buyer", "who got it, as typed"},
                       kLot,
                       {"still_raw", "still raw", "raw manure in it that is not shown treated"},
                       kWho},
                      {},
                      "Nothing is recorded as having come out."};
  for (const model::Movement& one : loads) {
    std::string raw;
    for (const model::ManureTrail& trail : one.manure) {
      raw += (raw.empty() ? "" : "; ") + trail.material +
             (trail.because.empty() ? "" : " (" + trail.because + ")");
    }
    auto row = start_of_row(one, print);
    add(row, {{one.from},
              {one.to.empty() ? "away" : one.to},
              {one.purpose},
              {one.buyer},
              {one.lot},
              {raw},
              {who_of(one, site)}});
    table.rows.push_back(std::move(row));
  }
  return table;
}

DocumentTable tools_table(const Inspected& site) {
  DocumentTable table{"tools",
                      "What was measured with, and when it was checked",
                      {{"tool", "tool", "its name"},
                       {"day", "checked", "the day of the check", Type::kDay},
                       {"against", "against what", "what it was compared with, and how it read"},
                       kWho},
                      {},
                      "No check of a thermometer is on record; 'roundbook tool' records one."};
  for (const model::ToolCheck& one : site.checks) {
    table.rows.push_back({{one.name}, day_cell(one.day), {one.against}, {one.who}});
  }
  return table;
}

std::vector<const model::Movement*> harvests_after(const std::string& ground, measure::Day day,
                                                   const Inspected& site) {
  std::vector<const model::Movement*> found;
  for (const model::Movement& one : site.movements) {
    const bool of_it = !one.from.empty() && code_of(one.from) == code_of(ground) &&
                       kinds::has_role(one.from_kind, &kinds::Roles::ground);
    if (of_it && one.day >= day) found.push_back(&one);
  }
  return found;
}

}  // namespace season
