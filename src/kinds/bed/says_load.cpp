#include <algorithm>

#include "kinds/available.h"
#include "kinds/bed/load.h"
#include "kinds/bed/says.h"
#include "kinds/bed/vocabulary.h"
#include "kinds/finding.h"
#include "measure/text.h"

// What is said of a load when it is carried to a bed.
namespace kinds::bed {
namespace {

using measure::Fraction;
using measure::Kilograms;

// "4 to 20 %"
std::string range_words(const ShareRange& range) {
  return fmt::format("{:.0f} to {:.0f} %", range.least.value * 100, range.most.value * 100);
}

// "N, P and K" of those for which `is` holds.
template <class Is>
std::string symbols(const std::vector<Wanted>& rows, Is is) {
  std::vector<std::string> names;
  for (const Wanted& one : rows) {
    if (is(one)) names.emplace_back(one.symbol);
  }
  return measure::listed(names, "and");
}

// "before it the crop wanted N 1.54 oz (11.7 gal of it), K 3.19 oz (4.28 gal of it); it covers 43 %
// of the N and all of the K; left to give: N 0.88 oz (6.7 gal of it)". Amounts of it are in the
// measure it was carried in.
std::string covered_words(const std::vector<Wanted>& rows, measure::Value load,
                          const measure::Printer& print) {
  const auto is_met = [](const Wanted& one) { return one.is_met(); };
  const auto was_wanted = [](const Wanted& one) { return one.was_wanted(); };
  if (std::none_of(rows.begin(), rows.end(), was_wanted)) {
    return fmt::format("the crop wanted no more {} before it came: all of it is extra",
                       symbols(rows, [](const Wanted&) { return true; }));
  }
  const auto amount = [&](const Wanted& one, Kilograms mass, double loads) {
    return fmt::format("{} {} ({} of it)", one.symbol, print(mass),
                       print(measure::Value{load.dimension, load.si * loads}));
  };
  std::vector<std::string> before, covers, left;
  for (const Wanted& one : rows) {
    if (!one.was_wanted()) {
      before.push_back(fmt::format("no more {}", one.symbol));
      continue;
    }
    before.push_back(amount(one, one.before, one.loads));
    if (one.is_met()) continue;
    std::string share = print(Fraction{one.covered / one.before});
    if (one.least && one.most) {
      share += fmt::format(" ({})", range_words({Fraction{*one.least / one.before},
                                                 Fraction{*one.most / one.before}}));
    }
    covers.push_back(fmt::format("{} of the {}", share, one.symbol));
    left.push_back(amount(one, one.before - one.covered, one.loads - 1));
  }
  const std::string met =
      symbols(rows, [&](const Wanted& one) { return one.was_wanted() && one.is_met(); });
  if (!met.empty()) covers.push_back("all of the " + met);
  std::string says = fmt::format("before it the crop wanted {}; it covers {}; ",
                                 measure::joined(before, ", "), measure::joined(covers, ", "));
  if (left.empty()) return says + "nothing is left to give";
  says += "left to give: " + measure::joined(left, ", ");
  const std::string beyond = symbols(rows, is_met);
  if (beyond.empty()) return says;
  return says + fmt::format("; more of it brings {} that the crop no longer wants", beyond);
}

}  // namespace

std::string brings_words(const model::Movement& load, const Study& bed) {
  const model::Load holds = model::load_of(load);
  if (!holds.nitrogen && !holds.phosphorus && !holds.potassium) return "";
  const measure::Printer print = bed.print();
  const auto amount = [&](const char* symbol, const std::optional<Kilograms>& mass) {
    return mass ? fmt::format("{} {}", symbol, print(*mass)) : fmt::format("{} not known", symbol);
  };
  std::string says = fmt::format("brings {}, {}, {}", amount("N", holds.nitrogen),
                                 amount("P", holds.phosphorus), amount("K", holds.potassium));
  if (const auto share = first_year_share(load.material, bed.rules())) {
    const auto range = first_year_range(load.material, bed.rules());
    says += fmt::format("; {} of its N for this year's crop",
                        range ? range_words(*range) : print(*share));
  }
  return says;
}

std::string rate_words(const model::Movement& load, const Study& bed) {
  const std::vector<Wanted> rows = wanted_before(load, bed);
  return rows.empty() ? "" : covered_words(rows, load.amount, bed.print());
}

std::string raw_words(const Wait& wait, const std::string& bed) {
  return fmt::format("raw manure: {}; {}. Dig it in; no harvest from {} before {} ({} days, {})",
                     chain_words(wait.trail, bed), wait.trail.because, bed,
                     measure::full_day_words(wait.safe), wait.days, wait.source);
}

std::string ask_statement_words() {
  return "does its supplier state a treatment (7 CFR 205.203(c)(2))? Make it a material of "
         "its own and add that: roundbook material NAME --new --group compost --treated 'WHO, "
         "PROCESS, DAY'";
}

std::string not_eaten_words(const model::ManureTrail& trail, const std::string& bed,
                            model::Day next) {
  return fmt::format(
      "raw manure: {}; nobody eats this crop. A crop for people that follows it there waits until "
      "{}",
      chain_words(trail, bed), measure::full_day_words(next));
}

std::string not_on_leaves_words(int days) {
  return fmt::format("where it met leaves, pick none for {} days (21 CFR 112.43)", days);
}

std::string carryover_words(const std::string& material, const std::string& bed) {
  return fmt::format(
      "{} can carry a lasting herbicide: sow peas or beans in some of it before it meets beans or "
      "tomatoes, and log {} bioassay-passed or bioassay-failed (state extension practice)",
      material, bed);
}

std::string statement_words(const std::string& statement) {
  return fmt::format(
      "treated, by its supplier's statement ({}): no harvest waits for it (7 CFR "
      "205.203(c)(2)). Keep the statement itself for whoever asks",
      statement);
}

std::string by_maker_words() {
  return "taken as treated by its maker, so no harvest waits for it: keep the maker's statement (7 "
         "CFR 205.203(c)(2))";
}

std::string no_manure_words() {
  return "no raw manure in it by the records: no harvest waits for it";
}

}  // namespace kinds::bed
