#include "kinds/burn/measures.h"

#include <fmt/format.h>

#include <algorithm>

#include "kinds/thresholds.h"
#include "kinds/finding.h"

namespace kinds::burn {
namespace {

namespace limits = thresholds::burn;
using measure::Fraction;
using measure::Kilograms;
using measure::Litres;
using measure::Number;

template <class T>
void add(model::Assessment& into, std::string_view key, std::string_view name, T value,
         std::string basis, std::string_view label = "") {
  into.measures.push_back({std::string(key),
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

std::string methane_words(const model::History& history, const model::Rules& rules,
                          const Account& account) {
  const auto factor = rules.in_force(methane_factor(history, rules, account.feed_moisture));
  const auto warming = rules.in_force(*limits::methane_warming.info);
  const std::string method = history.batch.text("method", "");
  const bool other_kiln = method == "retort" || method == "gasifier";
  return fmt::format("methane {} ({}) x {} ({}){}",
                     measure::Printer::labelled(factor.si, "g a kg of char"), factor.source,
                     measure::Printer::labelled(warming.si, ""), warming.source,
                     other_kiln ? fmt::format("; not measured on a {}", method) : "");
}

std::optional<science::CharBalance> balance_of(const model::History& history,
                                               const model::Rules& rules, const Account& account,
                                               const Lasting& lasting) {
  if (!account.char_dry.value || !lasting.carbon) return std::nullopt;
  const auto factor = rules.in_force(methane_factor(history, rules, account.feed_moisture));
  return science::char_balance(*account.char_dry.value, *lasting.carbon,
                               science::KilogramsPerTonne{factor.si},
                               rules(limits::methane_warming));
}

void measure_carbon(const model::History& history, const model::Rules& rules, const Course& course,
                    const Account& account, model::Assessment& into) {
  const measure::Printer print(history.units);
  const Kilograms made = *account.char_dry.value;
  const CharCarbon carbon = char_carbon(history, course);
  if (carbon.share) {
    const Kilograms in_char = made * carbon.share->value.value;
    add(into, "burn.carbon", "carbon in the char", in_char, carbon.basis);
    if (account.feed_carbon.value && *account.feed_carbon.value > Kilograms{0}) {
      add(into, "burn.carbon_kept", "share of the feedstock's carbon kept in the char",
          Fraction{in_char / *account.feed_carbon.value}, account.feed_carbon.basis);
    }
  }
  const Lasting lasting = lasting_of(history, rules, course, account);
  const auto balance = balance_of(history, rules, account, lasting);
  if (!balance) return;
  add(into, "burn.lasting", "carbon that lasts a century in soil", *lasting.carbon, lasting.basis);
  if (*lasting.carbon > Kilograms{0}) {
    add(into, "burn.lasting_doubt", "uncertainty of that", lasting.doubt,
        interval(print, *lasting.carbon, lasting.doubt));
  }
  add(into, "burn.stored", "that carbon as carbon dioxide", balance->stored,
      "IPCC 2019 Refinement vol. 4 ch. 2 appendix 4, a basis for a method, not complete "
      "guidance; counts once the char is in the soil of cropland or grassland; " +
          interval(print, balance->stored, lasting.doubt));
  add(into, "burn.methane", "methane of the burn", balance->methane,
      methane_words(history, rules, account));
  add(into, "burn.net", "carbon dioxide kept out of the air, net of methane", balance->net,
      fmt::format(
          "CO2 equivalent over 100 years; {}; carbon monoxide and soot not counted; an estimate, "
          "no credit{}",
          methane_words(history, rules, account),
          balance->net < Kilograms{0} ? "; below zero: its methane outweighs its char" : ""));
}

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
    Kilograms& way = one.to.empty() ? ways.away : one.to_kind == "bed" ? ways.beds : ways.batches;
    way += *one.dry;
    if (!one.to.empty() && std::find(ways.to.begin(), ways.to.end(), one.to) == ways.to.end()) {
      ways.to.push_back(one.to);
    }
  }
  return ways;
}

void measure_ways(const Account& account, model::Assessment& into) {
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

void measure_bed(const model::Rules& rules, const Account& account, model::Assessment& into) {
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

Lasting lasting_of(const model::History& history, const model::Rules& rules, const Course& course,
                   const Account& account) {
  const CharCarbon carbon = char_carbon(history, course);
  if (!account.char_dry.value || !carbon.share) return {std::nullopt, {}, carbon.basis};
  if (grade(history) == science::CharGrade::kNotBiochar) {
    return {Kilograms{0}, {}, "by its laboratory ratios it is not biochar: none counted"};
  }
  const auto hottest = peak(history, rules);
  const auto lasts = permanence(hottest);
  const measure::Printer print(history.units);
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

void measure_burn(const model::History& history, const model::Rules& rules, const Course& course,
                  const Account& account, model::Assessment& into) {
  if (account.feed_dry.value) {
    add(into, "burn.feed_dry", "dry feedstock", *account.feed_dry.value, account.feed_dry.basis);
  }
  if (const auto hottest = peak(history, rules)) {
    add(into, "burn.peak", "hottest kiln reading", *hottest, "of the readings that were logged");
  }
  if (const auto h_to_c = hydrogen_ratio(history)) {
    add(into, "burn.hc", "hydrogen to organic carbon", *h_to_c,
        std::string(grade_words(*grade(history))), "mol/mol");
  }
  if (!account.char_dry.value) return;
  add(into, "burn.char_dry", "dry char", *account.char_dry.value, account.char_dry.basis);
  if (account.feed_dry.value) {
    if (const auto share = science::char_yield(*account.char_dry.value, *account.feed_dry.value)) {
      add(into, "burn.yield", "dry char of dry feedstock", *share,
          *share > rules(limits::yield_most)
              ? "more than a burn gives: check the weights and moistures"
              : account.feed_dry.basis);
    }
  }
  measure_carbon(history, rules, course, account, into);
  measure_ways(account, into);
  measure_bed(rules, account, into);
}

void tell_yield(const model::History& history, const model::Rules& rules, const Course& course,
                const Account& account, model::Assessment& into) {
  if (!account.char_dry.value) return;
  const measure::Printer print(history.units);
  std::string says = print(*account.char_dry.value) + " of dry char";
  if (account.feed_dry.value) {
    if (const auto share = science::char_yield(*account.char_dry.value, *account.feed_dry.value)) {
      says += fmt::format(", {} of the dry feedstock", print(*share));
      if (*share > rules(limits::yield_most))
        says += " (more than a burn gives: check the weights)";
    }
  }
  into.progress.push_back({"char", std::move(says), std::nullopt});
  const Lasting lasting = lasting_of(history, rules, course, account);
  const auto balance = balance_of(history, rules, account, lasting);
  if (!balance) return;
  into.progress.push_back(
      {"carbon",
       balance->net < Kilograms{0}
           ? fmt::format("its methane outweighs its char by {} of CO2",
                         print(Kilograms{0} - balance->net))
           : fmt::format(
                 "about {} of CO2 kept out of the air for a century once in soil, net of methane",
                 print(balance->net)),
       std::nullopt});
}

std::string bed_words(const model::History& history, const model::Rules& rules,
                      const Account& account) {
  if (!account.char_volume.value || !account.char_dry.value || !account.left) return "";
  // What is left, as a share of what was made.
  const Litres here =
      *account.char_volume.value * std::max(0.0, *account.left / *account.char_dry.value);
  const measure::Metres depth = rules(limits::share_depth);
  const auto widest = science::bed_for_char(here, rules(limits::share_least), depth);
  const auto narrowest = science::bed_for_char(here, rules(limits::share_most), depth);
  if (!widest || !narrowest) return "";
  const measure::Printer print(history.units);
  return fmt::format("{} to {} of bed at {} to {} of the volume of the top {}", print(*narrowest),
                     print(*widest), print(rules(limits::share_most)),
                     print(rules(limits::share_least)), print(depth));
}

}  // namespace kinds::burn
