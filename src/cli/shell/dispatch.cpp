#include "cli/shell/dispatch.h"

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <array>
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
#include "render/text.h"

namespace cli {
namespace {

constexpr std::size_t kLongestWord = 8192;
// An entry is whole or not there, but it may be there before its answer fails.
constexpr std::string_view kSeeHistory = "'roundbook history' shows what was recorded.\n";

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
  std::vector<std::string> before(typed.begin(), dashes);
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
  context.book_path = logbook_path(globals.book);
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

// What is asked of a batch is asked of its kind. Commands that only look after the file do without.
void require_known_kinds(const book::Logbook& logbook, const Command& command) {
  constexpr std::array kNeedNone{run_check, run_backup, run_export};
  if (std::find(kNeedNone.begin(), kNeedNone.end(), command.run) != kNeedNone.end()) return;
  for (const std::string& kind : book::kinds_in_use(logbook)) {
    if (kinds::find_kind(kind) != nullptr) continue;
    throw book::BookError(
        fmt::format("{}: it has a batch of a kind that this roundbook does not know ({}). Install "
                    "the roundbook that wrote it",
                    logbook.path().string(), measure::quoted(kind)));
  }
}

int run(Context& context, const Command& command, const Arguments& arguments,
        const Globals& globals) {
  std::optional<book::Logbook> logbook;
  const Needs needs = needed(command, arguments);
  const bool writes = needs == Needs::kWriting;
  if (needs != Needs::kNothing) {
    logbook.emplace(context.book_path, writes ? book::Access::kWrite : book::Access::kRead);
    context.book = &*logbook;
    require_known_kinds(*logbook, command);
    if (globals.who) {
      const auto who = who_is(*globals.who, *logbook, globals.new_who);
      if (!who) return refuse(context.err, who.mistake().why, true);
      context.who = *who;
    }
    if (writes) care_for(context, *logbook);
  }
  const Outcome outcome = command.run(context, arguments);
  if (!outcome) {
    return refuse(context.err, outcome.mistake().why, needs != Needs::kReading);
  }
  context.out.flush();
  if (!context.out) {
    context.err << "roundbook: the output could not be written\n";
    return kCouldNot;
  }
  return *outcome;
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
  try {
    return run(context, *command, *arguments, globals);
  } catch (const book::BookError& error) {
    context.err << "roundbook: " << error.what() << ".\n";
    return kCouldNot;
  } catch (const std::filesystem::filesystem_error& error) {
    context.err << "roundbook: " << error.what() << ".\n";
    return kCouldNot;
  } catch (const std::bad_alloc&) {
    context.err << "roundbook: there is not enough memory for this; it stopped in the middle. "
                << kSeeHistory;
    return kCouldNot;
  } catch (const std::exception& error) {
    context.err << "roundbook: it stopped in the middle: " << error.what() << ". " << kSeeHistory;
    return kCouldNot;
  }
}

}  // namespace cli
