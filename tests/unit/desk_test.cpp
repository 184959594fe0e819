#include "cli/desk/desk.h"

#include <doctest/doctest.h>

#include <sstream>

#include "full_site.h"

namespace desk_test {

// What the desk shares among batches is read once: it must be read again as soon as anything was
// recorded.
namespace {

struct DeskSite : SiteBook {
  std::ostringstream out, err;
  std::istringstream in;
  cli::Context context{.out = out,
                       .err = err,
                       .in = in,
                       .clock = kMorning + date::days{29},
                       .book_path = path,
                       .who = "ada",
                       .line = "",
                       .units = {},
                       .as_of = {},
                       .book = &logbook};
  cli::Desk desk = *cli::Desk::lay_out(context);

  void end(std::int64_t batch, measure::Instant at) {
    entry("end", [&](book::Pen& pen) { pen.end_batch(batch, at, std::nullopt); });
  }
  std::size_t finished(const char* code) const {
    return desk.history(*desk.batch(code)).finished->size();
  }
  // A pile of 30 days at 55 to 64 degC.
  std::int64_t hot_pile(const std::string& code, measure::Instant from) {
    const std::int64_t id = start(code, from);
    entry("log", [&](book::Pen& pen) {
      for (int day = 0; day < 30; ++day) {
        pen.add_reading({id, "temperature", "core", from + date::days{day}, 55.0 + day % 10});
      }
    });
    return id;
  }
};

}  // namespace

TEST_CASE("the desk sees a batch that was started, ended or taken back since it was laid out") {
  DeskSite site;
  CHECK(site.desk.batches().empty());
  const auto first = site.start("heap-1", kMorning);
  site.start("heap-2", kMorning);
  CHECK(site.desk.open_batches().size() == 2);
  CHECK(site.finished("heap-2") == 0);
  site.end(first, kMorning + date::days{20});
  CHECK(site.desk.open_batches().size() == 1);
  CHECK(site.finished("heap-2") == 1);
  CHECK(undo(site));
  CHECK(site.desk.open_batches().size() == 2);
  CHECK(site.finished("heap-2") == 0);
}

TEST_CASE("the desk works out anew what loads bring along") {
  DeskSite site;
  const auto pile = site.start("heap-1", kMorning);
  const auto bed = site.start("bed-1", kMorning, "bed");
  const auto carry = [&](std::optional<std::int64_t> from, std::optional<std::int64_t> to,
                         const std::string& material, int day) {
    site.entry("add", [&](book::Pen& pen) {
      auto made = movement(from, to, {measure::Dimension::kMass, 100}, kMorning + date::days{day});
      made.material = material;
      pen.add_movement(made);
    });
  };
  carry(std::nullopt, pile, "leaves", 1);
  carry(pile, bed, "compost", 20);
  CHECK(site.desk.history(*site.desk.batch("bed-1")).in.at(0).manure.empty());
  carry(std::nullopt, pile, "dairy manure", 2);
  const auto after = site.desk.history(*site.desk.batch("bed-1")).in.at(0).manure;
  REQUIRE(after.size() == 1);
  CHECK(after[0].material == "dairy manure");
}

TEST_CASE("a lesson that is worked out once says what each pile would have learnt by itself") {
  DeskSite site;
  for (const char* code : {"heap-1", "heap-2"}) {
    const auto from = kMorning - date::days{100};
    site.end(site.hot_pile(code, from), from + date::days{40});
  }
  const auto open = site.hot_pile("heap-3", kMorning);
  const auto says = [&](const model::History& history) {
    std::string text;
    for (const auto& one : site.desk.assess(history).forecasts) {
      text += one.what + ": " + one.says + '\n';
    }
    return text;
  };
  const auto check = [&] {
    auto history = site.desk.history(*site.desk.batch("heap-3"));
    CHECK(history.finished->size() == 2);
    CHECK(history.lesson != nullptr);
    const std::string with = says(history);
    history.lesson = nullptr;
    CHECK(with == says(history));
    return with;
  };
  const std::string before = check();
  CHECK(before.find("the site's 2 finished piles") != std::string::npos);
  // With a rule of its own, what the site learnt by the usual rules is not this pile's.
  site.entry("rule",
             [&](book::Pen& pen) { pen.set_rule("pile.foresee.site_weight", open, 40, "40"); });
  CHECK(check() != before);
}

}  // namespace desk_test
