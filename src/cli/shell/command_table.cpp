#include <algorithm>
#include <array>

#include "cli/import/package.h"
#include "cli/shell/command.h"
#include "cli/shell/commands.h"

// One row a command: the only place that lists them. A new command is its file and its row here.
namespace cli {
namespace {

constexpr Option kWhen{"when", "WHEN",
                       "when it was, e.g. 7:15, yesterday 7:15, mon, -2d, 2027-05-03"};
constexpr Option kSure{"sure", "", "record it although it looks wrong; it is marked"};
constexpr Option kPhoto{"photo", "FILE",
                        "a picture that goes with it: its name and digest are kept"};
constexpr Option kKeep{"keep", "", "with --photo: copy the picture beside the logbook"};
constexpr Option kAll{"all", "", "everything, ended and old too"};

constexpr std::array kNewOptions{
    Option{"site", "NAME", "the site's name"},
    Option{"zone", "IANA", "its time zone, e.g. America/Los_Angeles (else the system's)"},
    Option{"latitude", "N", "degrees, north positive"},
};
constexpr std::array kStartOptions{Option{"place", "NAME", "where it stands"},
                                   Option{"from", "CODE", "the batch whose remains it takes over"},
                                   kWhen,
                                   kSure,
                                   kPhoto,
                                   kKeep};
constexpr std::array kLogOptions{
    Option{"note", "TEXT", "a remark"},
    kWhen,
    kSure,
    kPhoto,
    kKeep,
    Option{"from", "FILE", "lines of CODE WORD ...; - is standard input"},
    Option{"keep-good", "FILE", "of these record the good, write the refused to FILE"}};
constexpr Option kLot{"lot", "TEXT", "its lot, invoice or delivery note"};
constexpr std::array kAddOptions{
    Option{"from", "CODE", "the batch it comes from (else from outside)"},
    Option{"paid", "MONEY", "what it cost"},
    Option{"supplier", "NAME", "who brought it"},
    kLot,
    Option{"for", "WHAT", "what it is for"},
    kWhen,
    kSure,
    kPhoto,
    kKeep};
constexpr std::array kTakeOptions{Option{"to", "CODE", "the batch it goes to (else away)"},
                                  Option{"for", "WHAT", "what it is for"},
                                  Option{"sold", "MONEY", "what it brought"},
                                  Option{"buyer", "NAME", "who got it"},
                                  kLot,
                                  kWhen,
                                  kSure,
                                  kPhoto,
                                  kKeep};
constexpr std::array kEndOptions{
    Option{"to", "CODE", "where what is left goes; away: off the site"},
    Option{"empty", "", "nothing is left in it"},
    Option{"because", "TEXT", "why it ends"},
    kWhen,
    kPhoto,
    kKeep,
    Option{"sure", "", "close it though something is not yet safe"}};
constexpr std::array kTodayOptions{
    Option{"all", "", "a line each for what is folded, put off or fine"},
    Option{"check", "", "exit 10 where something must be done now, for scripts"}};
constexpr std::array kAheadOptions{
    Option{"calendar", "FILE", "write it for a calendar program (RFC 5545); - is the output"}};
constexpr std::array kSheetOptions{Option{"large", "", "in large print"}};
constexpr std::array kLabelsOptions{
    Option{"html", "FILE", "where to write them, else labels.html; - is the output"}};
constexpr std::array kRoundOptions{
    Option{"all", "", "every open batch, not only where something is due"}};
constexpr std::array kListOptions{
    kAll, Option{"foresight", "", "how well forecasts came true, replayed day by day"}};
constexpr std::array kShowOptions{
    kAll, Option{"treatment", "", "the record of its treatment that a certifier asks for"},
    Option{"sizing", "", "of a tank: how often each size meets what is wanted"},
    Option{"html", "FILE", "write its whole record for an inspector, to print"},
    Option{"csv", "DIR", "the same as CSV files, with what each column holds"}};
constexpr std::array kRecipeOptions{
    Option{"for", "PILE", "pile (the default), or the code of one to add to"},
    Option{"buy", "NAMES", "what could be bought, separated by commas: as little as will do"},
    Option{"volume", "VOLUME", "how much to make, e.g. 1yd3"},
    Option{"cn", "N", "carbon to nitrogen to aim at"},
    Option{"moisture", "N%", "moisture to aim at"},
};
constexpr std::array kTraceOptions{
    Option{"up", "", "only where its contents came from"},
    Option{"down", "", "only where they went"},
};
constexpr std::array kCompareOptions{
    Option{"measure", "WHAT", "yield, 'yield per area', tomatoes, 'highest moisture', a figure"},
    Option{"pairs", "", "the first of each side lie together, so the second, ..."},
    Option{"no-pairs", "", "they do not"},
    Option{"by-lot", "", "lots decided which plot got what"},
    Option{"by-choice", "", "somebody did"},
    Option{"span", "SPAN", "only what happened then, e.g. 2026-06-01..2026-08-31"},
    Option{"worth", "N%", "planning: the difference worth finding; says how many plots find it"},
    Option{"spread", "N%", "with --worth: how much similar plots differ (sd), else from batches"},
    Option{"lots", "NAMES", "planning: draws which plot gets what, e.g. compost,nothing"},
    Option{"plots", "N", "with --lots: numbered plots, else name them"},
    Option{"seed", "N", "with --lots: draw the same again"},
};
constexpr std::array kToolOptions{kWhen};
constexpr std::array kSeasonOptions{
    kAll, Option{"record", "FILE", "write the site's record for an inspector, to print"},
    Option{"html", "FILE", "write the report as one page that opens anywhere, offline"},
    Option{"csv", "DIR", "write tidy CSV tables and a README of their columns there"},
    Option{"fields", "", "what each column of these tables holds"}};
constexpr std::array kImportOptions{
    Option{"as", "NAME", "by the mapping of that name; it is kept under it the first time"},
    Option{"yes", "", "record it as it was understood, without asking"},
    Option{"dry-run", "", "only say what would be recorded"},
    Option{"keep-good", "FILE", "record the good rows, write the refused ones to FILE"},
    Option{"dates", "ORDER", "day-first, month-first, year-first, seconds or milliseconds"},
    Option{"zone", "ZONE", "of times without an offset: site (the default), utc, -08:00, or IANA"},
    Option{"last-line", "", "take a last line that has no line end yet"},
    Option{"line-breaks", "", "take quoted cells of several lines"},
};
constexpr std::array kMaterialOptions{
    Option{"new", "", "make a material of the site's own"},
    Option{"group", "GROUP", "of a new material: brown, green, manure, ..."},
    Option{"alias", "NAMES", "other names of a new material, separated by commas"},
    Option{"flag", "FLAGS", "what else it is, e.g. manure, separated by commas"},
    Option{
        "treated", "TEXT",
        "its supplier's statement: 'WHO, PROCESS, DAY'; PROCESS: windrow, vessel, static, heated; "
        "none: it has none"},
    Option{"source", "TEXT", "where the figures come from, e.g. 'laboratory 2027-03-01'"},
};
constexpr std::array kPlaceOptions{
    Option{"at", "N", "its place in the walk, 1 the first"},
    Option{"new", "", "make it although its name is nearly that of another"}};
constexpr std::array kRuleOptions{
    Option{"batch", "CODE", "for this batch alone"},
    Option{"sure", "", "set it although it is far from the default, or a law says another"}};

constexpr std::array kAmendOptions{Option{"batch", "CODE", "the batch it belongs to"},
                                   Option{"note", "TEXT", "what the note should have been"},
                                   Option{"supplier", "NAME", "of what came: who brought it"},
                                   Option{"buyer", "NAME", "of what left: who got it"},
                                   Option{"lot", "TEXT", "of either: its lot or invoice"},
                                   Option{"because", "TEXT", "why; the history shows it"},
                                   kWhen,
                                   kSure};
constexpr std::array kHistoryOptions{Option{"who", "NAME", "only what that person recorded"},
                                     Option{"all", "", "every entry, not the latest 20 alone"}};
constexpr std::array kFindOptions{Option{"all", "", "every place, not the latest 20 alone"}};

constexpr std::array kCheckOptions{
    Option{"repair", "", "rebuild what is derived; what is recorded is never touched"}};
constexpr std::array kBackupOptions{
    Option{"keep", "N", "then remove all but the newest N in the usual folder"}};

Needs writing_if(bool sets) {
  return sets ? Needs::kWriting : Needs::kReading;
}
Needs needs_words(const Arguments& arguments) {
  return writing_if(!arguments.words.empty());
}
Needs needs_material(const Arguments& arguments) {
  return writing_if(
      arguments.flag("new") || arguments.option("treated") ||
      std::any_of(arguments.words.begin(), arguments.words.end(),
                  [](const std::string& word) { return word.find('=') != std::string::npos; }));
}
Needs needs_rule(const Arguments& arguments) {
  return writing_if(arguments.words.size() > 1);
}
Needs needs_check(const Arguments& arguments) {
  return writing_if(arguments.flag("repair"));
}
// A package makes the logbook; a logger's file goes into one.
Needs needs_import(const Arguments& arguments) {
  const bool package = arguments.words.size() == 1 && is_package(arguments.words[0]);
  return package ? Needs::kNothing : Needs::kWriting;
}

constexpr std::array kCommands{
    Command{"new", "make the logbook", "[options]",
            "One logbook holds one site. It is one SQLite file.",
            "roundbook new --site 'Tern Hollow' --zone America/Los_Angeles --units us",
            Needs::kNothing, false, kNewOptions, run_new},
    Command{"start", "begin a batch", "KIND CODE [key=value ...] [options]",
            "A batch is anything with its own clock. Its settings depend on its kind: 'roundbook "
            "start\n"
            "pile --help' lists those of a pile.",
            "roundbook start pile heap-3 method=turned volume='1 yd3' --place 'lower yard'",
            Needs::kWriting, false, kStartOptions, run_start, nullptr, help_start},
    Command{"log", "readings, deeds and a note in one line", "CODE WORD ... [options]",
            "  148               the kind's daily reading; the answer says what it was taken for\n"
            "  148F, 64.4C       the kind's own temperature\n"
            "  55%               its percentage, where it has exactly one\n"
            "  name=value        a reading by name: ph=6.8, moisture=55%, core=148F,\n"
            "                    core.moisture=55%\n"
            "  turned, damp ...  a deed, or a judgement by hand\n"
            "  'in quotes'       a note, unless all of it reads as an entry\n"
            "bin-1 81F bin-2 83F, and box-1 box-2 cleaned, are several batches in one line.\n"
            "log - reads such lines as they were jotted down, all or none; '@ yesterday 7:15' and\n"
            "'@ rosa' in it say when and who for what follows.",
            "roundbook log heap-3 core=148F edge=121F turned 'steam when opened'", Needs::kWriting,
            false, kLogOptions, run_log, nullptr, help_log},
    Command{
        "add", "something goes in", "CODE AMOUNT MATERIAL [options]",
        "From outside, or from another batch with --from. Amounts take any unit, a fraction, or a\n"
        "container of the site; a comma parts several: 6 barrow leaves, 1 bucket bran.",
        "roundbook add heap-3 2 bucket coffee grounds", Needs::kWriting, false, kAddOptions,
        run_add},
    Command{"take", "something comes out", "CODE AMOUNT [PRODUCT] [options]",
            "Away, or to another batch with --to. Without a product it is the kind's own;\n"
            "all is what is left by the records.",
            "roundbook take bin-a 3lb larvae --to hens", Needs::kWriting, false, kTakeOptions,
            run_take},
    Command{"end", "close a batch", "CODE [options]",
            "Its record stays, and its code is free again: 'roundbook start CODE' begins it anew.",
            "roundbook end heap-3 --because 'screened and bagged'", Needs::kWriting, false,
            kEndOptions, run_end},
    Command{"today", "the morning's jobs: danger first, then what harms if it waits", "[options]",
            "NOW: harm if it waits. TODAY: wants hands. SOON: by its date. READY: something to "
            "gain. HOLD: not\n"
            "before that day. new: was not there yesterday at this hour.",
            "roundbook today", Needs::kReading, true, kTodayOptions, run_today},
    Command{"why",
            "the whole of a job: reason, what to do, what ends it, rule, source",
            "[N | CODE [RULE]]",
            "N is a job's number in 'roundbook today'. With no word: all of them.",
            "roundbook why 3",
            Needs::kReading,
            true,
            {},
            run_why},
    Command{
        "later",
        "put a job off; it comes back",
        "CODE [RULE] until WHEN",
        "WHEN: sat, tomorrow, 3d, 2 weeks, 2027-05-03. What harms if it waits cannot be put off.",
        "roundbook later heap-4 until sat",
        Needs::kWriting,
        false,
        {},
        run_later},
    Command{"round", "walk the batches in order and log what is due at each", "[PLACE] [options]",
            "At each batch it shows what is due and the last values; what you type is taken as by\n"
            "log and recorded at once. Enter skips, ? says why, b goes back, q stops.",
            "roundbook round 'lower yard'", Needs::kWriting, false, kRoundOptions, run_round},
    Command{"ahead", "the days to come: what falls due, what is foreseen", "[SPAN]",
            "SPAN: 7d (the default), 2w, sat (until then), sat..sun, 2027-05-08..2027-05-09.\n"
            "As it stands if nothing more is logged; what is foreseen comes with its doubt.",
            "roundbook ahead sat..sun", Needs::kReading, true, kAheadOptions, run_ahead},
    Command{"sheet", "paper for the shed: today's jobs, then each batch with a blank",
            "[FILE] [options]",
            "Writes a page to print: one side of letter or A4 for twenty batches. Without FILE:\n"
            "sheet.html; - is the output. The batches stand in the order in which round asks.",
            "roundbook sheet sheet.html", Needs::kReading, true, kSheetOptions, run_sheet},
    Command{"labels", "labels for drums, bins and piles, eight a page",
            "[CODE or KIND ...] [options]",
            "Code, kind, since when, what is in it, what can hurt, until when it waits.",
            "roundbook labels drum-2 heap-4", Needs::kReading, true, kLabelsOptions, run_labels},
    Command{"list", "the batches", "[KIND] [options]", "", "roundbook list pile", Needs::kReading,
            true, kListOptions, run_list},
    Command{"show", "one batch: stage, readings, forecast, chart, timeline", "CODE [options]",
            "CODE/1 is the first batch that had the code, CODE/2 the second.",
            "roundbook show heap-3", Needs::kReading, true, kShowOptions, run_show},
    Command{"recipe", "what to mix, from what is at hand", "[MATERIAL[=AMOUNT] ...] [options]",
            "  grounds=40kg      a waste: as much of it as the mix can take\n"
            "  'straw=<20kg'     at hand, up to that; in quotes, as < means something to a shell\n"
            "  leaves            at hand, any amount; water always is\n"
            "With no word: what went into the site's piles within a year.",
            "roundbook recipe --for pile grounds=40kg leaves 'straw=<20kg'", Needs::kReading, true,
            kRecipeOptions, run_recipe},
    Command{"trace", "where a batch's contents came from, and where they went", "CODE [options]",
            "Through every batch on the way. A load holds what its batch had been given by then, "
            "each\nin proportion to its weight.",
            "roundbook trace bed-2 --up", Needs::kReading, true, kTraceOptions, run_trace},
    Command{
        "compare", "did it work: treated against untreated",
        "CODE ... against CODE ... --measure WHAT [options]",
        "  --measure yield           all that was taken out, by weight or count\n"
        "  --measure 'kale per area' one product, by the area the batch was started with\n"
        "  --measure moisture        a reading: its mean; or total, highest, lowest\n"
        "  --measure days            from start to end; or a figure that show prints\n"
        "Whether plots are paired, and whether lots decided, must be said: it changes what the\n"
        "numbers show. Planning: --worth 20% --spread 15%, and --lots compost,nothing.",
        "roundbook compare bed-1 bed-3 against bed-2 bed-4 --measure 'yield per area' --pairs "
        "--by-lot",
        Needs::kReading, true, kCompareOptions, run_compare},
    Command{
        "season", "what went in and what came out", "[YEAR | FROM..TO] [CHAPTER] [options]",
        "What it came to, on one screen; a chapter by its name, like piles; --all for the whole:\n"
        "what needs care, each batch's figures, inputs, yields, flows,\n"
        "nutrients, treatment, and how complete the records are; beside the span before.",
        "roundbook season 2026-03-01..2026-10-31 --html season.html", Needs::kReading, true,
        kSeasonOptions, run_season},
    Command{
        "import", "readings from a logger's or a spreadsheet's file",
        "FILE [COLUMN=MEANING ...] [options]",
        "FILE is delimited text, or JSON lines; - is standard input. The first time it shows what\n"
        "it understood and asks. MEANING of a column or a probe:\n"
        "  heap-3.core         a series: a batch, a probe position, a quantity (heap-3.moisture)\n"
        "  heap-3.core:F       the same, in a unit where the file says none\n"
        "  time, date, clock   the moment, or its two halves\n"
        "  probe, value, unit  one value a row: which probe, its value, its unit\n"
        "  -                   left out\n"
        "JSON lines: {\"at\": ..., \"series\": \"heap-3.core\", \"value\": ..., \"unit\": ...}\n"
        "A folder that export wrote becomes the logbook that --book names, which must be new.",
        "roundbook import shed.csv 'Core=heap-3.core' 'Edge=heap-3.edge' --as shed-logger",
        Needs::kWriting, false, kImportOptions, run_import, needs_import},
    Command{
        "material", "list, show or set materials", "[NAME] [figure=value ...] [options]",
        "With no word: all by group. A figure of the site's own takes the catalogue's place; "
        "p2o5= and k2o= are turned into phosphorus and potassium.\n"
        "Bought compost counts as raw manure until its supplier's statement is on record:\n"
        "roundbook material 'hill compost' --new --group compost --treated 'Hill Farm, windrow, "
        "2027-03-20'",
        "roundbook material 'coffee grounds' moisture=62% nitrogen=2.3% --source 'laboratory "
        "2027-03-01'",
        Needs::kWriting, false, kMaterialOptions, run_material, needs_material},
    Command{"container",
            "list or set what a bucket or a barrow holds",
            "[NAME VOLUME]",
            "",
            "roundbook container bucket 5gal",
            Needs::kWriting,
            false,
            {},
            run_container,
            needs_words},
    Command{"tool", "list or record checks of a thermometer or a scale", "[NAME WORDS] [options]",
            "What it was compared with, and how it read. The records for an inspector name it.",
            "roundbook tool probe-1 ice water, 33F", Needs::kWriting, false, kToolOptions, run_tool,
            needs_words},
    Command{"place", "list or set the places, in walking order", "[NAME] [options]", "",
            "roundbook place 'lower yard' --at 2", Needs::kWriting, false, kPlaceOptions, run_place,
            needs_words},
    Command{"rule", "list, show or set the thresholds", "[KEY [VALUE | default]] [options]",
            "With a part of a key: all rules that have it, each with its meaning and source.",
            "roundbook rule pile.hot.above 155F --batch heap-3", Needs::kWriting, false,
            kRuleOptions, run_rule, needs_rule},
    Command{"undo",
            "take back the last thing recorded, or one entry",
            "[ENTRY]",
            "With no word: the last one that holds; again and again, entry by entry. ENTRY is a "
            "number\n"
            "in 'roundbook history': that one alone, where nothing later rests on it.",
            "roundbook undo 131",
            Needs::kWriting,
            false,
            {},
            run_undo},
    Command{
        "amend", "correct an entry", "ENTRY [WORD ...] [options]",
        "ENTRY is its number in 'roundbook history'. The words are those of log, or an amount\n"
        "of a material; what is not said stays. A batch's code with key=value corrects what it\n"
        "was told when it was started. The logbook keeps what it was.",
        "roundbook amend 41 core=148F --because 'misread'", Needs::kWriting, false, kAmendOptions,
        run_amend},
    Command{"history", "what was recorded and corrected: who, when, before, after",
            "[CODE] [DAY | FROM..TO] [options]",
            "With no word: of the whole site. DAY: mon (the last one), yesterday, -2d, 10-01,\n"
            "2027-05-03: what happened then.",
            "roundbook history heap-3 10-01..10-07", Needs::kReading, false, kHistoryOptions,
            run_history},
    Command{"find", "where a word stands: notes, materials, purposes, codes, who", "TEXT [options]",
            "All the words must stand in it, in any order.", "roundbook find wasps",
            Needs::kReading, false, kFindOptions, run_find},
    Command{"check", "whether the file is whole and what is derived agrees", "[options]",
            "Says what is wrong, what it means and what to do; exit 1 where something is.",
            "roundbook check", Needs::kWriting, false, kCheckOptions, run_check, needs_check},
    Command{"backup", "a whole, checked copy of the file", "[FILE or FOLDER] [options]",
            "With no word: into the folder NAME-backups beside the logbook, where one is made by\n"
            "itself each day at the first entry (the newest 14 of these stay).",
            "roundbook backup /media/stick", Needs::kReading, false, kBackupOptions, run_backup},
    Command{"restore",
            "put a backup in the logbook's place",
            "FILE",
            "The backup is checked first, and what is there now is kept.",
            "roundbook restore logbook-backups/logbook-2027-05-03.db",
            Needs::kNothing,
            false,
            {},
            run_restore},
    Command{"export",
            "everything, in open formats",
            "FOLDER",
            "One CSV a table, their description in datapackage.json (Frictionless Data), and the\n"
            "same rows as JSON lines. 'roundbook import FOLDER' makes a logbook of it again.",
            "roundbook export tern-hollow-2027",
            Needs::kReading,
            false,
            {},
            run_export},
    Command{"merge",
            "bring in another copy of this logbook",
            "FILE",
            "For two copies that have drifted apart. Every entry of both stays; of two corrections "
            "of one\n"
            "thing the newest stands. Where they differ is listed.",
            "roundbook merge /media/stick/field.db",
            Needs::kWriting,
            false,
            {},
            run_merge},
    Command{"complete",
            "for the shell: what can be typed next, and the manual page",
            "bash | zsh | fish | man",
            "Prints the script that completes commands, codes, words and materials, or the manual\n"
            "page. An installed roundbook has them in place.",
            "roundbook complete bash > ~/.local/share/bash-completion/completions/roundbook",
            Needs::kNothing,
            false,
            {},
            run_complete},
};

}  // namespace

std::optional<std::string> Arguments::option(std::string_view name) const {
  const auto found = options.find(name);
  return found == options.end() ? std::nullopt : std::optional(found->second);
}

bool Arguments::flag(std::string_view name) const {
  const auto found = flags.find(name);
  return found != flags.end() && found->second;
}

std::span<const Command> all_commands() {
  return kCommands;
}

}  // namespace cli
