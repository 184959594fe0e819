#include "cli/commands/log_notes.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <fstream>
#include <functional>
#include <istream>
#include <ostream>

#include "book/write/pen.h"
#include "cli/desk/hands.h"
#include "cli/desk/log_entry.h"
#include "cli/import/refusals.h"
#include "cli/words/jotted.h"
#include "measure/text.h"
#include "render/text.h"

namespace cli {
namespace {

using measure::Mistake;

constexpr std::uint64_t kMostNoteLines = 10'000;  // more is no morning's notes

// A word that speaks of a day, or is one letter off such a word: no name of a person.
bool speaks_of_a_day(const std::string& word) {
  constexpr std::array<std::string_view, 20> kDays{
      "now", "today",  "yesterday", "tomorrow", "mon",      "tue",     "wed",
      "thu", "fri",    "sat",       "sun",      "monday",   "tuesday", "wednesday",
      "ago", "friday", "saturday",  "sunday",   "thursday", "noon"};
  constexpr std::size_t kLong = 5;  // a slip in a shorter word may well be a name: "mona"
  return std::any_of(kDays.begin(), kDays.end(), [&](std::string_view day) {
    return word == day || (day.size() >= kLong && measure::is_slip_of(word, day));
  });
}

bool may_be_person(const std::string& text) {
  if (text.find_first_of("0123456789:") != std::string::npos) return false;
  const std::vector<std::string> words = measure::split(measure::folded(text), ' ');
  return std::none_of(words.begin(), words.end(), speaks_of_a_day);
}

// The answers of one batch as one: first how it stood before, then all that was recorded.
void fold_in(std::vector<Answer>& answers, Answer&& more) {
  const auto same = std::find_if(answers.begin(), answers.end(),
                                 [&](const Answer& one) { return one.batch.id == more.batch.id; });
  if (same == answers.end()) {
    answers.push_back(std::move(more));
    return;
  }
  const auto add = [](auto& to, auto& from) {
    for (auto& one : from) {
      if (std::find(to.begin(), to.end(), one) == to.end()) to.push_back(std::move(one));
    }
  };
  same->recorded += "; " + more.recorded;
  add(same->remarks, more.remarks);
  add(same->first, more.first);
  add(same->cautions, more.cautions);
}

class Notes {
 public:
  Notes(Context& context, const Arguments& arguments, const Desk& desk, Recorded moment,
        Refusals& refusals)
      : context_(context),
        desk_(desk),
        moment_{std::move(moment), arguments.option("when").has_value(), arguments.flag("sure")},
        when_(arguments.option("when").value_or("")),
        who_(context.who),
        new_who_(arguments.flag("new-who")),
        refusals_(refusals),
        pen_(*context.book) {}

  void take(std::uint64_t number, const std::string& line) {
    const auto why = read(number, line);
    if (why) refusals_.add(number, why->why, line);
  }

  std::uint64_t recorded() const { return recorded_; }
  std::vector<Answer>& answers() { return answers_; }
  void commit() { pen_.commit(); }

 private:
  std::optional<Mistake> read(std::uint64_t number, const std::string& line) {
    const auto parted = split_words(line);
    if (!parted) return at_sign(line) ? lose_the_way(number, parted.mistake()) : parted.mistake();
    std::vector<std::string> words = *parted;
    if (words.empty() || words.front().starts_with('#')) return std::nullopt;
    if (words.size() > 1 && is_bullet(words.front())) words.erase(words.begin());
    if (words.front().starts_with('@')) return direct(number, words);
    if (lost_) {
      return Mistake{
          "", fmt::format("line {} above, which says when or who, is not understood", *lost_)};
    }
    return record(words);
  }

  static bool at_sign(std::string_view line) {
    const std::size_t at = line.find_first_not_of(" \t");
    return at != std::string_view::npos && line[at] == '@';
  }
  static bool is_bullet(const std::string& word) {
    return word == "-" || word == "*" || word == "\u2022";
  }

  // What follows would be put down to a wrong moment or to wrong hands.
  Mistake lose_the_way(std::uint64_t number, Mistake why) {
    lost_ = number;
    return why;
  }

  // "@ yesterday 7:15", "@ rosa"
  std::optional<Mistake> direct(std::uint64_t number, const std::vector<std::string>& words) {
    std::string text = measure::joined(words, " ").substr(1);
    text.erase(0, text.find_first_not_of(' '));
    if (text.empty()) {
      return lose_the_way(number, {"@", "after @ comes when or who, like '@ yesterday 7:15'"});
    }
    Arguments said;
    said.options["when"] = text;
    const auto moment = recorded_at(context_, said, desk_.site());
    if (moment) {
      moment_.recorded = *moment;
      moment_.was_said = true;
      when_ = text;
      return std::nullopt;
    }
    if (!may_be_person(text)) return lose_the_way(number, moment.mistake());
    const auto who = who_is(text, desk_.logbook(), new_who_);
    if (!who) return lose_the_way(number, who.mistake());
    who_ = *who;
    return std::nullopt;
  }

