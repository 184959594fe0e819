#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "book/read/query.h"
#include "book/read/read.h"
#include "measure/text.h"
#include "model/statement.h"

namespace book {
namespace {

bool called(std::string_view known, std::string_view wanted) {
  return known == wanted || std::string(known) + "s" == wanted ||
         known == std::string(wanted) + "s";
}

model::Material& named_in(std::vector<model::Material>& all, const std::string& name) {
  const auto found = std::find_if(all.begin(), all.end(), [&](const model::Material& material) {
    return material.name == name;
  });
  if (found != all.end()) return *found;
  model::Material bare;
  bare.name = name;
  return all.emplace_back(std::move(bare));
}

std::vector<model::Material> read_materials(const Logbook& logbook) {
  std::vector<model::Material> all = model::catalogue();
  Query own(logbook, "SELECT name, material_group, aliases, flags, statement FROM material");
  while (own.next()) {
    model::Material& material = named_in(all, own.text(0));
    material.group = own.text(1);
    material.aliases = measure::split(own.text(2), ';');
    material.flags = measure::split(own.text(3), ';');
    material.meaning = "a material of this site's own";
    // A note that is no statement of treatment lifts no wait, whoever set a flag by it.
    const std::string said = own.text(4);
    if (!said.empty() || material.is("treated")) model::state_treatment(material, said);
    if (!said.empty() && material.statement.empty()) {
      material.meaning += fmt::format("; {} is no statement of treatment", measure::quoted(said));
    }
  }
  std::map<std::string, std::vector<model::Figure>> own_figures;
  Query figure(logbook, "SELECT material, property, value, source FROM figure");
  while (figure.next()) {
    const model::PropertyInfo* property = model::find_property(figure.text(1));
    if (property == nullptr) continue;
    own_figures[figure.text(0)].push_back({property->property, figure.real(2), figure.text(3)});
  }
  for (const auto& [name, figures] : own_figures) model::overlay(named_in(all, name), figures);
  return all;
}

}  // namespace

const std::vector<model::Material>& Materials::all() const {
  if (!all_) all_ = read_materials(*logbook_);
  return *all_;
}

const model::Material* Materials::find(std::string_view name) const {
  const std::string typed = measure::folded(name);
  std::string spaced = typed;
  std::replace(spaced.begin(), spaced.end(), '-', ' ');
  for (const std::string& wanted : {typed, spaced}) {
    for (const model::Material& material : all()) {
      if (material.name == wanted) return &material;
    }
    for (const model::Material& material : all()) {
      if (called(material.name, wanted)) return &material;
      for (const std::string& alias : material.aliases) {
        if (called(alias, wanted)) return &material;
      }
    }
  }
  return nullptr;
}

std::optional<std::string> Materials::nearest(std::string_view name) const {
  std::vector<std::string_view> known;
  for (const model::Material& material : all()) {
    known.push_back(material.name);
    known.insert(known.end(), material.aliases.begin(), material.aliases.end());
  }
  return measure::nearest(name, known);
}

model::Material Materials::named(const std::string& name) const {
  if (by_name_.empty()) {
    for (std::size_t i = 0; i < all().size(); ++i) by_name_.emplace(all()[i].name, i);
  }
  if (const auto known = by_name_.find(name); known != by_name_.end()) return all()[known->second];
  model::Material bare;
  bare.name = name;
  return bare;
}

std::vector<measure::Container> containers(const Logbook& logbook) {
  std::vector<measure::Container> found;
  Query row(logbook, "SELECT name, litres FROM container ORDER BY name");
  while (row.next()) found.push_back({row.text(0), measure::Litres{row.real(1)}});
  return found;
}

std::vector<std::string> places(const Logbook& logbook) {
  std::vector<std::string> found;
  Query row(logbook, "SELECT name FROM place ORDER BY position");
  while (row.next()) found.push_back(row.text(0));
  return found;
}

std::vector<SiteRule> site_rules(const Logbook& logbook) {
  std::vector<SiteRule> found;
  Query row(logbook,
            "SELECT key, b.code, b.run, value, typed FROM rule LEFT JOIN batch AS b ON b.id = batch"
            " ORDER BY key, batch");
  while (row.next()) {
    SiteRule rule{row.text(0), "", row.real(3), row.text(4)};
    if (!row.null(1)) {
      model::Batch batch;
      batch.code = row.text(1);
      batch.run = static_cast<int>(row.integer(2));
      rule.batch = label_of(logbook, batch);
    }
    found.push_back(std::move(rule));
  }
  return found;
}

std::vector<PutOff> put_offs(const Logbook& logbook, measure::Instant at) {
  std::vector<PutOff> found;
  Query row(logbook,
            "SELECT b.code, p.rule, p.until FROM put_off AS p JOIN batch AS b ON b.id = p.batch"
            " JOIN entry AS e ON e.id = p.entry"
            " WHERE e.recorded_at <= ?1 AND (b.ended_at IS NULL OR b.ended_at > ?1)"
            " ORDER BY b.code, p.rule",
            at);
  while (row.next()) found.push_back({row.text(0), row.text(1), row.day(2)});
  return found;
}

model::Rules rules(const Logbook& logbook, const model::Batch& batch) {
  model::Rules in_force;
  // The kind's first (batch 0), so that the batch's own comes over it.
  Query row(logbook,
            "SELECT key, batch, value FROM rule WHERE batch IN (0, ?) ORDER BY batch = 0 DESC",
            batch.id);
  while (row.next()) {
    in_force.set(row.text(0), {row.real(2), row.integer(1) == 0 ? "this site's own rule"
                                                                : batch.code + "'s own rule"});
  }
  return in_force;
}

std::int64_t changes(const Logbook& logbook) {
  return logbook.connection().database.getTotalChanges() - logbook.connection().entry_rows;
}

int count_entries(const Logbook& logbook) {
  Query row(logbook, "SELECT count(*) FROM entry");
  row.next();
  return static_cast<int>(row.integer(0));
}

std::optional<EntrySummary> last_entry(const Logbook& logbook) {
  Query row(logbook,
            "SELECT id, recorded_at, who, command, line FROM entry"
            " WHERE undone_by IS NULL AND command NOT IN ('undo', 'check', 'merge')"
            " ORDER BY id DESC LIMIT 1");
  if (!row.next()) return std::nullopt;
  return EntrySummary{row.integer(0), row.instant(1), row.text(2), row.text(3), row.text(4)};
}

}  // namespace book
