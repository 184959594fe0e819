#include <doctest/doctest.h>
#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <random>

#include "full_site.h"

namespace undo_chance_test {

using book::Pen;
using measure::Dimension;
using measure::Instant;

namespace {

// A few hundred entries as chance has them, with undos between; the same in every run.
class Chance {
 public:
  explicit Chance(FullSite& site) : site_(site) {}

  void step() {
    const unsigned what = below(20);
    if (what < 5 && !before_.empty()) {
      REQUIRE(undo(site_));
      if (before_.back().was) CHECK(difference(*before_.back().was, site_.dump()) == "");
      before_.pop_back();
      return;
    }
    if (what < 7 && !before_.empty()) return strike_any();
    std::string was = site_.dump();
    site_.entry("chance", [&](Pen& pen) { write(pen, what); });
    before_.push_back({book::last_entry(site_.logbook)->id, std::move(was)});
  }

  // What stood before the earlier entries stands again once the later ones are taken back; before
  // the next one, what stood before the one that was struck.
  void strike_any() {
    const auto one = before_.begin() + below(static_cast<unsigned>(before_.size()));
    const std::string whole = site_.dump(true);
    if (!strike(site_, one->entry)) {
      CHECK(difference(whole, site_.dump(true)) == "");
      return;
    }
    ++struck;
    CHECK_FALSE(strike(site_, one->entry));
    auto next = std::next(one);
    if (next != before_.end()) {
      next->was = one->was;
      for (++next; next != before_.end(); ++next) next->was.reset();
    } else if (one->was) {
      CHECK(difference(*one->was, site_.dump()) == "");
    }
    before_.erase(one);
  }

  int struck = 0;

  unsigned below(unsigned end) { return static_cast<unsigned>(random_() % end); }

 private:
  // Four weeks around the end of daylight saving, to the quarter of an hour.
  Instant moment() {
    return build::at(build::day("2026-10-18"), 7) + std::chrono::minutes{15} * below(4 * 24 * 28);
  }
  std::int64_t batch() {
    const auto all = book::all_batches(site_.logbook);
    return all[below(static_cast<unsigned>(all.size()))].id;
  }

  void write(Pen& pen, unsigned what) {
    static constexpr const char* kPositions[] = {"", "core", "edge"};
    if (what < 11) {
      for (unsigned n = below(4) + 1; n > 0; --n) {
        // Quarters of a degree: their sums are exact in any order.
        pen.add_reading({batch(), "temperature", kPositions[below(3)], moment(),
                         static_cast<double>(below(400)) / 4 - 20});
      }
    } else if (what == 11) {
      pen.add_word(batch(), moment(), below(2) == 0 ? "" : "moisture", "damp");
    } else if (what == 12) {
      pen.add_note(batch(), moment(), kAwkward);
    } else if (what == 13) {
      pen.add_movement(
          movement(std::nullopt, batch(), {Dimension::kMass, below(40) + 0.5}, moment()));
    } else if (what == 14) {
      pen.add_movement(
          movement(batch(), std::nullopt, {Dimension::kCount, below(40) + 1.0}, moment()));
    } else if (what == 15) {
      start_or_end(pen);
    } else if (what == 16) {
      pen.set_place("place " + std::to_string(below(4)), static_cast<int>(below(5)));
    } else if (what == 17) {
      pen.set_container("bucket", measure::Litres{(below(30) + 0.1) * 3.785411784}, kAwkward);
    } else if (what == 18) {
      if (!pen.clear_rule("pile.hot.above", 0)) pen.set_rule("pile.hot.above", 0, below(80), "?");
    } else {
      pen.set_figure("leaves", {model::Property::kMoisture, below(100) / 100.0, kAwkward});
    }
  }

  void start_or_end(Pen& pen) {
    const std::string code = "bin-" + std::to_string(below(3));
    const auto known = book::find_batch(site_.logbook, code);
    if (known && !known->ended) {
      pen.end_batch(known->id, moment(), kAwkward);
    } else {
      pen.start_batch({code, "larvae", std::nullopt, moment(), {{"eggs", "5 g", std::nullopt}}});
    }
  }

