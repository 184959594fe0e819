#include "cli/shell/help.h"

#include <fmt/format.h>

#include <ostream>

#include "kinds/kind.h"

namespace cli {
namespace {

constexpr std::string_view kGlobals =
    "  --book FILE      the logbook (else $ROUNDBOOK_BOOK, else "
    "~/.local/share/roundbook/logbook.db)\n"
    "  --json           the answer as JSON, with SI values beside the shown ones\n"
    "  --units SYSTEM   us or metric, for this call\n"
    "  --no-color       plain text\n";

}  // namespace

void print_overview(std::ostream& out) {
  out << "roundbook: the daily logbook of a small circular growing site\n\n"
         "usage: roundbook [--book FILE] COMMAND ...\n\n";
  for (const Command& command : all_commands()) {
    out << fmt::format("  {:<10} {}\n", command.name, command.summary);
  }
  out << "\nkinds: ";
  bool first = true;
  for (const kinds::Kind* kind : kinds::all_kinds()) {
    out << (first ? "" : ", ") << kind->name;
    first = false;
  }
  out << "\n\nfor every command:\n"
      << kGlobals
      << "  --help           with one worked example, after any command\n"
         "  --version\n";
}

void print_help(std::ostream& out, const Command& command, const Arguments& arguments) {
  out << fmt::format("{}: {}\n\nusage: roundbook {} {}\n", command.name, command.summary,
                     command.name, command.usage);
  if (!command.more.empty()) out << '\n' << command.more << '\n';
  std::string example;
  if (command.help_for != nullptr) example = command.help_for(out, arguments);
  if (example.empty()) example = command.example;
  out << "\noptions:\n";
  for (const Option& option : command.options) {
    const std::string left = fmt::format("--{} {}", option.name, option.value);
    out << fmt::format("  {:<16} {}\n", left, option.help);
  }
  if (command.judges) {
    out << "  --as-of WHEN     judge as of then, from what had happened by then\n";
  }
  out << kGlobals << "\nfor example:\n  " << example << '\n';
}

}  // namespace cli
