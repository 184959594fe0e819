#include "cli/shell/dispatch.h"

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <exception>
#include <new>
#include <ostream>

#include "book/file/error.h"
#include "book/keep/backup.h"
#include "book/read/read.h"
#include "cli/desk/hands.h"
#include "cli/shell/commands.h"
#include "cli/shell/environment.h"
#include "cli/shell/help.h"
#include "cli/words/jotted.h"
#include "kinds/kind.h"
#include "measure/text.h"
#include "measure/when.h"
#include "render/text.h"

namespace cli {
namespace {

constexpr std::size_t kLongestWord = 8192;

const Command* find_command(std::string_view name) {
  for (const Command& command : all_commands()) {
    if (command.name == name) return &command;
  }
  return nullptr;
}

bool takes_value(std::string_view word) {
  return word == "--book" || word == "--as-of" || word == "--units";
}

// Where the command's name stands: the first word that is neither a global option nor its value.
std::size_t command_at(const std::vector<std::string>& typed) {
  for (std::size_t i = 0; i < typed.size(); ++i) {
    if (takes_value(typed[i])) {
      ++i;
    } else if (typed[i].empty() || typed[i][0] != '-') {
      return i;
    }
  }
  return typed.size();
}

std::optional<std::string> unfit(const std::vector<std::string>& typed) {
  for (const std::string& word : typed) {
    if (word.size() > kLongestWord) {
      return measure::quoted(word, 24) + fmt::format(
                                             " is {} bytes long; {} is the most one word "
                                             "may have",
                                             word.size(), kLongestWord);
    }
    if (!measure::is_clean_text(word)) {
      return measure::quoted(word) + " holds a control character or is not UTF-8 text";
    }
  }
  return std::nullopt;
}

// "-5C" is a word, "-x" and "--when" are options.
bool looks_like_option(std::string_view word) {
  return word.size() > 1 && word[0] == '-' && !(word[1] >= '0' && word[1] <= '9') && word[1] != '.';
}

measure::Mistake unknown_option(std::string_view word, const Command& command) {
  std::vector<std::string> names{"--book",     "--json",    "--as-of", "--units",
                                 "--no-color", "--version", "--help"};
  if (command.needs == Needs::kWriting) names.insert(names.end(), {"--who", "--new-who"});
  for (const Option& option : command.options) names.push_back("--" + std::string(option.name));
  const std::vector<std::string_view> known(names.begin(), names.end());
  std::string why = fmt::format("{} has no option {}", command.name, measure::quoted(word));
  if (const auto near = measure::nearest(word.substr(0, word.find('=')), known)) {
    why += fmt::format("; did you mean {}?", *near);
  } else {
    why += fmt::format("; 'roundbook {} --help' lists them", command.name);
  }
  return {std::string(word), why};
}

struct Globals {
  std::optional<std::string> book, as_of, units, who;
  bool new_who = false;
  bool json = false, no_color = false, help = false, version = false;
};

void add_globals(CLI::App& app, const Command& command, Globals& globals) {
  app.set_help_flag();
  app.add_option("--book", globals.book);
  app.add_option("--as-of", globals.as_of);
  app.add_option("--units", globals.units);
  if (command.needs == Needs::kWriting) {
    app.add_option("--who", globals.who);
    app.add_flag("--new-who", globals.new_who);
  }
  app.add_flag("--json", globals.json);
  app.add_flag("--no-color", globals.no_color);
  app.add_flag("--help,-h", globals.help);
  app.add_flag("--version", globals.version);
}

// CLI11's own words for a parse error are not ours: it is asked only which option it was.
measure::Mistake option_mistake(const CLI::ParseError& error) {
  std::string why = error.what();
  if (dynamic_cast<const CLI::ArgumentMismatch*>(&error) != nullptr) {
    why = why.substr(0, why.find(':')) + " needs a value";
  }
  return {"", why};
}

// "--when yesterday 7:15" without quotes: the words of one moment are one value.
std::vector<std::string> with_whole_moments(const std::vector<std::string>& typed) {
  std::vector<std::string> out;
  for (std::size_t i = 0; i < typed.size(); ++i) {
    out.push_back(typed[i]);
    const bool apart = typed[i] == "--when" || typed[i] == "--as-of";
    const bool joined = typed[i].starts_with("--when=") || typed[i].starts_with("--as-of=");
    if (apart && i + 1 < typed.size()) out.push_back(typed[++i]);
    if (!apart && !joined) continue;
    while (i + 1 < typed.size() && measure::goes_on_a_moment(out.back(), typed[i + 1])) {
      out.back() += " " + typed[++i];
    }
  }
  return out;
}

measure::Result<Arguments> parse(const std::vector<std::string>& typed, const Command& command,
                                 Globals& globals) {
  Arguments arguments;
  CLI::App app;
  add_globals(app, command, globals);
  app.allow_extras();
  std::map<std::string, std::optional<std::string>> values;
  std::map<std::string, bool> flags;
  for (const Option& option : command.options) {
    const std::string name(option.name);
    if (option.value.empty()) {
      app.add_flag("--" + name, flags[name]);
    } else {
      app.add_option("--" + name, values[name]);
    }
  }
  // After "--" everything is a word.
  const auto dashes = std::find(typed.begin(), typed.end(), "--");
  std::vector<std::string> before = with_whole_moments({typed.begin(), dashes});
  std::reverse(before.begin(), before.end());  // CLI11 takes them off the back
  try {
    app.parse(before);
  } catch (const CLI::ParseError& error) {
    return option_mistake(error);
  }
  arguments.words = app.remaining();
  for (const std::string& word : arguments.words) {
    if (looks_like_option(word)) return unknown_option(word, command);
  }
  if (dashes != typed.end()) {
    arguments.words.insert(arguments.words.end(), dashes + 1, typed.end());
  }
  for (auto& [name, value] : values) {
    if (value) arguments.options[name] = *value;
  }
  for (const auto& [name, is_set] : flags) arguments.flags[name] = is_set;
  if (globals.new_who) arguments.flags["new-who"] = true;
  return arguments;
}

int refuse(std::ostream& err, std::string_view why, bool was_to_record) {
  const bool ended = why.ends_with('.') || why.ends_with('?');
  const std::string text = fmt::format("roundbook: {}{}{}", why, ended ? "" : ".",
                                       was_to_record ? " Nothing was recorded." : "");
  err << (wraps_refusals() ? render::wrapped(text, static_cast<std::size_t>(terminal_width()), 2)
                           : text)
      << '\n';
  return kWordsWereOff;
}

measure::Mistake unknown_command(std::string_view name) {
  std::vector<std::string_view> names;
  for (const Command& command : all_commands()) names.push_back(command.name);
  std::string why = fmt::format("there is no command {}", measure::quoted(name));
  if (const auto near = measure::nearest(name, names)) {
    why += fmt::format("; did you mean '{}'?", *near);
  } else {
    why += "; 'roundbook --help' lists them";
  }
  return {std::string(name), why};
}

std::optional<std::string> settle(Context& context, const Globals& globals,
                                  const Command& command) {
  context.json = globals.json;
  context.color = may_color() && !globals.no_color;
  context.width = terminal_width();
  const auto path = logbook_path(globals.book);
  if (!path) return path.mistake().why;
  context.book_path = *path;
  context.as_of = globals.as_of;
  if (globals.as_of && !command.judges) {
    return fmt::format("{} takes no --as-of; the moment of a record is --when", command.name);
  }
  if (globals.units) {
    if (*globals.units != "us" && *globals.units != "metric") {
      return "--units takes us or metric, not " + measure::quoted(*globals.units);
    }
    context.units =
        *globals.units == "us" ? measure::UnitSystem::kUs : measure::UnitSystem::kMetric;
  }
  return std::nullopt;
}

Needs needed(const Command& command, const Arguments& arguments) {
  return command.needs_for == nullptr ? command.needs : command.needs_for(arguments);
}

// Once a day, before the first thing is recorded. That a copy could not be made keeps nobody from
// recording; it is said.
void care_for(Context& context, const book::Logbook& logbook) {
  if (!makes_backups()) return;
  const measure::Day today = logbook.site().zone.day_of(context.clock);
  try {
    if (!book::back_up_daily(logbook, today)) return;
    if (const auto why = book::unsafe_place(logbook.path())) {
      context.err << "roundbook: warning: " << *why << ".\n";
    }
  } catch (const book::BookError& error) {
    context.err << "roundbook: warning: today's backup could not be made: " << error.what()
                << ".\n";
  }
}

// What is asked of a batch is asked of its kind. One of a kind that a newer roundbook brought is
// kept and listed, but nothing is judged of it.
void warn_of_unknown_kinds(Context& context) {
  for (const std::string& kind : book::kinds_in_use(*context.book)) {
    if (kinds::find_kind(kind) != nullptr) continue;
    context.err << fmt::format(
        "roundbook: warning: a batch is of a kind that this roundbook does not know ({}): it is "
        "kept, not judged. Install the roundbook that wrote it.\n",
        measure::quoted(kind));
  }
}

// What came of the logbook in this call, for whoever has to say that it went wrong.
struct Record {
  std::optional<book::Logbook> logbook;
  Needs needs = Needs::kNothing;

