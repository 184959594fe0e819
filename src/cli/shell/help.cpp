#include "cli/shell/help.h"

#include <fmt/format.h>

#include <array>
#include <ostream>

#include "kinds/kind.h"
#include "measure/text.h"
#include "render/text.h"

namespace cli {
namespace {

constexpr std::size_t kOptionColumns = 16;
constexpr std::size_t kNarrow = 60;  // below it what a row says stands under its name

struct Row {
  std::string_view left, right;
};
constexpr std::array kGlobals{
    Row{"--book FILE",
        "the logbook (else $ROUNDBOOK_BOOK, else ~/.local/share/roundbook/logbook.db)"},
    Row{"--json", "the answer as JSON, with SI values beside the shown ones"},
    Row{"--units SYSTEM", "us or metric, for this call"},
    Row{"--no-color", "plain text"},
};

void print_row(std::ostream& out, std::string_view left, std::string_view right,
               std::size_t left_columns, std::size_t width) {
  const std::size_t indent = width < kNarrow ? 6 : left_columns + 3;
  out << render::wrapped(
             fmt::format("  {} {}", render::padded(left, width < kNarrow ? 0 : left_columns),
                         right),
             width, indent)
      << '\n';
}

void print_globals(std::ostream& out, std::size_t width) {
  for (const Row& row : kGlobals) print_row(out, row.left, row.right, kOptionColumns, width);
}

// Lines that were written for 80 columns, broken anew where there are fewer.
std::string wrapped_lines(std::string_view text, std::size_t width) {
  std::string out;
  for (const std::string& line : measure::split(text, '\n')) {
    out += (out.empty() ? "" : "\n") + render::wrapped(line, width, 4);
  }
  return out;
}

}  // namespace

void print_overview(std::ostream& out, std::size_t width) {
  out << render::wrapped("roundbook: the daily logbook of a small circular growing site", width, 2)
      << "\n\nusage: roundbook [--book FILE] COMMAND ...\n\n";
  for (const Command& command : all_commands()) {
    print_row(out, command.name, command.summary, 10, width);
  }
  std::vector<std::string_view> names;
  for (const kinds::Kind* kind : kinds::all_kinds()) names.push_back(kind->name);
  out << '\n'
      << render::wrapped("kinds: " + measure::listed(names, "and"), width, 2)
      << "\n\nfor every command:\n";
  print_globals(out, width);
  print_row(out, "--help", "with one worked example, after any command", kOptionColumns, width);
  out << "  --version\n";
}

void print_help(std::ostream& out, const Command& command, const Arguments& arguments,
                std::size_t width) {
  out << render::wrapped(fmt::format("{}: {}", command.name, command.summary), width, 2) << "\n\n"
      << render::wrapped(fmt::format("usage: roundbook {} {}", command.name, command.usage), width,
                         2)
      << '\n';
  if (!command.more.empty()) out << '\n' << wrapped_lines(command.more, width) << '\n';
  std::string example;
  if (command.help_for != nullptr) example = command.help_for(out, arguments);
  if (example.empty()) example = command.example;
  out << "\noptions:\n";
  for (const Option& option : command.options) {
    print_row(out, fmt::format("--{} {}", option.name, option.value), option.help, kOptionColumns,
              width);
  }
  if (command.judges) {
    print_row(out, "--as-of WHEN", "judge as of then, from what had happened by then",
              kOptionColumns, width);
  }
  if (command.needs == Needs::kWriting) {
    print_row(out, "--who NAME", "whose hands it was (else $ROUNDBOOK_WHO, else the account)",
              kOptionColumns, width);
    print_row(out, "--new-who", "with --who: somebody new, whose name is near a known one",
              kOptionColumns, width);
  }
  print_globals(out, width);
  out << "\nfor example:\n  " << render::wrapped(example, width - 2, 4) << '\n';
}

}  // namespace cli
