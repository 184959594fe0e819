#include "kinds/burn/measures.h"

#include <fmt/format.h>

#include <algorithm>

#include "kinds/burn/study.h"
#include "kinds/finding.h"
#include "kinds/thresholds.h"

namespace kinds::burn {
namespace {

namespace limits = thresholds::burn;
using measure::Fraction;
using measure::Kilograms;
using measure::Litres;
using measure::Number;

template <class T>
void add(std::vector<model::Measure>& into, std::string_view key, std::string_view name, T value,
         std::string basis, std::string_view label = "") {
  into.push_back({std::string(key),
                  std::string(name),
                  {std::string(name), measure::value_of(value), std::string(label)},
                  std::move(basis)});
}

// The temperature class: of what was read, else the lowest.
std::optional<science::UncertainFraction> permanence(std::optional<measure::Celsius> hottest) {
  constexpr measure::Celsius kOfLowestClass{400};
  return science::char_permanence(hottest.value_or(kOfLowestClass));
}

std::string interval(const measure::Printer& print, Kilograms middle, Fraction doubt) {
  return fmt::format("95 % interval {} to {}", print(middle * std::max(0.0, 1 - doubt.value)),
                     print(middle * (1 + doubt.value)));
}

std::string methane_words(const Study& study) {
  const MethaneFactor factor =
      methane_factor(study.history(), study.rules(), study.account().feed_moisture);
  const auto warming = study.rules().in_force(*limits::methane_warming.info);
  const Method method = method_of(study.history().batch);
  const char* other_kiln = method == Method::kRetort     ? "; not measured on a retort"
                           : method == Method::kGasifier ? "; not measured on a gasifier"
                                                         : "";
  return fmt::format("methane {} ({}) x {} ({}){}",
                     measure::Printer::labelled(factor.value.value, "g a kg of char"),
                     factor.source, measure::Printer::labelled(warming.si, ""), warming.source,
                     other_kiln);
}

void measure_carbon(const Study& study, std::vector<model::Measure>& into) {
  const measure::Printer print = study.print();
  const Account& account = study.account();
  const Kilograms made = *account.char_dry.value;
  const CharCarbon carbon = char_carbon(study.history(), study.course());
  if (carbon.share) {
    const Kilograms in_char = made * carbon.share->value.value;
    add(into, "burn.carbon", "carbon in the char", in_char, carbon.basis);
    if (account.feed_carbon.value && *account.feed_carbon.value > Kilograms{0}) {
      add(into, "burn.carbon_kept", "share of the feedstock's carbon kept in the char",
          Fraction{in_char / *account.feed_carbon.value}, account.feed_carbon.basis);
    }
  }
  const Lasting& lasting = study.lasting();
  const auto balance = balance_of(study);
  if (!balance) return;
  add(into, "burn.lasting", "carbon that lasts a century in soil", *lasting.carbon, lasting.basis);
  into.back().range = {{lasting.carbon->value * std::max(0.0, 1 - lasting.doubt.value),
                        lasting.carbon->value * (1 + lasting.doubt.value)}};
  if (*lasting.carbon > Kilograms{0}) {
    add(into, "burn.lasting_doubt", "uncertainty of that", lasting.doubt,
        interval(print, *lasting.carbon, lasting.doubt));
  }
  add(into, "burn.stored", "that carbon as carbon dioxide", balance->stored,
      "IPCC 2019 Refinement vol. 4 ch. 2 appendix 4, a basis for a method, not complete "
      "guidance; counts once the char is in the soil of cropland or grassland; " +
          interval(print, balance->stored, lasting.doubt));
  into.back().range = balance->stored_range;
  add(into, "burn.methane", "methane of the burn", balance->methane, methane_words(study));
  into.back().range = balance->methane_range;
  add(into, "burn.net", "carbon dioxide kept out of the air, net of methane", balance->net,
      fmt::format(
          "CO2 equivalent over 100 years; {}; carbon monoxide and soot not counted; an estimate, "
          "no credit{}",
          methane_words(study),
          balance->net_range.low < 0 ? "; below zero: its methane outweighs its char" : ""));
  into.back().range = balance->net_range;
}

constexpr std::string_view kToBeds = "bed";

// Where the char went: to beds, into other batches to charge, and away.
struct Ways {
  Kilograms beds{0}, batches{0}, away{0};
  int unknown = 0;
  std::vector<std::string> to;
};

Ways ways_of(const Account& account) {
  Ways ways;
  for (const Carried& one : account.carried) {
    if (!one.dry) {
      ++ways.unknown;
      continue;
    }
    Kilograms& way = one.to.empty() ? ways.away : one.to_kind == kToBeds ? ways.beds : ways.batches;
    way += *one.dry;
    if (!one.to.empty() && std::find(ways.to.begin(), ways.to.end(), one.to) == ways.to.end()) {
      ways.to.push_back(one.to);
    }
  }
  return ways;
}

void measure_ways(const Account& account, std::vector<model::Measure>& into) {
  if (account.carried.empty()) return;
  const Ways ways = ways_of(account);
  const std::string left_out =
      ways.unknown > 0 ? fmt::format("{} load{} left out: neither dry weight nor moisture is known",
                                     ways.unknown, ways.unknown == 1 ? "" : "s")
                       : "";
  add(into, "burn.to_beds", "dry char carried to beds", ways.beds, left_out);
  add(into, "burn.to_batches", "dry char carried into other batches", ways.batches, left_out);
  add(into, "burn.away", "dry char carried away", ways.away, left_out);
  if (account.left) {
    add(into, "burn.left", "dry char left here", *account.left,
        *account.left < Kilograms{0} ? "more was carried out than was measured here" : "");
  }
}

void measure_bed(const model::Rules& rules, const Account& account,
                 std::vector<model::Measure>& into) {
  if (!account.char_volume.value || !account.char_dry.value) return;
  const measure::Metres depth = rules(limits::share_depth);
  const auto bed =
      science::bed_for_char(*account.char_volume.value, rules(limits::share_least), depth);
  if (!bed) return;
  const auto by_mass =
      science::char_share_by_mass(*account.char_dry.value, *bed, depth,
                                  science::KilogramsPerCubicMetre{rules(limits::share_soil).value});
  add(into, "burn.bed", "bed that its char is enough for", *bed,
      fmt::format("at {} % of the top layer's volume, the char coming on top{}",
                  measure::print_number(rules(limits::share_least).value * 100, 1),
                  by_mass ? fmt::format("; {} % of its soil's dry mass",
                                        measure::print_number(by_mass->value * 100, 1))
                          : ""));
}

std::string_view grade_words(science::CharGrade grade) {
  switch (grade) {
    case science::CharGrade::kStable:
      return "under 0.4: well charred";
    case science::CharGrade::kBiochar:
      return "under 0.7: biochar by the IUPAC glossary";
    case science::CharGrade::kNotBiochar:
      return "not biochar by the IUPAC glossary: H:C under 0.7 and O:C under 0.4";
  }
  return "";
}

}  // namespace

Lasting lasting_of(const Study& study) {
  const Account& account = study.account();
  const CharCarbon carbon = char_carbon(study.history(), study.course());
  if (!account.char_dry.value || !carbon.share) return {std::nullopt, {}, carbon.basis};
  if (grade(study.history()) == science::CharGrade::kNotBiochar) {
    return {Kilograms{0}, {}, "by its laboratory ratios it is not biochar: none counted"};
  }
  const auto hottest = peak(study.history(), study.rules());
  const auto lasts = permanence(hottest);
  const measure::Printer print = study.print();
  if (!lasts) {
    return {Kilograms{0},
            {},
            fmt::format("the kiln was read no hotter than {}: the IPCC method starts above {}",
                        print(*hottest), print(measure::Celsius{350}))};
  }
  const std::string read = hottest ? fmt::format("hottest kiln reading {}", print(*hottest))
                                   : "no kiln temperature was read: lowest class of the method";
  return {
      science::lasting_carbon(*account.char_dry.value, carbon.share->value, lasts->value),
      science::combined_uncertainty(carbon.share->relative_uncertainty,
                                    lasts->relative_uncertainty),
      fmt::format("{:.2f} of it after 100 years, {}; {}", lasts->value.value, read, carbon.basis)};
}

std::optional<Balance> balance_of(const Study& study) {
  const Account& account = study.account();
  const Lasting& lasting = study.lasting();
  if (!account.char_dry.value || !lasting.carbon) return std::nullopt;
  const MethaneFactor factor =
      methane_factor(study.history(), study.rules(), account.feed_moisture);
  const auto at = [&](Kilograms lasts, science::KilogramsPerTonne methane) {
    return science::char_balance(*account.char_dry.value, lasts, methane,
                                 study.rules()(limits::methane_warming));
  };
  const auto worst = at(*lasting.carbon * std::max(0.0, 1 - lasting.doubt.value), factor.most);
  const auto best = at(*lasting.carbon * (1 + lasting.doubt.value), factor.least);
  return Balance{at(*lasting.carbon, factor.value),
                 {best.methane.value, worst.methane.value},
                 {worst.stored.value, best.stored.value},
                 {worst.net.value, best.net.value}};
}

std::vector<model::Measure> measures_of(const Study& study) {
  std::vector<model::Measure> into;
  const model::History& history = study.history();
  const Account& account = study.account();
  if (account.feed_dry.value) {
    add(into, "burn.feed_dry", "dry feedstock", *account.feed_dry.value, account.feed_dry.basis);
  }
  if (const auto hottest = peak(history, study.rules())) {
    add(into, "burn.peak", "hottest kiln reading", *hottest, "of the readings that were logged");
  }
  if (const auto h_to_c = hydrogen_ratio(history)) {
    add(into, "burn.hc", "hydrogen to organic carbon", *h_to_c,
        std::string(grade_words(*grade(history))), "mol/mol");
  }
  if (!account.char_dry.value) return into;
  add(into, "burn.char_dry", "dry char", *account.char_dry.value, account.char_dry.basis);
  if (const auto share = account.yield()) {
    add(into, "burn.yield", "dry char of dry feedstock", *share,
        *share > study.rules()(limits::yield_most)
            ? "more than a burn yields: check the weights and moistures"
            : account.feed_dry.basis);
  }
  measure_carbon(study, into);
  measure_ways(account, into);
  measure_bed(study.rules(), account, into);
  return into;
}

std::optional<BedFor> bed_for(const Study& study) {
  const Account& account = study.account();
  if (!account.char_volume.value || !account.char_dry.value || !account.left) return std::nullopt;
  // What is left, as a share of what was made.
  const Litres here =
      *account.char_volume.value * std::max(0.0, *account.left / *account.char_dry.value);
  const model::Rules& rules = study.rules();
  const auto most =
      science::bed_for_char(here, rules(limits::share_least), rules(limits::share_depth));
  const auto least =
      science::bed_for_char(here, rules(limits::share_most), rules(limits::share_depth));
  if (!most || !least) return std::nullopt;
  return BedFor{*least, *most};
}

}  // namespace kinds::burn
