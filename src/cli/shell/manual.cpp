#include "cli/shell/manual.h"

#include <fmt/format.h>

#include "cli/shell/command.h"
#include "cli/shell/kind_words.h"
#include "measure/text.h"

namespace cli {
namespace {

// Text that the formatter takes as it is: no escape, no request at the beginning of a line.
std::string plain(std::string_view text) {
  std::string out;
  bool at_begin = true;
  for (const char c : text) {
    if (at_begin && (c == '.' || c == '\'')) out += "\\&";
    at_begin = c == '\n';
    if (c == '\\') {
      out += "\\e";
    } else if (c == '-') {
      out += "\\-";
    } else {
      out += c;
    }
  }
  return out;
}

// An argument of a macro: quotes in it are doubled.
std::string in_quotes(std::string_view text) {
  std::string out = "\"";
  for (const char c : plain(text)) out += c == '"' ? std::string("\"\"") : std::string(1, c);
  return out + "\"";
}

std::string option_rows(const Command& command) {
  std::string out;
  const auto add = [&](std::string_view name, std::string_view value, std::string_view help) {
    out += fmt::format(".IP {}\n{}\n",
                       in_quotes(fmt::format("--{}{}{}", name, value.empty() ? "" : " ", value)),
                       plain(help));
  };
  for (const Option& one : command.options) add(one.name, one.value, one.help);
  if (command.judges) add("as-of", "WHEN", "judge as of then, from what had happened by then");
  return out;
}

std::string command_part(const Command& command) {
  std::string out =
      fmt::format(".SS {}\n{}.\n", in_quotes(fmt::format("{} {}", command.name, command.usage)),
                  plain(measure::capitalised(std::string(command.summary))));
  if (!command.more.empty()) out += fmt::format(".PP\n.nf\n{}\n.fi\n", plain(command.more));
  out += option_rows(command);
  return out + fmt::format(".PP\n.EX\n{}\n.EE\n", plain(command.example));
}

std::string kind_part(const kinds::Kind& kind) {
  std::string out = fmt::format(".SS {}\n{}.\n", in_quotes(kind.name),
                                plain(measure::capitalised(std::string(kind.meaning))));
  for (const WordSection& section : words_of(kind)) {
    out += fmt::format(".PP\n{}:\n", plain(measure::capitalised(section.title)));
    for (const WordRow& row : section.rows) {
      out += fmt::format(".IP {}\n{}\n", in_quotes(row.names), plain(row.meaning));
    }
  }
  out += ".PP\nSettings, told with start as name=value:\n";
  for (const kinds::SettingSpec& one : kind.vocabulary.settings) {
    out += fmt::format(".IP {}\n{}\n", in_quotes(fmt::format("{}=", one.key)), plain(one.meaning));
  }
  return out;
}

}  // namespace

std::string manual_page() {
  std::string out = fmt::format(
      ".TH ROUNDBOOK 1 \"\" \"roundbook {}\" \"User Commands\"\n"
      ".SH NAME\nroundbook \\- the daily logbook of a small circular growing site\n"
      ".SH SYNOPSIS\n.B roundbook\n[\\-\\-book FILE] COMMAND ...\n"
      ".SH DESCRIPTION\n"
      "Compost piles, larva bins, brews, a digester, char burns, beds, hens, tanks, panels and "
      "nest\n"
      "boxes are batches. Each line typed records what was seen or done; roundbook answers which\n"
      "batch needs hands now, whether what is carried from one to the next is ready and safe, and\n"
      "what it all came to. It knows what its thresholds say and what was typed, no more: gas,\n"
      "fire, raw manure and drinking water are under local code and licensed practice.\n"
      ".SH COMMANDS\n",
      ROUNDBOOK_VERSION);
  for (const Command& command : all_commands()) out += command_part(command);
  out +=
      ".SH OPTIONS\nFor every command:\n"
      ".IP \"\\-\\-book FILE\"\nthe logbook\n"
      ".IP \"\\-\\-json\"\nthe answer as JSON, with SI values beside the shown ones\n"
      ".IP \"\\-\\-units us|metric\"\nfor this call\n"
      ".IP \"\\-\\-no\\-color\"\nplain text\n"
      ".IP \"\\-\\-help\"\nof a command, with one worked example\n"
      ".PP\nFor every command that records:\n"
      ".IP \"\\-\\-who NAME\"\nwhose hands it was\n"
      ".IP \"\\-\\-new\\-who\"\nwith it: somebody new, whose name is near a known one\n"
      ".SH KINDS\n";
  for (const kinds::Kind* kind : kinds::all_kinds()) out += kind_part(*kind);
  return out +
         ".SH ENVIRONMENT\n"
         ".IP ROUNDBOOK_BOOK\nthe logbook, where \\-\\-book does not name it\n"
         ".IP ROUNDBOOK_WHO\nwho types, where \\-\\-who does not say it\n"
         ".IP ROUNDBOOK_BACKUPS\noff: no dated copy is made each day\n"
         ".IP COLUMNS\nthe width of what is printed, 40 to 120\n"
         ".IP NO_COLOR\nset: plain text\n"
         ".SH FILES\n"
         ".I ~/.local/share/roundbook/logbook.db\nis the logbook where nothing else names one. "
         "Beside it stand\n.I logbook\\-backups\nand, with \\-\\-keep,\n.IR logbook\\-photos .\n"
         ".SH TIMER\n"
         "From cron or a timer, today \\-\\-check says by its exit status whether something must "
         "be\n"
         "done now:\n.PP\n.EX\n"
         "30 6 * * * roundbook today \\-\\-check > morning || mail \\-s roundbook rosa < morning\n"
         ".EE\n.PP\n"
         "A status other than 0 and 10 is mailed too: then the logbook could not be asked.\n"
         "scripts/morning in the source has this as a script, with a systemd user timer.\n"
         ".SH EXIT STATUS\n"
         "0 done; 1 it could not (disk, database, damage); 2 the words were off and nothing was\n"
         "recorded; 10 today \\-\\-check found something that must be done now.\n";
}

}  // namespace cli