  bool is_made() const { return logbook && logbook->recorded(); }
};

// The answer could not be shown. A pipe that its reader closed early (| head) is no news, unless
// something was recorded.
int unshown(Context& context, const Record& record) {
  if (record.is_made()) {
    context.err << "roundbook: recorded; the answer could not be shown.\n";
    return kUnshown;
  }
  if (record.needs == Needs::kNothing) {
    context.err << "roundbook: done; the answer could not be shown.\n";
    return kUnshown;
  }
  if (!reader_is_gone()) context.err << "roundbook: the output could not be written.\n";
  return kCouldNot;
}

int could_not(Context& context, const Record& record, std::string_view why) {
  const bool ended = why.ends_with('.') || why.ends_with('?');
  context.err << "roundbook: " << why << (ended ? "" : ".");
  if (record.is_made()) {
    context.err << " Something was recorded before that; 'roundbook history' shows it.\n";
    return kUnshown;
  }
  context.err << (record.needs == Needs::kWriting ? " Nothing was recorded.\n" : "\n");
  return kCouldNot;
}

int run(Context& context, const Command& command, const Arguments& arguments,
        const Globals& globals, Record& record) {
  record.needs = needed(command, arguments);
  const bool writes = record.needs == Needs::kWriting;
  if (record.needs != Needs::kNothing) {
    record.logbook.emplace(context.book_path, writes ? book::Access::kWrite : book::Access::kRead);
    context.book = &*record.logbook;
    warn_of_unknown_kinds(context);
    if (globals.who) {
      const auto who = who_is(*globals.who, *record.logbook, globals.new_who);
      if (!who) return refuse(context.err, who.mistake().why, true);
      context.who = *who;
    }
    if (writes) care_for(context, *record.logbook);
  }
  const Outcome outcome = command.run(context, arguments);
  if (!outcome) {
    return refuse(context.err, outcome.mistake().why,
                  record.needs != Needs::kReading && !record.is_made());
  }
  context.out.flush();
  return context.out ? *outcome : unshown(context, record);
}

}  // namespace

int dispatch(const std::vector<std::string>& typed, World world) {
  if (const auto why = unfit(typed)) return refuse(world.err, *why, true);
  const auto width = static_cast<std::size_t>(terminal_width());
  const std::size_t at = command_at(typed);
  std::vector<std::string> rest = typed;
  if (at == typed.size()) {
    const auto wants = [&](std::string_view flag) {
      return std::find(typed.begin(), typed.end(), flag) != typed.end();
    };
    if (wants("--version")) {
      world.out << "roundbook " << ROUNDBOOK_VERSION << '\n';
      return kDone;
    }
    print_overview(typed.empty() ? world.err : world.out, width);
    return typed.empty() ? kWordsWereOff : kDone;
  }
  const Command* command = find_command(typed[at]);
  if (typed[at] == "help" && command == nullptr) {
    const Command* asked = at + 1 < typed.size() ? find_command(typed[at + 1]) : nullptr;
    if (asked == nullptr) {
      print_overview(world.out, width);
      return kDone;
    }
    Arguments words;
    words.words.assign(typed.begin() + static_cast<std::ptrdiff_t>(at) + 2, typed.end());
    print_help(world.out, *asked, words, width);
    return kDone;
  }
  if (command == nullptr) return refuse(world.err, unknown_command(typed[at]).why, true);
  rest.erase(rest.begin() + static_cast<std::ptrdiff_t>(at));
  Globals globals;
  const auto arguments = parse(rest, *command, globals);
  const bool to_record = command->needs != Needs::kReading;
  if (!arguments) return refuse(world.err, arguments.mistake().why, to_record);
  if (globals.help) {
    print_help(world.out, *command, *arguments, width);
    return kDone;
  }
  const auto clock = clock_now();
  if (!clock) return refuse(world.err, clock.mistake().why, to_record);
  Context context{.out = world.out,
                  .err = world.err,
                  .in = world.in,
                  .clock = *clock,
                  .book_path = {},
                  .who = user_name(),
                  .line = typed_line(typed),
                  .units = {},
                  .as_of = {}};
  if (const auto why = settle(context, globals, *command))
    return refuse(world.err, *why, to_record);
  Record record;
  try {
    return run(context, *command, *arguments, globals, record);
  } catch (const book::BookError& error) {
    return could_not(context, record, error.what());
  } catch (const std::filesystem::filesystem_error& error) {
    return could_not(context, record, error.what());
  } catch (const std::bad_alloc&) {
    return could_not(context, record,
                     "there is not enough memory for this; it stopped in the middle");
  } catch (const std::exception& error) {
    return could_not(context, record, fmt::format("it stopped in the middle: {}", error.what()));
  }
}

}  // namespace cli
