#include <fmt/format.h>

#include <algorithm>
#include <ostream>
#include <random>
#include <set>

#include "cli/commands/compare_answer.h"
#include "cli/desk/desk.h"
#include "cli/shell/commands.h"
#include "measure/amount.h"
#include "measure/text.h"
#include "season/span.h"

namespace cli {
namespace {

using measure::Mistake;
using measure::Result;

constexpr std::string_view kAgainst = "against";
constexpr int kMostPlots = 500;

using Codes = std::vector<std::vector<std::string>>;

// "bed-1 bed-3 against bed-2 bed-4": the codes of each side.
Codes sides_of(const std::vector<std::string>& words) {
  Codes sides(1);
  for (const std::string& word : words) {
    if (measure::folded(word) == kAgainst) {
      sides.emplace_back();
    } else {
      sides.back().push_back(word);
    }
  }
  return sides;
}

// One of two flags must be said.
Result<bool> said(const Arguments& arguments, std::string_view yes, std::string_view no,
                  std::string_view why) {
  const bool is = arguments.flag(yes), is_not = arguments.flag(no);
  if (is != is_not) return is;
  return Mistake{
      "", is ? fmt::format("--{} and --{} contradict each other", yes, no) : std::string(why)};
}

Result<bool> pairs_said(const Arguments& arguments) {
  return said(arguments, "pairs", "no-pairs",
              "say --pairs where the first of each side lie together and are alike, so the second "
              "and so on, or --no-pairs");
}

Result<std::vector<season::Plot>> plots_of(const std::vector<std::string>& codes,
                                           const Desk& desk) {
  std::vector<season::Plot> plots;
  for (const std::string& code : codes) {
    const auto batch = desk.batch(code);
    if (!batch) return batch.mistake();
    if (batch->started > desk.now()) {
      return Mistake{code, fmt::format("{} was not started yet at the moment you give", code)};
    }
    const model::History history = desk.history(*batch);
    plots.push_back({book::label_of(desk.logbook(), *batch), history,
                     desk.assess(history, kinds::Extent::kFigures)});
  }
  return plots;
}

// The batch's figures stand in the assessment as of now; an ended batch keeps them.
Result<season::Yardstick> yardstick_of(const Arguments& arguments,
                                       const std::vector<season::Plot>& plots, const Desk& desk) {
  const auto word = arguments.option("measure");
  const auto read = season::read_yardstick(word.value_or(""), plots);
  if (!word) {
    std::string why = read ? "" : read.mistake().why;
    const std::size_t at = why.find("they have ");
    return Mistake{"", "say what to compare with --measure, like yield or 'yield per area'" +
                           (at == std::string::npos ? "" : "; " + why.substr(at))};
  }
  if (!read) return read;
  season::Yardstick yardstick = *read;
  if (const auto typed = arguments.option("span")) {
    if (yardstick.of == season::Of::kFigure || yardstick.of == season::Of::kDays) {
      return Mistake{*typed, fmt::format("--span does not go with {}, which is of the whole batch",
                                         season::described(yardstick))};
    }
    const auto span = season::parse_span(*typed, desk.today());
    if (!span) return Mistake{*typed, "--span: " + span.mistake().why};
    yardstick.span = *span;
  }
  return yardstick;
}

struct Measured {
  std::vector<season::TrialSide> sides;
  season::Yardstick yardstick;
  season::Scale scale;
  std::vector<std::string> left_out;
};

Result<Measured> measure_sides(const Codes& codes, const Arguments& arguments, const Desk& desk) {
  std::vector<std::string> all;
  for (const auto& side : codes) all.insert(all.end(), side.begin(), side.end());
  const auto plots = plots_of(all, desk);
  if (!plots) return plots.mistake();
  std::set<std::int64_t> seen;
  for (const season::Plot& plot : *plots) {
    if (!seen.insert(plot.history.batch.id).second) {
      return Mistake{plot.label, fmt::format("{} is named twice", plot.label)};
    }
  }
  const auto yardstick = yardstick_of(arguments, *plots, desk);
  if (!yardstick) return yardstick.mistake();
  Measured made{{}, *yardstick, {}, {}};
  std::optional<season::PlotValue> sort;  // the first that is not a yield of nothing
  std::vector<season::PlotValue> values;
  for (const season::Plot& plot : *plots) {
    const auto value = season::value_of(plot, *yardstick);
    if (!value) return value.mistake();
    values.push_back(*value);
    const bool nothing = value->dimension == measure::Dimension::kMass && value->si == 0;
    if (!sort && !nothing) sort = *value;
    if (sort && !nothing && (value->dimension != sort->dimension || value->per != sort->per)) {
      return Mistake{plot.label, fmt::format("{} is measured as {}, others as {}; name one product",
                                             plot.label, measure::described(value->dimension),
                                             measure::described(sort->dimension))};
    }
    if (!value->leaves_out.empty()) made.left_out.push_back(value->leaves_out);
  }
  made.scale = season::scale_of(sort.value_or(values.front()), desk.print().system());
  std::size_t at = 0;
  for (const auto& side : codes) {
    season::TrialSide one;
    for (std::size_t i = 0; i < side.size(); ++i, ++at) {
      one.labels.push_back((*plots)[at].label);
      one.values.push_back(values[at].si);
    }
    made.sides.push_back(std::move(one));
  }
  return made;
}

Outcome run_trial(Context& context, const Arguments& arguments, const Desk& desk) {
  const Codes codes = sides_of(arguments.words);
  const bool lacks =
      std::any_of(codes.begin(), codes.end(), [](const auto& s) { return s.empty(); });
  if (codes.size() < 2 || lacks) {
    return Mistake{"",
                   "compare needs the treated, the word against and the untreated, like 'compare "
                   "bed-1 bed-3 against bed-2 bed-4'"};
  }
  const auto pairs = pairs_said(arguments);
  if (!pairs) return pairs.mistake();
  const auto by_lot = said(arguments, "by-lot", "by-choice",
                           "say --by-lot where lots or dice decided which plot got what, or "
                           "--by-choice where somebody did");
  if (!by_lot) return by_lot.mistake();
  if (*pairs) {
    for (const auto& side : codes) {
      if (side.size() == codes.front().size()) continue;
      return Mistake{"", fmt::format("--pairs wants as many on each side; there are {} and {}",
                                     codes.front().size(), side.size())};
    }
  }
  if (codes.size() > 2 && !*pairs) {
    return Mistake{"",
                   "more than two sides are compared in blocks: --pairs, with the first of each "
                   "side lying together, so the second and so on"};
  }
  const auto measured = measure_sides(codes, arguments, desk);
  if (!measured) return measured.mistake();
  Compared compared{measured->sides,
                    measured->yardstick,
                    measured->scale,
                    measured->left_out,
                    *pairs,
                    *by_lot,
                    {},
                    {}};
  if (codes.size() == 2) {
    compared.trial = season::judge_trial({compared.sides[0], compared.sides[1], *pairs});
  } else {
    std::vector<std::vector<double>> plots;
    for (const season::TrialSide& side : compared.sides) plots.push_back(side.values);
    compared.blocks = science::blocks(plots);
  }
  context.out << (context.json ? render::dumped(compared_json(compared))
                               : compared_text(compared, static_cast<std::size_t>(context.width)));
  return kDone;
}

Result<double> share_of(const Arguments& arguments, std::string_view option) {
  const std::string typed = arguments.option(option).value_or("");
  const auto value = measure::parse_value(typed, measure::Dimension::kFraction, measure::unit("%"));
  if (value && value->value.si > 0) return value->value.si;
  return Mistake{typed, fmt::format("--{} takes a share of the usual, like 20%, not {}", option,
                                    measure::quoted(typed))};
}

// How much like plots differ, by the site's own batches.
Result<double> spread_of(const Codes& codes, bool pairs, const Arguments& arguments,
                         const Desk& desk) {
  const auto measured = measure_sides(codes, arguments, desk);
  if (!measured) return measured.mistake();
  std::vector<double> values;
  if (pairs) {
    if (codes.size() != 2 || codes[0].size() != codes[1].size()) {
      return Mistake{"",
                     "--pairs wants two sides of as many batches, like 'bed-1 bed-3 against "
                     "bed-2 bed-4'"};
    }
    for (std::size_t i = 0; i < codes[0].size(); ++i) {
      values.push_back(measured->sides[0].values[i] - measured->sides[1].values[i]);
    }
  } else if (codes.size() > 1) {
    return Mistake{"", "with --no-pairs name like batches only, without against"};
  } else {
    values = measured->sides[0].values;
  }
  const auto spread = science::summary(values);
  const auto usual = science::summary(measured->sides.back().values);
  if (spread->n < 2 || spread->sd <= 0 || usual->mean <= 0) {
    return Mistake{"",
                   "these batches do not show how much similar plots differ; give --spread, like "
                   "15%"};
  }
  return spread->sd / usual->mean;
}

Outcome run_planning(Context& context, const Arguments& arguments, const Desk& desk) {
  const auto worth = share_of(arguments, "worth");
  if (!worth) return worth.mistake();
  const auto pairs = pairs_said(arguments);
  if (!pairs) return pairs.mistake();
  const bool told = arguments.option("spread").has_value();
  if (!told && arguments.words.empty()) {
    return Mistake{"",
                   "how much do similar plots differ? Give --spread, like 15%, or name batches and "
                   "--measure"};
  }
  if (told && !arguments.words.empty()) {
    return Mistake{arguments.words[0], "either --spread or batches to take it from, not both"};
  }
  const auto spread = told ? share_of(arguments, "spread")
                           : spread_of(sides_of(arguments.words), *pairs, arguments, desk);
  if (!spread) return spread.mistake();
  const Planned planned{*worth, *spread, told ? "as told" : measure::joined(arguments.words, " "),
                        *pairs, season::plan_trial(*worth, *spread, *pairs)};
  context.out << (context.json ? render::dumped(planned_json(planned))
                               : planned_text(planned, static_cast<std::size_t>(context.width)));
  return kDone;
}

Result<std::vector<std::string>> plots_to_draw(const Arguments& arguments) {
  const auto typed = arguments.option("plots");
  if (!typed && arguments.words.empty()) {
    return Mistake{"", "lots for which plots? Name them, or give --plots 8"};
  }
  if (!typed) return arguments.words;
  if (!arguments.words.empty()) {
    return Mistake{arguments.words[0], "either --plots or their names, not both"};
  }
  const auto count = measure::parse_number(*typed);
  if (!count || *count < 2 || *count > kMostPlots || *count != static_cast<int>(*count)) {
    return Mistake{*typed, fmt::format("--plots takes a number from 2 to {}, not {}", kMostPlots,
                                       measure::quoted(*typed))};
  }
  std::vector<std::string> plots;
  for (int i = 1; i <= static_cast<int>(*count); ++i) plots.push_back(std::to_string(i));
  return plots;
}

Result<std::uint64_t> seed_of(const Arguments& arguments) {
  constexpr std::uint64_t kSeeds = 1000000;  // short enough to write on the plan
  const auto typed = arguments.option("seed");
  if (!typed) return std::uint64_t{std::random_device{}()} % kSeeds;
  const auto number = measure::parse_number(*typed);
  if (!number || *number < 0 || *number > 1e9 ||
      *number != static_cast<double>(static_cast<std::uint64_t>(*number))) {
    return Mistake{*typed,
                   fmt::format("--seed takes a whole number, not {}", measure::quoted(*typed))};
  }
  return static_cast<std::uint64_t>(*number);
}

Outcome run_lots(Context& context, const Arguments& arguments) {
  std::vector<std::string> treatments;
  for (const std::string& one : measure::split(*arguments.option("lots"), ',')) {
    if (!measure::folded(one).empty()) treatments.push_back(measure::folded(one));
  }
  if (treatments.size() < 2) {
    return Mistake{"", "--lots takes what the plots may get, like 'compost,nothing'"};
  }
  const auto plots = plots_to_draw(arguments);
  if (!plots) return plots.mistake();
  const auto pairs = pairs_said(arguments);
  if (!pairs) return pairs.mistake();
  if (*pairs && plots->size() % treatments.size() != 0) {
    return Mistake{
        "", fmt::format("{} plots do not make blocks of {}", plots->size(), treatments.size())};
  }
  const auto seed = seed_of(arguments);
  if (!seed) return seed.mistake();
  const Drawn drawn{season::draw_lots(*plots, treatments, *pairs, *seed), *pairs, *seed};
  context.out << (context.json ? render::dumped(drawn_json(drawn))
                               : drawn_text(drawn, static_cast<std::size_t>(context.width)));
  return kDone;
}

}  // namespace

Outcome run_compare(Context& context, const Arguments& arguments) {
  const auto desk = Desk::lay_out(context);
  if (!desk) return desk.mistake();
  if (arguments.option("lots")) return run_lots(context, arguments);
  if (arguments.option("worth")) return run_planning(context, arguments, *desk);
  for (const std::string_view option : {"spread", "plots", "seed"}) {
    if (!arguments.option(option)) continue;
    return Mistake{
        "", fmt::format("--{} goes with {}", option, option == "spread" ? "--worth" : "--lots")};
  }
  return run_trial(context, arguments, *desk);
}

}  // namespace cli
