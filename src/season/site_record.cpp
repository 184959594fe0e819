#include <fmt/format.h>

#include <algorithm>

#include "kinds/kind.h"
#include "measure/text.h"
#include "model/material_groups.h"
#include "season/inspection.h"

// The record of a site's season, as an inspector walks through it: batches, inputs, raw manure and
// the harvests after it, harvests and who got them.
namespace season {
namespace {

using Type = DocumentColumn::Type;

bool in(const Span& span, measure::Day day) {
  return day >= span.from && day <= span.to;
}

std::vector<model::Movement> picked(const Inspected& site, const Span& span, auto&& wanted) {
  std::vector<model::Movement> loads;
  for (const model::Movement& one : site.movements) {
    if (in(span, one.day) && wanted(one)) loads.push_back(one);
  }
  return loads;
}

DocumentTable batches_table(const std::vector<InspectedBatch>& batches) {
  DocumentTable table{"batches",
                      "Batches, and what their records show",
                      {{"batch", "batch", "its label"},
                       {"kind", "kind", "its kind"},
                       {"place", "place", "where it stands"},
                       {"begun", "begun", "its first day", Type::kDay},
                       {"ended", "ended", "its last day; empty: it is open", Type::kDay},
                       {"shows", "what its treatment record shows", "a standard each, by '; '"}},
                      {},
                      "No batch was alive in these days."};
  for (const InspectedBatch& one : batches) {
    const model::Batch& batch = one.history->batch;
    const auto record = kinds::study(*one.history, *one.rules)->record(kinds::RecordOf::kTreatment);
    table.rows.push_back(
        {{one.label},
         {batch.kind},
         {batch.place},
         day_cell(batch.started_day),
         batch.ended_day ? day_cell(*batch.ended_day) : DocumentCell{"open", {}, ""},
         {record ? measure::joined(record->outcome, "; ") : ""}});
  }
  return table;
}

// Each load of raw manure on a ground, with the harvests of the crop that waits for it.
DocumentTable intervals_table(const std::vector<InspectedBatch>& batches, const Span& span) {
  DocumentTable table{
      "intervals",
      "Raw manure on the ground, and the harvests after it",
      {{"ground", "ground", "the bed, and its crop's batch"},
       {"crop", "crop", "the crop that waits"},
       {"load_day", "got it", "the day of the load", Type::kDay},
       {"way", "what, and by which way", "the manure and the batches it came by"},
       {"safe_day", "harvest from", "the first day of a safe harvest; empty: nobody eats it",
        Type::kDay},
       {"first_harvest", "first harvest", "the first after the load; empty: none", Type::kDay},
       {"days_between", "days after", "days from the load to it", Type::kWhole},
       {"kept", "interval", "kept, NOT KEPT, or no harvest yet"}},
      {},
      "No raw manure went to ground that was harvested in these days."};
  for (const InspectedBatch& one : batches) {
    if (!kinds::has_role(one.history->batch.kind, &kinds::Roles::ground)) continue;
    const auto study = kinds::study(*one.history, *one.rules);
    for (const kinds::RawOnGround& raw : study->raw_on_ground()) {
      if (raw.load.day > span.to || (raw.safe && *raw.safe < span.from)) continue;
      const model::Movement* first = nullptr;
      bool early = false;
      for (const model::Movement& taken : one.history->out) {
        if (taken.day < raw.load.day) continue;
        if (first == nullptr) first = &taken;
        early = early || (raw.safe && taken.day < *raw.safe);
      }
      const int days = first == nullptr ? 0 : (first->day - raw.load.day).count();
      table.rows.push_back(
          {{one.label},
           {raw.crop},
           day_cell(raw.load.day),
           {raw.way},
           raw.safe ? day_cell(*raw.safe) : DocumentCell{"nobody eats it", {}, ""},
           first != nullptr ? day_cell(first->day) : DocumentCell{},
           first != nullptr ? number_cell(days, std::to_string(days)) : DocumentCell{},
           {first == nullptr ? "no harvest yet"
            : early          ? "NOT KEPT"
            : raw.safe       ? "kept"
                             : "not asked for"}});
    }
  }
  return table;
}

// What went to the ground before a harvest, but for water: the loads behind it.
std::string loads_before(const InspectedBatch& ground, const model::Movement& harvest) {
  std::vector<std::string> loads;
  const auto tell = [&](const std::vector<model::Movement>& of) {
    for (const model::Movement& one : of) {
      if (one.day > harvest.day || one.material.group == model::group::kWater) continue;
      loads.push_back(fmt::format("{} {}{}", measure::iso_date(one.day), one.material.name,
                                  one.from.empty() ? "" : " from " + one.from));
    }
  };
  tell(ground.history->earlier_in);
  tell(ground.history->in);
  return measure::joined(loads, "; ");
}

DocumentTable harvests_table(const std::vector<InspectedBatch>& batches, const Inspected& site,
                             const Span& span) {
  const measure::Printer print(site.units);
  DocumentTable table{"harvests",
                      "What was harvested, who got it, and the loads behind it",
                      {{"day", "day", "the site's own day", Type::kDay},
                       {"ground", "from", "the bed"},
                       {"crop", "what", "the material's own name"},
                       {"amount_typed", "amount", "the amount as typed"},
                       {"mass_kg", "weight", "its mass, where it is known", Type::kNumber},
                       {"for", "for", "what it was taken for"},
                       {"buyer", "buyer", "who got it"},
                       {"lot", "lot", "its lot"},
                       {"loads_before", "loads on that ground before it", "day, what and whence"}},
                      {},
                      "Nothing was harvested in these days."};
  for (const InspectedBatch& one : batches) {
    if (!kinds::has_role(one.history->batch.kind, &kinds::Roles::ground)) continue;
    std::string before;
    for (const model::Movement& taken : one.history->out) {
      if (!in(span, taken.day)) continue;
      std::string loads = loads_before(one, taken);
      const bool same = !table.rows.empty() && loads == before && !loads.empty();
      table.rows.push_back({day_cell(taken.day),
                            {one.label},
                            {taken.material.name},
                            {taken.typed},
                            mass_cell(taken, print),
                            {taken.purpose},
                            {taken.buyer},
                            {taken.lot},
                            {same ? "as above" : loads, std::nullopt, loads}});
      before = std::move(loads);
    }
  }
  return table;
}

}  // namespace

Document site_record(const std::vector<InspectedBatch>& batches, const Inspected& site,
                     const Span& span) {
  Document made;
  made.site = site.site.name;
  made.title = "Record of the season";
  made.span = measure::full_day_words(span.from) + " to " + measure::full_day_words(span.to);
  made.made = made_words(site);
  made.key = "record";
  auto bought = picked(site, span, [](const model::Movement& one) {
    return one.from.empty() && one.material.group != model::group::kWater &&
           one.material.group != model::group::kEnergy;
  });
  auto sold = picked(site, span, [](const model::Movement& one) {
    return one.to.empty() && !one.buyer.empty() &&
           !kinds::has_role(one.from_kind, &kinds::Roles::ground);
  });
  DocumentTable buyers = loads_out(sold, site);
  buyers.key = "sold";
  buyers.title = "What else went to a named buyer";
  buyers.none.clear();
  made.parts.push_back({"Batches", {}, {}, {batches_table(batches)}, false});
  made.parts.push_back(
      {"Inputs from outside", {}, {}, {loads_in(bought, site), tools_table(site)}, false});
  made.parts.push_back({"Raw manure and harvests",
                        {"The days between are those of 7 CFR 205.203(c)(1). Local rules and the "
                         "certifier stand above this."},
                        {},
                        {intervals_table(batches, span)},
                        false});
  made.parts.push_back({"Harvests and buyers",
                        {},
                        {},
                        {harvests_table(batches, site, span), std::move(buyers)},
                        false});
  for (const InspectedBatch& one : batches) {
    if (!kinds::study(*one.history, *one.rules)->record(kinds::RecordOf::kTreatment)) continue;
    for (DocumentPart& part : batch_parts(one, site)) {
      // The tools and the batch's own parts would bear the site's files' names.
      std::erase_if(part.tables, [](const auto& table) { return table.key == "tools"; });
      for (DocumentTable& table : part.tables) {
        if (!table.key.empty()) table.key = one.label + "-" + table.key;
        std::replace(table.key.begin(), table.key.end(), '/', '-');
      }
      if (part.title == "Corrections and tools") part.title = "Corrections";
      if (!part.new_page) part.title = one.label + ": " + part.title;
      made.parts.push_back(std::move(part));
    }
  }
  return made;
}

}  // namespace season
