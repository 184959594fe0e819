#pragma once

#include <optional>
#include <string>

#include "book/write/undo.h"
#include "site_book.h"

// For tests that change a logbook and take the change back: a site that has one of everything.

inline const measure::Instant kMorning = build::at(build::day("2026-04-06"), 15);

// What a text may hold past what JSON and SQL write as it is.
inline const std::string kAwkward = R"(say "hot" \ back\\slash 'quoted' ½ 堆肥 🌱 {"a":1} -- ; %s)";

inline int count(SiteBook& site, const std::string& sql) {
  return site.logbook.connection().database.execAndGet(sql).getInt();
}

inline std::optional<book::EntrySummary> undo(SiteBook& site) {
  book::Pen pen(site.logbook, {"ada", "undo", "undo", kMorning});
  auto taken_back = book::undo_last(site.logbook, pen);
  if (taken_back) pen.commit();
  return taken_back;
}

// One entry is struck by its number; false: it cannot be, and nothing was changed.
inline bool strike(SiteBook& site, std::int64_t entry) {
  book::Pen pen(site.logbook, {"ada", "undo", "undo", kMorning});
  const auto taken_back = book::undo_one(site.logbook, pen, entry);
  if (taken_back) pen.commit();
  return taken_back.ok();
}

inline book::NewMovement movement(std::optional<std::int64_t> from, std::optional<std::int64_t> to,
                                  measure::Value amount, measure::Instant at = kMorning) {
  book::NewMovement made;
  made.at = at;
  made.material = "leaves";
  made.from = from;
  made.to = to;
  made.amount = amount;
  made.typed = "2 bucket \"heaped\"";
  made.purpose = kAwkward;
  made.paid_cents = 1250;
  made.supplier = kAwkward;
  made.lot = "4711";
  made.buyer = kAwkward;
  return made;
}

struct FullSite : SiteBook {
  std::int64_t heap{}, bed{};

  FullSite() {
    entry("place", [](book::Pen& pen) { pen.set_place("yard \"north\" \\ ½", std::nullopt); });
    entry("place", [](book::Pen& pen) { pen.set_place("shed", std::nullopt); });
    entry("start", [&](book::Pen& pen) {
      heap = pen.start_batch(
          {"heap-1",
           "pile",
           "shed",
           kMorning,
           {{"method", kAwkward, std::nullopt},
            {"volume", "1 yd3", measure::Value{measure::Dimension::kVolume, 764.554857984}}}});
    });
    bed = start("bed-1", kMorning, "bed");
    entry("log", [&](book::Pen& pen) {
      pen.add_reading({heap, "temperature", "core", kMorning, 60.25});
      pen.add_word(heap, kMorning, "moisture", "damp");
      pen.add_note(heap, kMorning, kAwkward);
      pen.add_photo({kAwkward, std::string(64, 'a'), ""});
    });
    entry("add", [&](book::Pen& pen) {
      pen.add_movement(movement(std::nullopt, heap, {measure::Dimension::kVolume, 37.85411784}));
    });
    entry("container", [](book::Pen& pen) {
      pen.set_container("bucket", measure::Litres{18.92705892}, kAwkward);
    });
    entry("tool", [](book::Pen& pen) {
      pen.check_tool("probe-1", measure::Day{date::days{20000}}, kAwkward);
    });
    entry("rule", [&](book::Pen& pen) { pen.set_rule("pile.hot.above", 0, 68.125, kAwkward); });
    entry("rule", [&](book::Pen& pen) { pen.set_rule("pile.hot.above", heap, 66, "66C"); });
    entry("later",
          [&](book::Pen& pen) { pen.put_off(heap, "pile.turn", measure::Day{date::days{21000}}); });
    entry("material", [](book::Pen& pen) {
      model::Material own;
      own.name = "hop bine";
      own.group = "green";
      own.aliases = {"bines", kAwkward};
      own.flags = {"plant"};
      pen.set_material(own);
      pen.set_figure("hop bine", {model::Property::kMoisture, 0.65, kAwkward});
    });
  }
};
