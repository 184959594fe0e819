#include <fmt/format.h>

#include <algorithm>
#include <istream>
#include <ostream>

#include "book/write/pen.h"
#include "cli/desk/last_words.h"
#include "cli/desk/log_entry.h"
#include "cli/desk/morning.h"
#include "cli/desk/whole.h"
#include "cli/shell/commands.h"
#include "cli/shell/environment.h"
#include "cli/words/jotted.h"
#include "kinds/rhythm.h"
#include "measure/text.h"
#include "render/text.h"

namespace cli {
namespace {

using measure::Mistake;

// What one batch wants as of now, as jobs.
std::vector<season::Job> jobs_of(const model::Batch& batch, const Desk& desk) {
  auto morning = season::morning_of({{batch.code, desk.study(batch)->told(), {}, {}}},
                                    put_off_now(desk), desk.today());
  return morning.jobs;
}

bool is_due(const season::Job& job) {
  return season::wants_hands(job.slot);
}

bool wants_visit(const model::Batch& batch, const Desk& desk) {
  const std::vector<season::Job> jobs = jobs_of(batch, desk);
  return std::any_of(jobs.begin(), jobs.end(), is_due) || kinds::wants_look(*desk.study(batch));
}

// The words that would end what is found: "core=…", "turned".
std::string answers_to(const std::vector<season::Job>& jobs) {
  std::vector<std::string> words;
  using By = model::Ending::By;
  for (const season::Job& job : jobs) {
    if (!is_due(job)) continue;
    for (const model::Told& finding : job.findings) {
      for (const model::Ending& one : finding.ends) {
        std::string word;
        if (one.by == By::kReading) {
          word = (one.position.empty() ? one.name : one.position) + "=…";
        } else if (one.by == By::kDeed || one.by == By::kJudgement) {
          word = one.name;
        }
        if (!word.empty() && std::find(words.begin(), words.end(), word) == words.end()) {
          words.push_back(word);
        }
      }
    }
  }
  return measure::joined(words, ", ");
}

class Walk {
 public:
  Walk(Context& context, std::vector<std::string> stops)
      : context_(context), stops_(std::move(stops)), logged_(stops_.size(), false) {}

  Outcome go() {
    std::size_t at = 0;
    std::optional<std::size_t> shown;
    while (at < stops_.size()) {
      if (auto why = tell_time()) return *why;
      if (shown != at) show(at);
      shown = at;
      const std::optional<std::string> typed = ask(at);
      if (!typed || *typed == "q") break;
      if (typed->empty()) {
        ++at;
      } else if (*typed == "b") {
        if (at == 0) say("  this is the first", 4);
        at -= at == 0 ? 0 : 1;
      } else if (record(at, *typed)) {
        logged_[at] = true;
        ++at;
      }
    }
    end(at);
    return kDone;
  }

 private:
  void say(const std::string& text, std::size_t indent) const {
    context_.out << render::wrapped(text, static_cast<std::size_t>(context_.width), indent) << '\n';
  }

  // A round takes a while: each answer is of the moment at which it is given.
  std::optional<Mistake> tell_time() {
    const auto now = clock_now();
    if (!now) return now.mistake();
    context_.clock = *now;
    return std::nullopt;
  }

  Desk desk() const { return *Desk::lay_out(context_); }

  void show(std::size_t at) const {
    const Desk now = desk();
    const auto batch = now.batch(stops_[at]);
    const Studied study = now.study(*batch);
    const std::vector<season::Job> jobs = jobs_of(*batch, now);
    say(fmt::format("{} of {} · {}{} · day {} · {}", at + 1, stops_.size(), batch->code,
                    batch->place.empty() ? "" : " · " + batch->place, study->history().day_number(),
                    study->stage()),
        2);
    for (const season::Job& job : jobs) {
      if (job.slot == season::Slot::kSoon) continue;
      const model::Words& words = job.lead().words;
      say(fmt::format("  {}: {}",
                      job.slot == season::Slot::kHold ? "wait" : model::word(job.lead().urgency),
                      words.line.empty() ? words.says : words.line),
          4);
      const std::string minds = model::brief_text(job.cautions());
      if (!minds.empty()) say("   ! " + minds, 5);
    }
    const std::string last = last_words(study->history(), now);
    say("  last: " + (last.empty() ? "nothing yet" : last), 4);
    const std::string answers = answers_to(jobs);
    if (!answers.empty()) say("  type: " + answers, 4);
  }

