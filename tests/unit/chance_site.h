#pragma once

#include <algorithm>
#include <random>

#include "book/write/amend.h"
#include "full_site.h"

// What people do to a logbook, as chance has it: the same in every run of one seed.
class ChanceSite {
 public:
  ChanceSite(book::Logbook& logbook, unsigned seed) : logbook_(logbook), random_(seed) {}

  // One entry: something recorded, amended or taken back.
  void step() {
    clock_ += std::chrono::seconds{below(7200)};
    const unsigned what = below(24);
    if (what < 3) return take_back();
    if (what < 8 && amend()) return;
    book::Pen pen(logbook_, {"ada", "chance", "chance", clock_});
    write(pen, what);
    pen.commit();
  }

  void set_clock(measure::Instant now) { clock_ = now; }
  unsigned below(unsigned end) { return static_cast<unsigned>(random_() % end); }

 private:
  measure::Instant moment() {
    return build::at(build::day("2026-10-18"), 7) + std::chrono::minutes{15} * below(4 * 24 * 28);
  }
  std::optional<std::int64_t> batch() {
    const auto all = book::all_batches(logbook_);
    if (all.empty()) return std::nullopt;
    return all[below(static_cast<unsigned>(all.size()))].id;
  }
  // Thirds: their sums depend on the order they are made in.
  double number() { return static_cast<double>(below(1000)) / 3; }

  // The last entry, or any.
  void take_back() {
    book::Pen pen(logbook_, {"ada", "undo", "undo", clock_});
    const auto entries = static_cast<unsigned>(book::count_entries(logbook_));
    const bool done = below(3) == 0 ? book::undo_one(logbook_, pen, 1 + below(entries)).ok()
                                    : book::undo_last(logbook_, pen).has_value();
    if (done) pen.commit();
  }

  bool amend() {
    const int entries = book::count_entries(logbook_);
    if (entries == 0) return false;
    const auto written = book::written_by(logbook_, 1 + below(static_cast<unsigned>(entries)));
    const auto other = batch();
    if (!written || written->undone_by || !other) return false;
    book::Pen pen(logbook_, {"bob", "amend", "amend", clock_});
    bool any = false;
    for (const auto& one : written->readings) {
      book::NewReading is{one.batch, one.quantity, one.position, one.at, number(), false};
      if (below(3) == 0) is.at = moment();
      if (below(4) == 0) is.batch = *other;
      any |= !book::amend(logbook_, pen, one, is);
    }
    for (auto one : written->words) {
      one.word = below(2) == 0 ? "turned" : "watered";
      one.at = moment();
      book::amend(logbook_, pen, one);
      any = true;
    }
    for (auto one : written->notes) {
      one.text = "note " + std::to_string(below(1000));
      book::amend(logbook_, pen, one);
      any = true;
    }
    for (auto one : written->movements) {
      one.what.amount.si = number() + 0.1;
      if (below(3) == 0 && one.what.to) one.what.to = *other;
      book::amend(logbook_, pen, one);
      any = true;
    }
    if (any) pen.commit();
    return any;
  }

  void write(book::Pen& pen, unsigned what) {
    static constexpr const char* kPositions[] = {"", "core", "edge"};
    const auto where = batch();
    if (!where || what == 8) {
      start_or_end(pen);
    } else if (what < 16) {
      for (unsigned n = below(4) + 1; n > 0; --n) {
        pen.add_reading({*batch(), "temperature", kPositions[below(3)], moment(), number()});
      }
      if (below(2) == 0) pen.add_note(*where, moment(), kAwkward);
    } else if (what == 16) {
      pen.add_word(*where, moment(), below(2) == 0 ? "" : "moisture", "damp");
    } else if (what < 19) {
      pen.add_movement(
          movement(std::nullopt, *where, {measure::Dimension::kMass, number() + 0.1}, moment()));
    } else if (what == 19) {
      pen.set_place("place " + std::to_string(below(4)), static_cast<int>(below(5)));
    } else if (what == 20) {
      pen.set_container("bucket", measure::Litres{number() + 0.1}, kAwkward);
    } else if (what == 21) {
      if (!pen.clear_rule("pile.hot.above", 0)) pen.set_rule("pile.hot.above", 0, number(), "?");
    } else if (what == 22) {
      model::Material own;
      own.name = "reed " + std::to_string(below(3));
      own.group = "brown";
      pen.set_material(own);
    } else {
      pen.set_figure("leaves", {model::Property::kMoisture, number() / 1000, kAwkward});
    }
  }

  void start_or_end(book::Pen& pen) {
    const std::string code = "bin-" + std::to_string(below(3));
    const auto known = book::find_batch(logbook_, code);
    if (known && !known->ended) {
      pen.end_batch(known->id, moment(), kAwkward);
    } else {
      pen.start_batch({code, "larvae", std::nullopt, moment(), {{"eggs", "5 g", std::nullopt}}});
    }
  }

  book::Logbook& logbook_;
  std::mt19937 random_;
  measure::Instant clock_ = build::at(build::day("2026-11-20"), 7);
};