  std::optional<Mistake> record(std::vector<std::string> words) {
    std::string& code = words.front();
    code = measure::folded(code);
    while (code.size() > 1 && (code.back() == ':' || code.back() == ',')) code.pop_back();
    std::vector<std::string> typed = words;
    typed.insert(typed.begin(), "log");
    if (moment_.was_said) typed.insert(typed.end(), {"--when", when_});
    LogMoment moment = moment_;
    const auto sure = take_sure(words);
    if (!sure) return sure.mistake();
    moment.sure = moment.sure || *sure;
    const auto read = read_log_line(words, moment.recorded.at, moment.sure, false, desk_);
    if (!read) return read.mistake();
    for (const LoggedBatch& one : *read) {
      if (one.logged.readings.empty() && one.logged.words.empty() && one.logged.note.empty()) {
        return Mistake{"", fmt::format("nothing is said of {}", one.batch.code)};
      }
    }
    pen_.begin({who_, "log", typed_line(typed), context_.clock});
    auto answers = write_logged(pen_, *read, moment, desk_);
    if (!answers) {
      pen_.drop();
      return answers.mistake();
    }
    ++recorded_;
    for (Answer one : *answers) fold_in(answers_, std::move(one));
    return std::nullopt;
  }

  Context& context_;
  const Desk& desk_;
  LogMoment moment_;
  std::string when_;  // as it was said
  std::string who_;
  bool new_who_;
  Refusals& refusals_;
  book::Pen pen_;
  std::vector<Answer> answers_;
  std::optional<std::uint64_t> lost_;  // the line that should have said when or who
  std::uint64_t recorded_ = 0;
};

// Each line with its number, without its end; a mistake where there are too many.
std::optional<Mistake> for_each_line(
    std::istream& in, const std::function<void(std::uint64_t, const std::string&)>& use) {
  constexpr std::string_view kByteOrderMark = "\xef\xbb\xbf";
  std::string line;
  for (std::uint64_t number = 1; std::getline(in, line); ++number) {
    if (number > kMostNoteLines) {
      return Mistake{"", fmt::format("more than {} lines are no notes; a logger's file goes to "
                                     "'roundbook import'",
                                     kMostNoteLines)};
    }
    if (number == 1 && line.starts_with(kByteOrderMark)) line.erase(0, kByteOrderMark.size());
    if (!line.empty() && line.back() == '\r') line.pop_back();
    use(number, line);
  }
  return std::nullopt;
}

void tell_refusals(Context& context, const Refusals& refusals) {
  std::ostream& out = context.err;
  const auto width = static_cast<std::size_t>(context.width);
  for (const Refusals::Refusal& one : refusals.shown()) {
    out << render::wrapped(fmt::format("line {}: {}", one.line, one.why), width, 2) << '\n';
  }
  if (refusals.count() > refusals.shown().size()) {
    out << fmt::format("and {} more\n", refusals.count() - refusals.shown().size());
  }
}

Outcome record_all(Context& context, const Arguments& arguments, std::istream& in) {
  const auto desk = Desk::lay_out(context);
  if (!desk) return desk.mistake();
  const auto at = recorded_at(context, arguments, desk->site());
  if (!at) return at.mistake();
  const std::string good_file = arguments.option("keep-good").value_or("");
  Refusals refusals(good_file);
  Notes notes(context, arguments, *desk, *at, refusals);
  if (const auto why = for_each_line(
          in, [&](std::uint64_t number, const std::string& line) { notes.take(number, line); })) {
    return *why;
  }
  if (refusals.count() > 0) tell_refusals(context, refusals);
  if (refusals.count() > 0 && (good_file.empty() || notes.recorded() == 0)) {
    return Mistake{"", fmt::format("{} of {} lines not understood{}", refusals.count(),
                                   refusals.count() + notes.recorded(),
                                   good_file.empty() && notes.recorded() > 0
                                       ? "; --keep-good FILE records the others"
                                       : "")};
  }
  if (notes.recorded() == 0) return Mistake{"", "there is no line in it, like 'heap-3 148F'"};
  refusals.finish();
  notes.commit();
  refusals.keep();
  print_answers(context, *desk, notes.answers());
  if (refusals.count() > 0) {
    context.err << render::wrapped(fmt::format("{} recorded; {} refused, written to {}",
                                               notes.recorded(), refusals.count(), good_file),
                                   static_cast<std::size_t>(context.width), 2)
                << '\n';
  }
  return kDone;
}

}  // namespace

Outcome log_notes(Context& context, const Arguments& arguments) {
  for (const std::string_view one : {"note", "photo"}) {
    if (arguments.option(one)) {
      return Mistake{"",
                     fmt::format("--{} is for a single line; here each line says its own", one)};
    }
  }
  const auto file = arguments.option("from");
  if (!file || *file == "-") return record_all(context, arguments, context.in);
  std::error_code error;
  std::ifstream in;
  if (!std::filesystem::is_directory(*file, error)) in.open(*file, std::ios::binary);
  if (!in.is_open()) {
    return Mistake{*file, fmt::format("--from: {} cannot be read", measure::quoted(*file))};
  }
  return record_all(context, arguments, in);
}

}  // namespace cli