  FullSite& site_;
  std::mt19937 random_{20261101};
  struct Before {
    std::int64_t entry;
    std::optional<std::string> was;  // none: it never was so without an entry that was struck
  };
  std::vector<Before> before_;
};

// Every roll as it would be made from the readings alone.
std::string rolls_from_readings(SiteBook& site) {
  std::map<std::pair<std::int64_t, measure::Day>, model::DayRoll> rolls;
  book::Query row(site.logbook, "SELECT series, at, value FROM reading ORDER BY series, at");
  while (row.next()) {
    const measure::Day day = site.logbook.site().zone.day_of(row.instant(1));
    const double value = row.real(2);
    const auto [at, fresh] =
        rolls.emplace(std::pair(row.integer(0), day),
                      model::DayRoll{day, 0, value, value, 0, value, row.instant(1)});
    model::DayRoll& roll = at->second;
    ++roll.count;
    roll.least = std::min(roll.least, value);
    roll.greatest = std::max(roll.greatest, value);
    roll.total += value;
    roll.last = value;
    roll.last_at = row.instant(1);
  }
  std::string text;
  for (const auto& [key, roll] : rolls) {
    text += fmt::format("{} {} {} {} {} {} {} {}\n", key.first, measure::iso_date(roll.day),
                        roll.count, roll.least, roll.greatest, roll.total,
                        roll.last_at.time_since_epoch().count(), roll.last);
  }
  return text;
}

std::string rolls_as_kept(const book::Logbook& logbook) {
  std::string text;
  book::Query row(logbook,
                  "SELECT series, day, n, least, greatest, total, last_at, last FROM day_roll"
                  " ORDER BY series, day");
  while (row.next()) {
    text += fmt::format("{} {} {} {} {} {} {} {}\n", row.integer(0), measure::iso_date(row.day(1)),
                        row.integer(2), row.real(3), row.real(4), row.real(5), row.integer(6),
                        row.real(7));
  }
  return text;
}

// How many keys of typed readings are missing or too many.
int wrongly_typed(SiteBook& site) {
  return count(site,
               "WITH typed AS (SELECT entry, series, at FROM reading"
               " WHERE entry NOT IN (SELECT entry FROM import))"
               " SELECT (SELECT count(*) FROM (SELECT * FROM typed EXCEPT"
               " SELECT entry, series, at FROM reading_typed)) +"
               " (SELECT count(*) FROM (SELECT entry, series, at FROM reading_typed EXCEPT"
               " SELECT * FROM typed))");
}

}  // namespace

TEST_CASE("whatever is done and undone, the rolls are those of the readings") {
  FullSite site;
  Chance chance(site);
  for (int step = 0; step < 400; ++step) {
    CAPTURE(step);
    chance.step();
    if (step % 20 != 0) continue;
    CHECK(difference(rolls_from_readings(site), rolls_as_kept(site.logbook)) == "");
    CHECK(wrongly_typed(site) == 0);
  }
  CHECK(chance.struck > 10);
  CHECK(wrongly_typed(site) == 0);
  CHECK(count(site, "SELECT count(*) FROM reading_typed") > 20);
  const std::string rolls = rolls_as_kept(site.logbook);
  CHECK(difference(rolls_from_readings(site), rolls) == "");
  CHECK(std::count(rolls.begin(), rolls.end(), '\n') > 50);
  CHECK(count(site, "SELECT count(*) FROM journal WHERE NOT json_valid(before)") == 0);
  CHECK(count(site,
              "SELECT count(*) FROM journal WHERE after IS NOT NULL AND NOT json_valid(after)") ==
        0);
  // Another connection sees the same.
  const book::Logbook other(site.path, book::Access::kRead);
  CHECK(rolls_as_kept(other) == rolls);
  CHECK(book::last_entry(other)->id == book::last_entry(site.logbook)->id);
  CHECK(count(site, "SELECT count(*) FROM pragma_integrity_check WHERE integrity_check <> 'ok'") ==
        0);
  CHECK(count(site, "SELECT count(*) FROM pragma_foreign_key_check") == 0);
}

}  // namespace undo_chance_test
