#include "cli/desk/desk.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>

#include "measure/text.h"
#include "model/material_groups.h"

namespace cli {
namespace {

// A command is about two batches at two moments; a round over all of them keeps no more in memory.
constexpr std::size_t kMostStudies = 4;
constexpr std::size_t kMostPrecedents = 12;

bool is_open(const model::Batch& batch, measure::Instant at) {
  return batch.started <= at && (!batch.ended || *batch.ended > at);
}

}  // namespace

Desk::Desk(const book::Logbook& logbook, measure::Instant now, measure::UnitSystem units)
    : logbook_(&logbook),
      now_(now),
      print_(units),
      materials_(std::make_shared<const book::Materials>(logbook)),
      containers_(book::containers(logbook)) {}

measure::Result<Desk> Desk::lay_out(const Context& context) {
  const model::Site& site = context.book->site();
  measure::Instant now = context.clock;
  if (context.as_of) {
    const auto when =
        measure::parse_when(*context.as_of, context.clock, site.zone, measure::DayMeans::kItsEnd);
    if (!when) {
      const bool is_to_come = measure::parse_coming_day(*context.as_of, site.zone.day_of(now)) ||
                              measure::parse_iso_moment(*context.as_of) > now;
      return measure::Mistake{*context.as_of,
                              fmt::format("--as-of: {}{}", when.mistake().why,
                                          is_to_come ? "; 'roundbook ahead' looks forward" : "")};
    }
    now = when->at;
  }
  return Desk(*context.book, now, context.units.value_or(site.units));
}

measure::Result<model::Batch> Desk::batch(std::string_view label) const {
  if (auto found = book::find_batch(*logbook_, label)) {
    if (kinds::find_kind(found->kind) != nullptr) return *found;
    return measure::Mistake{std::string(label),
                            fmt::format("{} is of a kind that this roundbook does not know ({}); "
                                        "install the roundbook that wrote it",
                                        found->code, measure::quoted(found->kind))};
  }
  std::vector<std::string> codes;
  for (const model::Batch& one : batches()) codes.push_back(one.code);
  if (codes.empty()) {
    return measure::Mistake{std::string(label),
                            fmt::format("there is no batch {}, nor any other yet; 'roundbook start "
                                        "pile {}' would begin it",
                                        measure::quoted(label), "heap-1")};
  }
  return no_such("batch", label, codes);
}

measure::Result<model::Batch> Desk::open_batch(std::string_view label, measure::Instant at) const {
  auto found = batch(label);
  if (!found) return found;
  if (at < found->started) {
    return measure::Mistake{std::string(label),
                            fmt::format("{} was started {}, after the moment you give", found->code,
                                        measure::moment_words(found->started, now_, site().zone))};
  }
  if (found->ended && at > *found->ended) {
    return measure::Mistake{
        std::string(label),
        fmt::format("{} ended {}; 'roundbook start' begins a new one of that code", found->code,
                    measure::moment_words(*found->ended, now_, site().zone))};
  }
  return found;
}

Desk::Shared& Desk::shared() const {
  const std::int64_t changes = book::changes(*logbook_);
  if (shared_.changes != changes) shared_ = Shared{changes, {}, {}, {}, {}, {}};
  return shared_;
}

const std::vector<model::Batch>& Desk::batches() const {
  auto& kept = shared().batches;
  if (!kept) {
    kept = book::all_batches(*logbook_);
    std::erase_if(*kept,
                  [](const model::Batch& one) { return kinds::find_kind(one.kind) == nullptr; });
  }
  return *kept;
}

std::vector<model::Batch> Desk::unknown_batches() const {
  std::vector<model::Batch> unknown = book::all_batches(*logbook_);
  std::erase_if(unknown,
                [](const model::Batch& one) { return kinds::find_kind(one.kind) != nullptr; });
  return unknown;
}

std::vector<model::Batch> Desk::open_batches() const {
  std::vector<model::Batch> open;
  for (const model::Batch& one : batches()) {
    if (is_open(one, now_)) open.push_back(one);
  }
  return open;
}

// Apart from the desk, which may be moved while what stands behind loads is kept.
season::Provenances::Find Desk::find_source() const {
  return [logbook = logbook_, materials = materials_, units = print_.system(),
          now = now_](const std::string& label) -> std::optional<season::SourceBatch> {
    const auto found = book::find_batch(*logbook, label);
    if (!found) return std::nullopt;
    return season::SourceBatch{kinds::find_kind(found->kind),
                               [logbook, materials, units, batch = *found](measure::Instant at) {
                                 auto then = book::history(*logbook, *materials, batch, at);
                                 then.units = units;
                                 return then;
                               },
                               [logbook, materials, now, batch = *found] {
                                 return book::loads_into(*logbook, *materials, batch, now);
                               },
                               book::rules(*logbook, *found), now};
  };
}

season::Provenances& Desk::known() const {
  auto& kept = shared().known;
  if (!kept) kept.emplace(find_source());
  return *kept;
}

const Desk::Finished& Desk::finished(const kinds::Kind& of, measure::Instant until) const {
  Finished& kept = shared().finished[{std::string(of.name), until}];
  if (kept.batches) return kept;
  auto batches = std::make_shared<std::vector<model::History>>();
  for (const model::Batch& one : book::ended_batches(*logbook_, of.name, until, kMostPrecedents)) {
    batches->push_back(book::history(*logbook_, *materials_, one, until));
  }
  kept.batches = batches;
  kept.lesson = of.needs.learn(kept.batches, site_rules(), site().zone.day_of(until));
  return kept;
}

void Desk::bring_provenance(model::Movement& load) const {
  known().bring(load);
}

void Desk::bring_provenance(std::vector<model::Movement>& loads) const {
  known().bring(loads);
}

std::vector<model::Movement> Desk::movements(measure::Instant since, measure::Instant until) const {
  auto movements = book::movements(*logbook_, *materials_, since, until);
  bring_provenance(movements);
  return movements;
}

model::History Desk::history(const model::Batch& batch, measure::Instant until) const {
  model::History history = book::history(*logbook_, *materials_, batch, until);
  history.units = print_.system();
  if (kind(batch).needs.ground) {
    for (const model::Batch& one : batches()) {
      if (one.code != batch.code || one.kind != batch.kind || one.run >= batch.run) continue;
      const auto before = book::history(*logbook_, *materials_, one, until);
      const auto append = [](auto& to, const auto& from) {
        to.insert(to.end(), from.begin(), from.end());
      };
      append(history.earlier_in, before.in);
      append(history.earlier_deeds, before.deeds);
      append(history.earlier_sensed, before.sensed);
    }
  }
  if (kind(batch).needs.provenance) {
    bring_provenance(history.in);
    bring_provenance(history.earlier_in);
  }
  if (kind(batch).needs.finished) {
    const Finished& known = finished(kind(batch), until);
    history.finished = known.batches;
    history.lesson = known.lesson;
  }
  if (kind(batch).needs.used) {
    history.used = used(until);
    history.containers = std::make_shared<const std::vector<measure::Container>>(containers_);
  }
  return history;
}

std::shared_ptr<const std::set<std::string>> Desk::used(measure::Instant until) const {
  auto& kept = shared().used[until];
  if (!kept) {
    kept = std::make_shared<const std::set<std::string>>(book::materials_used(*logbook_, until));
  }
  return kept;
}

model::Rules Desk::site_rules() const {
  return book::rules(*logbook_, model::Batch{});
}

Studied Desk::study(const model::Batch& batch) const {
  return study(batch, now_);
}

Studied Desk::study(const model::Batch& batch, measure::Instant until) const {
  auto& kept = shared().studies;
  const std::pair key{batch.id, until};
  if (const auto found = kept.find(key); found != kept.end()) return found->second;
  if (kept.size() >= kMostStudies) kept.clear();
  const Studied made{history(batch, until), book::rules(*logbook_, batch)};
  return kept.insert_or_assign(key, made).first->second;
}

model::Assessment Desk::assess(const model::History& history, kinds::Extent extent) const {
  return kinds::assess(history, book::rules(*logbook_, history.batch), extent);
}

const kinds::Kind& Desk::kind(const model::Batch& batch) const {
  const kinds::Kind* found = kinds::find_kind(batch.kind);
  assert(found != nullptr);
  return *found;
}

measure::Result<Recorded> recorded_at(const Context& context, const Arguments& arguments,
                                      const model::Site& site) {
  const auto option = arguments.option("when");
  if (!option) return Recorded{context.clock, ""};
  const auto when = measure::parse_when(*option, context.clock, site.zone);
  if (!when) return measure::Mistake{*option, "--when: " + when.mistake().why};
  Recorded recorded{when->at, ""};
  if (when->twice) {
    recorded.remark =
        fmt::format("the clock showed that time twice that night; taken as the first, {}",
                    site.zone.iso(when->at));
  }
  return recorded;
}

std::string as_known(const std::string& name, const std::vector<std::string>& known) {
  if (std::find(known.begin(), known.end(), name) != known.end()) return name;
  const auto same = [&](const std::string& one) {
    return measure::folded(one) == measure::folded(name);
  };
  const auto found = std::find_if(known.begin(), known.end(), same);
  return found == known.end() ? name : *found;
}

namespace {

constexpr std::string_view kManure = "manure";

bool is_dung(std::string_view word) {
  static constexpr std::array<std::string_view, 10> kWords{
      kManure, "poo", "poop", "poos", "dung", "muck", "droppings", "crap", "dirt", "pats"};
  return std::ranges::find(kWords, word) != kWords.end();
}

// Whose it is decides what may be done with it, so it is never guessed.
measure::Mistake whose_manure(std::string_view word, const book::Materials& materials) {
  std::vector<std::string> whose;
  for (const model::Material& one : materials.all()) {
    const std::size_t space = one.name.find(' ');
    const bool of_animal = one.group == model::group::kManure && space != std::string::npos &&
                           std::string_view(one.name).substr(space + 1) == kManure &&
                           (one.is("hoofed") || one.is("poultry"));
    if (of_animal) whose.push_back(one.name.substr(0, space));
  }
  return {std::string(word), fmt::format("{} of which animal: {}? Write it like 'horse manure'",
                                         word, measure::listed(whose))};
}

}  // namespace

std::string dung_as_manure(std::string_view name) {
  const std::string plain = measure::folded(name);
  const std::size_t space = plain.rfind(' ');
  if (space == std::string::npos || !is_dung(plain.substr(space + 1))) return plain;
  return plain.substr(0, space + 1) + std::string(kManure);
}

measure::Mistake no_material(std::string_view word, const book::Materials& materials) {
  if (is_dung(measure::folded(word))) return whose_manure(word, materials);
  auto near = materials.nearest(word);
  // What no standard covers is used on purpose or not at all.
  const model::Material* meant = near ? materials.find(*near) : nullptr;
  if (meant != nullptr && meant->is("human-waste")) near.reset();
  return {std::string(word),
          fmt::format("no material is called {}; {}", measure::quoted(word),
                      near ? fmt::format("did you mean {}?", *near)
                           : fmt::format("'roundbook material \"{}\" --new' adds it", word))};
}

measure::Result<std::int64_t> entry_number(std::string_view word) {
  std::string digits(word);
  if (digits.starts_with('#')) digits.erase(0, 1);
  std::int64_t number{};
  const char* const end = digits.data() + digits.size();
  const auto parsed = std::from_chars(digits.data(), end, number);
  if (parsed.ec == std::errc{} && parsed.ptr == end) return number;
  return measure::Mistake{std::string(word),
                          fmt::format("{} is no entry's number; 'roundbook history' shows them",
                                      measure::quoted(word))};
}

measure::Mistake no_such(std::string_view what, std::string_view word,
                         const std::vector<std::string>& known) {
  std::vector<std::string_view> words(known.begin(), known.end());
  std::sort(words.begin(), words.end());
  words.erase(std::unique(words.begin(), words.end()), words.end());
  std::string why = fmt::format("there is no {} {}", what, measure::quoted(word));
  if (const auto near = measure::nearest(word, words)) {
    why += fmt::format("; did you mean {}?", *near);
  } else if (!words.empty() && words.size() <= 24) {
    why += fmt::format("; there {} {}", words.size() == 1 ? "is" : "are",
                       measure::listed(words, "and"));
  }
  return {std::string(word), why};
}

}  // namespace cli
