#include "cli/commands/compare_answer.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "measure/text.h"
#include "render/text.h"

namespace cli {
namespace {

using measure::print_number;
using season::Scale;
using season::Verdict;

std::string number(double value) {
  const double size = std::fabs(value);
  return print_number(value, size < 0.1 ? 4 : size < 10 ? 2 : size < 100 ? 1 : 0);
}

std::string with_unit(double shown, const Scale& scale) {
  if (scale.unit.empty() || scale.unit.starts_with("/")) {
    return number(shown) + (scale.unit.empty() ? "" : " per " + scale.unit.substr(1));
  }
  return number(shown) + " " + scale.unit;
}

std::string value(double si, const Scale& scale) {
  return with_unit(si / scale.factor + scale.zero, scale);
}

std::string difference(double si, const Scale& scale) {
  return with_unit(si / scale.factor, scale);
}

// A plot's value with the digits that were typed, so that a slip of the finger is seen.
std::string whole(double value) {
  constexpr int kDigits = 6;
  const double size = std::fabs(value);
  const int before = size < 1 ? 1 : static_cast<int>(std::floor(std::log10(size))) + 1;
  return print_number(value, std::max(0, kDigits - before));
}

// Whether it is so near the usual limit that a digit more tells on which side it lies.
bool is_near_level(double p) {
  constexpr double kNear = 0.005;
  return std::fabs(p - season::kLevel) < kNear;
}

std::string chance(double p) {
  return p < 0.001 ? "below 0.001" : print_number(p, is_near_level(p) ? 4 : 3);
}

// "3 of 100": how often chance alone brings it.
std::string so_often(double p) {
  if (p < 0.001) return "fewer than 1 of 1,000";
  if (is_near_level(p)) return print_number(100 * p, 2) + " of 100";
  return p < 0.01 ? fmt::format("{} of 1,000", std::lround(1000 * p))
                  : fmt::format("{} of 100", std::lround(100 * p));
}

std::string per_cent(double share) {
  return print_number(100 * share, std::fabs(share) < 0.1 ? 1 : 0) + " %";
}

std::string verdict_name(Verdict verdict) {
  switch (verdict) {
    case Verdict::kOnePlot:
      return "one plot";
    case Verdict::kNoSpread:
      return "no spread";
    case Verdict::kShown:
      return "shown";
    case Verdict::kNotShown:
      return "not shown";
    case Verdict::kTooFew:
      return "too few plots";
  }
  return "";
}

// What the trial shows, in words that a person can repeat.
std::string verdict_words(const Compared& compared) {
  const season::Trial& trial = *compared.trial;
  const double p = trial.by_lots.value_or(trial.student ? trial.student->p : 1);
  switch (trial.verdict) {
    case Verdict::kOnePlot:
      return "No difference is called: one plot on a side differs from another by chance alone, "
             "and nothing here says by how much. Give each side at least four plots, or six "
             "pairs.";
    case Verdict::kNoSpread:
      return compared.pairs ? "No difference is called: it is the same in every pair, so there is "
                              "no spread to judge it by. Check the numbers."
                            : "No difference is called: the plots of each side are all the same, "
                              "so there is no spread to judge it by. Check the numbers.";
    case Verdict::kShown:
      return fmt::format(
          "A difference is shown: {} {}. Chance alone does as much in {} such trials.{}",
          difference(std::fabs(trial.difference), compared.scale),
          trial.difference > 0 ? "more with the treatment" : "less with the treatment", so_often(p),
          compared.by_lot
              ? ""
              : " But nobody drew lots: whatever else set the two sides apart may have made it.");
    case Verdict::kNotShown:
      return fmt::format("No difference is shown: chance alone does as much in {} such trials.",
                         so_often(p));
    case Verdict::kTooFew:
      return fmt::format(
          "No difference can be shown with so few plots: even the largest difference they could "
          "show comes by chance in {} such trials, and 5 of 100 is the usual limit.",
          so_often(trial.least_p));
  }
  return "";
}

// Where the interval and the lots say different things: which of them decides, and why.
std::string deciding_words(const season::Trial& trial) {
  if (!trial.student || !trial.by_lots) return "";
  const bool leaves_out_zero = trial.student->low > 0 || trial.student->high < 0;
  if (leaves_out_zero == (trial.verdict == Verdict::kShown)) return "";
  return fmt::format(
      "The 95 % interval {} zero, but it takes for granted that plots spread in the usual bell "
      "curve; the test by lots takes nothing for granted, and decides.",
      leaves_out_zero ? "leaves out" : "holds");
}

std::string least_words(const Compared& compared) {
  const season::Trial& trial = *compared.trial;
  if (!trial.could_see) return "";
  std::string text =
      "This trial could not have shown less than " + difference(*trial.could_see, compared.scale);
  if (trial.against.mean > 0) {
    text += fmt::format(" ({} of the untreated)", per_cent(*trial.could_see / trial.against.mean));
  }
  return text + ": a smaller true difference escapes such a trial more than once in five times.";
}

std::string heading(const Compared& compared) {
  std::vector<std::string> sides;
  for (const season::TrialSide& side : compared.sides) {
    sides.push_back(measure::joined(side.labels, ", "));
  }
  std::string text =
      measure::joined(sides, " against ") + ": " + season::described(compared.yardstick);
  text += compared.pairs ? "; in pairs" : "; not in pairs";
  text += compared.by_lot ? ", by lot" : ", not by lot";
  return text;
}

std::string sides_table(const Compared& compared, std::size_t width) {
  render::Table table({{""}, {"plots", true}, {"mean", true}, {"sd", true}, {"each"}});
  for (std::size_t i = 0; i < compared.sides.size(); ++i) {
    const season::TrialSide& side = compared.sides[i];
    const auto of = *science::summary(side.values);
    std::vector<std::string> each;
    for (const double one : side.values) {
      each.push_back(whole(one / compared.scale.factor + compared.scale.zero));
    }
    const bool last = i + 1 == compared.sides.size();
    const std::string name = last                         ? "against"
                             : compared.sides.size() == 2 ? "treated"
                                                          : side.labels.front() + " ...";
    table.add({name, std::to_string(of.n), value(of.mean, compared.scale),
               of.n > 1 ? number(of.sd / compared.scale.factor) : "", measure::joined(each, ", ")});
  }
  return table.text(width, 2);
}

std::string tests_line(const Compared& compared) {
  const season::Trial& trial = *compared.trial;
  if (trial.verdict == Verdict::kOnePlot) return "";
  std::vector<std::string> parts;
  if (trial.student) {
    parts.push_back(
        fmt::format("{} t {}, {} degree{} of freedom, p {}", compared.pairs ? "paired" : "Welch",
                    print_number(trial.student->t, 2), print_number(trial.student->degrees, 1),
                    trial.student->degrees == 1 ? "" : "s", chance(trial.student->p)));
  }
  if (trial.by_lots) {
    parts.push_back(fmt::format("by lots, exact: p {} (the least possible {})",
                                chance(*trial.by_lots), chance(trial.least_p)));
  }
  if (trial.by_ranks) {
    parts.push_back(fmt::format("by ranks{}: p {}", trial.by_ranks->exact ? ", exact" : "",
                                chance(trial.by_ranks->p)));
  }
  return measure::joined(parts, "; ");
}

render::Json summary_json(const season::TrialSide& side) {
  const auto of = *science::summary(side.values);
  render::Json plots = render::Json::array();
  for (std::size_t i = 0; i < side.values.size(); ++i) {
    plots.push_back({{"batch", side.labels[i]}, {"si", side.values[i]}});
  }
  return {{"n", of.n}, {"mean", of.mean}, {"sd", of.sd}, {"plots", plots}};
}

render::Json maybe(std::optional<double> value) {
  return value ? render::Json(*value) : render::Json(nullptr);
}

}  // namespace

std::string compared_text(const Compared& compared, std::size_t width) {
  const Scale& scale = compared.scale;
  const auto line = [&](const std::string& text) {
    return text.empty() ? "" : render::wrapped("  " + text, width, 4) + '\n';
  };
  std::string text = render::wrapped(heading(compared), width, 2) + '\n';
  text += sides_table(compared, width);
  if (compared.trial) {
    const season::Trial& trial = *compared.trial;
    std::string apart = "difference " + difference(trial.difference, scale);
    if (trial.share) apart += fmt::format(" ({})", per_cent(*trial.share));
    if (trial.student) {
      apart += fmt::format("; 95 % interval {} to {}", number(trial.student->low / scale.factor),
                           difference(trial.student->high, scale));
    }
    text += line(apart) + line(tests_line(compared)) + line(verdict_words(compared)) +
            line(deciding_words(trial)) + line(least_words(compared));
  } else if (compared.blocks) {
    const science::Blocks& blocks = *compared.blocks;
    const auto sides = static_cast<int>(compared.sides.size());
    text +=
        line(fmt::format("analysis of variance in blocks: F {} on {} and {} degrees of freedom, "
                         "p {}",
                         print_number(blocks.f_treatments, 2), sides - 1, blocks.error_degrees,
                         chance(blocks.p_treatments)));
    text +=
        line(blocks.p_treatments <= season::kLevel
                 ? fmt::format("The sides are not all alike. Two that lie further apart than {} "
                               "differ by more than chance brings in 5 of 100 such trials.",
                               difference(blocks.least_difference, scale))
                 : "No difference among them is shown, so no two of them are called different.");
    if (!compared.by_lot && blocks.p_treatments <= season::kLevel) {
      text += line("But nobody drew lots: whatever else set the sides apart may have made it.");
    }
  } else {
    text += line("No difference is called: nothing is left to judge it by. Check the numbers.");
  }
  for (const std::string& one : compared.left_out) text += line(one);
  return text;
}

render::Json compared_json(const Compared& compared) {
  render::Json json{{"measure", season::described(compared.yardstick)},
                    {"unit", compared.scale.si_unit},
                    {"pairs", compared.pairs},
                    {"by_lot", compared.by_lot},
                    {"left_out", compared.left_out},
                    {"sides", render::Json::array()}};
  for (const season::TrialSide& side : compared.sides) json["sides"].push_back(summary_json(side));
  if (compared.trial) {
    const season::Trial& trial = *compared.trial;
    json["difference"] = {{"si", trial.difference},
                          {"shown", difference(trial.difference, compared.scale)},
                          {"share", maybe(trial.share)}};
    json["student"] = nullptr;
    if (trial.student) {
      json["student"] = {{"t", trial.student->t},     {"degrees", trial.student->degrees},
                         {"p", trial.student->p},     {"error", trial.student->error},
                         {"low", trial.student->low}, {"high", trial.student->high}};
    }
    json["by_lots"] = {{"p", maybe(trial.by_lots)}, {"least_p", trial.least_p}};
    json["by_ranks"] = nullptr;
    if (trial.by_ranks) {
      json["by_ranks"] = {{"statistic", trial.by_ranks->statistic},
                          {"p", trial.by_ranks->p},
                          {"exact", trial.by_ranks->exact}};
    }
    json["could_see"] = maybe(trial.could_see);
    json["verdict"] = verdict_name(trial.verdict);
    json["says"] = verdict_words(compared);
  }
  if (compared.blocks) {
    json["blocks"] = {{"f", compared.blocks->f_treatments},
                      {"p", compared.blocks->p_treatments},
                      {"f_blocks", compared.blocks->f_blocks},
                      {"p_blocks", compared.blocks->p_blocks},
                      {"error_degrees", compared.blocks->error_degrees},
                      {"least_difference", compared.blocks->least_difference}};
  }
  return json;
}

std::string planned_text(const Planned& planned, std::size_t width) {
  const std::string_view plots = planned.pairs ? "pairs" : "plots on each side";
  std::string text = render::wrapped(
      planned.plan.needed
          ? fmt::format("{} {} find a difference of {} four times in five, where {} differ by {} "
                        "(sd; {})",
                        *planned.plan.needed, plots, per_cent(planned.worth),
                        planned.pairs ? "pairs" : "like plots", per_cent(planned.spread),
                        planned.spread_from)
          : fmt::format("more than 10,000 {} would be needed to find a difference of {}", plots,
                        per_cent(planned.worth)),
      width, 2);
  text += "\n\n";
  render::Table table({{planned.pairs ? "pairs" : "a side", true}, {"could show", true}, {""}});
  for (const season::PlanStep& step : planned.plan.steps) {
    table.add({std::to_string(step.plots), per_cent(step.could_see),
               step.lots_can_tell ? "" : "lots can never tell with so few"});
  }
  return text + table.text(width, 2);
}

render::Json planned_json(const Planned& planned) {
  render::Json json{
      {"worth", planned.worth},
      {"spread", planned.spread},
      {"spread_from", planned.spread_from},
      {"pairs", planned.pairs},
      {"chance", season::kChance},
      {"needed", planned.plan.needed ? render::Json(*planned.plan.needed) : render::Json(nullptr)},
      {"steps", render::Json::array()}};
  for (const season::PlanStep& step : planned.plan.steps) {
    json["steps"].push_back({{"plots", step.plots},
                             {"could_see", step.could_see},
                             {"lots_can_tell", step.lots_can_tell}});
  }
  return json;
}

std::string drawn_text(const Drawn& drawn, std::size_t width) {
  render::Table table(drawn.blocks
                          ? std::vector<render::Table::Column>{{"block", true}, {"plot"}, {"gets"}}
                          : std::vector<render::Table::Column>{{"plot"}, {"gets"}});
  int block = 0;
  for (const season::Lot& lot : drawn.lots) {
    if (!drawn.blocks) {
      table.add({lot.plot, lot.treatment});
      continue;
    }
    table.add({lot.block == block ? "" : std::to_string(lot.block), lot.plot, lot.treatment});
    block = lot.block;
  }
  return table.text(width, 0) + '\n' +
         render::wrapped(
             fmt::format("Lots drawn with --seed {}, which draws the same again. {}", drawn.seed,
                         drawn.blocks ? "Plots of a block lie side by side and are alike."
                                      : "Write it down before you look at the plots."),
             width, 0) +
         '\n';
}

render::Json drawn_json(const Drawn& drawn) {
  render::Json json{
      {"seed", drawn.seed}, {"blocks", drawn.blocks}, {"lots", render::Json::array()}};
  for (const season::Lot& lot : drawn.lots) {
    json["lots"].push_back(
        {{"plot", lot.plot},
         {"treatment", lot.treatment},
         {"block", lot.block > 0 ? render::Json(lot.block) : render::Json(nullptr)}});
  }
  return json;
}

}  // namespace cli
