#include "kinds/remark.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <map>

#include "kinds/caution.h"
#include "kinds/finding.h"
#include "measure/text.h"

namespace kinds {
namespace {

using model::Danger;
using model::Urgency;
using By = model::Ending::By;

constexpr std::string_view kSource = "judgement of the trade";

using model::Forbids;

// What must not be done until it is over.
struct Bars {
  Forbids forbids = Forbids::kNothing;
  bool hold = false;       // until the word that is meant for it alone
  bool keeps_off = false;  // nobody works at it meanwhile
};
constexpr Bars kNoFlame{.forbids = Forbids::kFlame}, kNoProduct{.forbids = Forbids::kProduct},
    kProductWaits{.forbids = Forbids::kProduct, .hold = true}, kKeepOff{.keeps_off = true},
    kKeepOffNoFlame{.forbids = Forbids::kFlame, .keeps_off = true};

// What stays to be done of a danger that was remarked. None: what is said at once is all.
struct Job {
  Danger danger;
  Urgency urgency;
  std::string_view line;    // with what ends it, at most 46 columns
  std::string_view tag;     // the danger in few words
  std::string_view action;  // who says that it is over
  Bars bars = {};
};

constexpr std::array kJobs{
    Job{Danger::kGasSmell, Urgency::kNow, "no flame: gas was smelled", "smell of gas",
        "have it found and mended by somebody fit to", kNoFlame},
    Job{Danger::kPoisonAir, Urgency::kNow, "burn no gas where people breathe", "poison air",
        "air it, see a doctor if anybody felt dizzy; gas is burned outdoors, or where a licensed "
        "fitter has put it",
        kNoFlame},
    Job{Danger::kFlameOut, Urgency::kToday, "flame went out: air, find why", "flame out",
        "shut the valve and air the place before it is lit again; a burner indoors wants a valve "
        "that shuts by itself, from a licensed fitter"},
    Job{Danger::kInEye, Urgency::kNow, "rinse the eye, see a doctor", "burn of eye or skin",
        "rinse with running water for 15 minutes, then poison control or a doctor"},
    Job{Danger::kPeopleIll, Urgency::kNow, "see a doctor; use none of it", "people ill",
        "whoever is ill sees a doctor and says what they had; nobody has more of it", kNoProduct},
    Job{Danger::kRawOnBed, Urgency::kToday, "raw manure noted: 'add' it", "raw manure noted",
        "a note starts no wait: add it as a load with its material, or say all-clear if it was "
        "none",
        kNoProduct},
    Job{Danger::kSprayed, Urgency::kToday, "grow beans in it first: sprayed?", "weedkiller",
        "keep it off beds until beans or peas grown in it stand well for three weeks"},
    Job{Danger::kPersonDown, Urgency::kNow, "stay out, and see a doctor", "somebody in it",
        "nobody goes in; whoever was in it or felt ill sees a doctor", kKeepOff},
    Job{Danger::kFlameOnIce, Urgency::kToday, "check leaks: flame on ice", "flame on ice",
        "look for leaks with soapy water before it is used"},
    Job{Danger::kBirdsDying, Urgency::kNow, "call the vet, hold eggs back", "birds very ill",
        "call a vet or the state veterinarian, hold eggs back, count the dead: dead=8", kNoProduct},
    Job{Danger::kOneDead, Urgency::kToday, "look them over: one dead", "a bird dead",
        "look the others over, and count it: dead=1"},
    Job{Danger::kMedicine, Urgency::kToday, "eggs: medicine given", "eggs until withdrawal-over",
        "hold the eggs back for the days on the label, or by the vet", kProductWaits},
    Job{Danger::kBadBattery, Urgency::kNow, "leave it: battery unsafe", "unsafe battery",
        "have a licensed electrician take it out", kKeepOff},
    Job{Danger::kBareWire, Urgency::kNow, "touch nothing: bare wire", "bare wire",
        "have a licensed electrician mend it", kKeepOff},
    Job{Danger::kSmoke, Urgency::kNow, "keep back: smoke was noted", "smoke",
        "have the fire service look at it", kKeepOff},
    Job{Danger::kBulging, Urgency::kNow, "keep off: it bulges", "bulging",
        "let the pressure off as said", kKeepOffNoFlame},
    Job{Danger::kDeadInWater, Urgency::kToday, "use none: dead animal in it", "dead animal in it",
        "run it empty, clean it from outside and flush it", kNoProduct},
    Job{Danger::kLidOff, Urgency::kNow, "put the lid on: it was off", "lid off",
        "close and lock it, so that no child gets in"},
    Job{Danger::kCharIndoors, Urgency::kNow, "air, carry it out: char indoors", "char indoors",
        "air the place from outside, then carry it into the open"},
    Job{Danger::kCaustic, Urgency::kToday, "air it, mix nothing: caustic", "caustic",
        "air the place, rinse it with much water, and keep what was mixed apart from now on"},
    Job{Danger::kAmmoniaAir, Urgency::kToday, "air it: ammonia was noted", "ammonia in the air",
        "air it, and take the wet bedding out"},
};

const Job* job_of(Danger danger) {
  if (danger == Danger::kSomeDead) danger = Danger::kBirdsDying;
  const auto found = std::find_if(kJobs.begin(), kJobs.end(),
                                  [&](const Job& one) { return one.danger == danger; });
  return found == kJobs.end() ? nullptr : found;
}

// The moment of the last deed or judgement of that name.
std::optional<model::Instant> last_logged(const model::History& history, std::string_view word) {
  std::optional<model::Instant> last;
  if (const model::Deed* deed = history.last_deed(word)) last = deed->at;
  for (const model::Sensed& one : history.sensed) {
    if (one.word == word && (!last || one.at > *last)) last = one.at;
  }
  return last;
}

// A wait for eggs is over by its own word alone: that the birds are well again does not end it.
bool is_over(const Job& job, model::Instant told, const model::History& history, const Kind& kind) {
  const auto ends = [&](std::string_view word) {
    const auto last = last_logged(history, word);
    // Of two in one moment the one that forbids counts, where it is a wait.
    return last && (job.bars.hold ? *last > told : *last >= told);
  };
  return (!job.bars.hold && ends(kAllClear)) ||
         std::any_of(kind.remedies.begin(), kind.remedies.end(), [&](const Remedy& one) {
           return one.danger == job.danger && !one.word.empty() && ends(one.word);
         });
}

// Whether the kind's own findings say it as urgently.
bool is_said(const Job& job, const Kind& kind, const std::vector<model::Told>& own) {
  return std::any_of(own.begin(), own.end(), [&](const model::Told& one) {
    return one.urgency <= job.urgency &&
           std::any_of(kind.remedies.begin(), kind.remedies.end(), [&](const Remedy& remedy) {
             return remedy.danger == job.danger && remedy.rule == one.rule;
           });
  });
}

std::string_view ending_word(Danger danger, const Kind& kind) {
  for (const Remedy& one : kind.remedies) {
    if (one.danger == danger && !one.word.empty()) return one.word;
  }
  return kAllClear;
}

// What a person wrote in their own words: a note, or what a load was for.
struct Remark {
  model::Instant at{};
  model::Day day{};
  std::string_view text;
};

std::vector<Remark> remarks_of(const model::History& history) {
  std::vector<Remark> all;
  for (const model::Note& one : history.notes) all.push_back({one.at, one.day, one.text});
  // The same purpose stands at many loads, and the last of them is the one that nothing ended yet.
  std::map<std::string_view, Remark> purposes;
  for (const auto* loads : {&history.in, &history.out}) {
    for (const model::Movement& one : *loads) {
      if (!one.purpose.empty()) purposes[one.purpose] = {one.at, one.day, one.purpose};
    }
  }
  for (const auto& [text, remark] : purposes) all.push_back(remark);
  return all;
}

model::Told told(const Job& job, const Remark& remark, const Study& study, const Kind& kind) {
  const model::History& history = study.history();
  const std::string_view ends = ending_word(job.danger, kind);
  model::Told made{finding(fmt::format("{}.danger.{}", kind.name, model::word(job.danger)),
                           job.urgency, kSource)};
  made.remarked = true;
  made.keeps_off = job.bars.keeps_off;
  made.forbids = job.bars.forbids;
  made.case_of = model::word(job.danger);
  made.job = made.case_of;
  made.since = remark.day;
  made.hold = job.bars.hold;
  made.ends = {{.by = By::kJudgement, .name = std::string(ends)}};
  made.words.line = fmt::format("{}; {} ends it", job.line, ends);
  made.words.says =
      fmt::format("noted {}: \"{}\"", measure::day_words(remark.day, history.today), remark.text);
  made.words.action =
      fmt::format("{}; 'log {} {}' ends this once it is so", job.action, history.batch.code, ends);
  made.words.tag = job.tag;
  return made;
}

}  // namespace

std::vector<model::Told> standing_dangers(const Study& study, const std::vector<model::Told>& own) {
  const model::History& history = study.history();
  const Kind& kind = *find_kind(history.batch.kind);
  std::vector<model::Told> all;
  const auto stands = [&](const Job& job) {
    return std::any_of(all.begin(), all.end(), [&](const model::Told& one) {
      return one.case_of == model::word(job.danger);
    });
  };
  for (const Remark& remark : remarks_of(history)) {
    for (const Danger danger : model::dangers_in(remark.text)) {
      const Job* job = job_of(danger);
      if (job == nullptr || !is_minded(danger, kind.name) || stands(*job)) continue;
      if (is_over(*job, remark.at, history, kind) || is_said(*job, kind, own)) continue;
      all.push_back(told(*job, remark, study, kind));
    }
  }
  return all;
}

void give_way(const std::vector<model::Told>& dangers, const Kind& kind,
              std::vector<model::Told>& own) {
  for (const model::Told& danger : dangers) {
    std::erase_if(own, [&](const model::Told& one) {
      const bool can_wait =
          one.urgency != Urgency::kNow && !one.hold && one.forbids == Forbids::kNothing;
      return (danger.keeps_off && can_wait) ||
             std::any_of(kind.remedies.begin(), kind.remedies.end(), [&](const Remedy& remedy) {
               return model::word(remedy.danger) == danger.case_of && remedy.instead_of == one.rule;
             });
    });
  }
}

std::optional<Objection> against_closing(const Study& study) {
  if (auto own = study.against_ending()) return own;
  const auto standing = study.told();
  const auto found = std::find_if(standing.begin(), standing.end(), [](const model::Told& one) {
    return one.remarked && one.urgency == Urgency::kNow;
  });
  if (found == standing.end()) return std::nullopt;
  return Objection{true, found->rule, fmt::format("{}; {}", found->words.says, found->words.action),
                   found->source};
}

}  // namespace kinds
