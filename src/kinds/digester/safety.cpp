#include "kinds/digester/safety.h"

#include <algorithm>
#include <array>

#include "kinds/digester/words.h"
#include "kinds/thresholds.h"
#include "kinds/finding.h"

namespace kinds::digester {
namespace {

namespace limits = thresholds::digester;
using model::Day;
using model::Urgency;

constexpr std::string_view kGlass =
    "Under glass gas gathers: open doors and vents before you go in, and wait. ";
constexpr std::string_view kUse =
    "Air the room while gas burns: a bad flame makes carbon monoxide. Where it goes out, or you "
    "smell gas, shut the valve and air before you light it again; hose and burner are a "
    "licensed fitter's work.";

struct Work {
  std::string_view name;  // the deed, or the quantity
  bool routine;           // done every few days
  std::string_view says;
  bool gas;  // whether kGasDanger follows
};

constexpr std::array kWork{
    Work{"vented", false,
         "Let gas off outdoors, upwind of it, with nobody and no flame, spark or motor near its "
         "outlet.",
         true},
    Work{"drained", false, "Shut the gas valve before you open the trap; no flame near.", true},
    Work{"renewed", false,
         "Shut the gas valve first, no flame near. Spent iron filling heats up by itself in air: "
         "keep it wet, outdoors, away from what burns.",
         true},
    Work{"rested", false,
         "Let the gas off outdoors with no flame near; a line that is opened lets gas out or air "
         "in.",
         true},
    Work{"checked", true,
         "Look for leaks with soapy water, never with a flame; mending gas pipes is for a licensed "
         "fitter, under local code.",
         true},
    Work{"stirred", true,
         "Stirring frees gas in a burst: stand upwind, and do not lean over the opening.", true},
    Work{"cooking", true, kUse, false},
    Work{"weak", true, kUse, false},
    Work{"strong", true, kUse, false},
};

bool is_use(const model::Movement& movement) {
  return is_gas(movement.material) && !is_let_off(movement);
}

// The last day on which gas was burned.
std::optional<Day> last_use(const model::History& history) {
  std::optional<Day> last;
  const auto note = [&](Day day) { last = std::max(last.value_or(day), day); };
  for (const model::DayRoll& roll : model::pooled_days(history.all("cooking"))) note(roll.day);
  for (const model::Sensed& sensed : history.sensed) {
    if (sensed.sense == "flame" && sensed.word != "none") note(sensed.day);
  }
  for (const model::Movement& movement : history.out) {
    if (is_use(movement)) note(movement.day);
  }
  return last;
}

bool is_recent(std::optional<Day> day, const model::History& history, const model::Rules& rules) {
  return day && days_between(*day, history.today) <= rules(limits::caution_again).value;
}

std::string worded(std::string_view says, bool gas, const model::Batch& batch) {
  std::string text(batch.text("site", "") == "glass" ? kGlass : "");
  text += says;
  if (gas) text += fmt::format(" {}", kGasDanger);
  return text;
}

std::string caution_of_words(const Handled& handled, const model::History& before,
                             const model::Rules& rules) {
  std::string says;
  bool gas = false;
  for (const Work& work : kWork) {
    const auto& said = handled.logged;
    if (std::find(said.begin(), said.end(), work.name) == said.end()) continue;
    const model::Deed* done = before.last_deed(work.name);
    const auto last = !work.gas ? last_use(before) : done ? std::optional(done->day) : std::nullopt;
    if (work.routine && is_recent(last, before, rules)) continue;
    if (says.find(work.says) != std::string::npos) continue;
    says += (says.empty() ? "" : " ") + std::string(work.says);
    gas = gas || work.gas;
  }
  return says.empty() ? "" : worded(says, gas, before.batch);
}

std::string caution_of_load(const model::Movement& out, const model::History& before,
                            const model::Rules& rules) {
  const Work& vented = kWork.front();
  if (is_inoculum(out.material)) return worded(kEffluentCaution, false, before.batch);
  if (is_gas(out.material) && is_let_off(out)) return worded(vented.says, true, before.batch);
  if (is_use(out) && !is_recent(last_use(before), before, rules)) {
    return worded(kUse, false, before.batch);
  }
  return "";
}

}  // namespace

std::optional<model::Instant> leaking_since(const model::History& history) {
  std::optional<model::Instant> since;
  for (const model::Sensed& sensed : history.sensed) {
    if (sensed.sense != "leak") continue;
    if (sensed.word == "mended") {
      since.reset();
    } else if (!since) {
      since = sensed.at;
    }
  }
  return since;
}

void judge_leak(const model::History& history, model::Assessment& into) {
  const auto since = leaking_since(history);
  if (!since) return;
  const auto logged =
      std::find_if(history.sensed.begin(), history.sensed.end(),
                   [&](const auto& s) { return s.at == *since && s.sense == "leak"; });
  model::Told made = finding("digester.leak", Urgency::kNow, "common practice");
  made.words.says = fmt::format("gas escapes: logged leaking {}, and no mending since",
                          logged->day == history.today
                              ? std::string("today")
                              : "on " + measure::day_words(logged->day, history.today));
  const model::Deed* checked = history.last_deed("checked");
  if (checked != nullptr && checked->at > *since) {
    made.words.why = "it was checked after that, and a check mends nothing";
  }
  made.words.action = fmt::format(
      "no flame, no switch, no phone near it; {} and get everybody out; shut the gas valve only "
      "where that is safe; a licensed fitter mends it; in doubt call the local emergency number, "
      "from well away. Log mended once soapy water shows no bubbles",
      history.batch.text("site", "") == "glass" ? "open doors and vents from outside"
                                                : "let air in");
  made.old_caution = kGasCaution;
  into.findings.push_back(std::move(made));
}

std::optional<Objection> objects_to_taking(const model::Movement& load,
                                           const model::History& history, const model::Rules&) {
  if (!is_use(load) || !leaking_since(history)) return std::nullopt;
  return Objection{false, "digester.leak",
                   history.batch.code +
                       " is logged as leaking: light none of its gas until that "
                       "is mended",
                   "common practice"};
}

std::string caution_at(const Handled& handled, const model::History& before,
                       const model::Rules& rules) {
  if (handled.starts) {
    return worded(
        fmt::format("Set it where air moves, away from house, well, flames and switches, as far as "
                    "local code says. {}",
                    kGasCaution),
        false, before.batch);
  }
  if (handled.ends) {
    return worded(
        "Emptied, it holds gas for days: let air through it outdoors with no flame near, never "
        "climb or lean in, and take its pipes apart only then, or have a licensed fitter do it.",
        true, before.batch);
  }
  if (handled.out != nullptr) return caution_of_load(*handled.out, before, rules);
  return caution_of_words(handled, before, rules);
}

}  // namespace kinds::digester