  // What was typed, its blanks trimmed; none: nobody is there any more. A `?` is answered here.
  std::optional<std::string> ask(std::size_t at) const {
    for (;;) {
      context_.out << stops_[at] << "> ";
      context_.out.flush();
      std::string line;
      const bool there = static_cast<bool>(std::getline(context_.in, line));
      if (!can_ask()) context_.out << '\n';  // a terminal shows what is typed
      if (!there) return std::nullopt;
      while (!line.empty() && (line.back() == '\r' || line.back() == ' ')) line.pop_back();
      line.erase(0, line.find_first_not_of(' '));
      if (line != "?") return line;
      explain(at);
    }
  }

  void explain(std::size_t at) const {
    const Desk now = desk();
    const auto batch = now.batch(stops_[at]);
    bool told = false;
    for (const season::Job& job : jobs_of(*batch, now)) {
      for (const model::Told& one : job.findings) print_whole(context_, now, one);
      told = told || !job.findings.empty();
    }
    const std::string well = now.study(*batch)->well();
    if (!told) say(fmt::format("  nothing is wrong{}{}", well.empty() ? "" : ": ", well), 4);
    say(fmt::format("  its words: 'roundbook log --help {}'", batch->kind), 4);
  }

  // Whether it was understood and recorded, as by `log`.
  bool record(std::size_t at, const std::string& typed) {
    const auto said = [&](const Mistake& why) {
      const bool ended = why.why.ends_with('.') || why.why.ends_with('?');
      say(fmt::format("  {}{} Nothing was recorded.", why.why, ended ? "" : "."), 4);
      return false;
    };
    if (auto why = tell_time()) return said(*why);
    auto words = split_words(typed);
    if (!words) return said(words.mistake());
    std::vector<std::string> line = *words;
    if (measure::folded(line.front()) == stops_[at]) line.erase(line.begin());
    line.insert(line.begin(), {"log", stops_[at]});
    const std::string as_typed = typed_line(line);
    line.erase(line.begin());
    const auto sure = take_sure(line);
    if (!sure) return said(sure.mistake());
    if (line.size() == 1) return said({"", "say what you saw, or Enter to go on"});
    const Desk now = desk();
    const auto read = read_log_line(line, now.now(), *sure, false, now);
    if (!read) return said(read.mistake());
    book::Pen pen(*context_.book, {context_.who, "log", as_typed, context_.clock});
    const auto answers = write_logged(pen, *read, {{now.now(), ""}, false, *sure}, now);
    if (!answers) return said(answers.mistake());
    pen.commit();
    print_answers(context_, now, *answers);
    return true;
  }

  void end(std::size_t at) const {
    const auto logged = std::count(logged_.begin(), logged_.end(), true);
    const std::size_t left = stops_.size() - at;
    say(left == 0 ? fmt::format("Round done: {} of {} logged.", logged, stops_.size())
                  : fmt::format("Stopped: {} logged, {} not visited.", logged, left),
        2);
  }

  Context& context_;
  std::vector<std::string> stops_;  // codes, in walking order
  std::vector<bool> logged_;
};

// The place that the words name; none: the whole site.
measure::Result<std::optional<std::string>> place_of(const Arguments& arguments, const Desk& desk) {
  if (arguments.words.empty()) return std::optional<std::string>();
  const std::vector<std::string> known = book::places(desk.logbook());
  const std::string name = as_known(measure::joined(arguments.words, " "), known);
  if (std::find(known.begin(), known.end(), name) == known.end()) {
    return no_such("place", name, known);
  }
  return std::optional(name);
}

}  // namespace

Outcome run_round(Context& context, const Arguments& arguments) {
  if (context.json) {
    return Mistake{"--json", "round asks a person; 'roundbook today --json' has what is due"};
  }
  const auto desk = Desk::lay_out(context);
  if (!desk) return desk.mistake();
  const auto place = place_of(arguments, *desk);
  if (!place) return place.mistake();
  std::vector<std::string> stops;
  std::size_t fine = 0;
  for (const model::Batch& one : desk->open_batches()) {
    if (*place && one.place != **place) continue;
    if (arguments.flag("all") || wants_visit(one, *desk)) {
      stops.push_back(one.code);
    } else {
      ++fine;
    }
  }
  const auto width = static_cast<std::size_t>(context.width);
  if (stops.empty()) {
    context.out << render::wrapped(fine == 0 ? "No batch is open here."
                                             : "Nothing is due; --all walks by every batch.",
                                   width, 2)
                << '\n';
    return kDone;
  }
  context.out << render::wrapped(
                     fmt::format("{} to visit{}. Enter skips, ? why, b back, q stops.",
                                 stops.size(), fine == 0 ? "" : fmt::format(", {} fine", fine)),
                     width, 2)
              << '\n';
  return Walk(context, std::move(stops)).go();
}

}  // namespace cli
