#include <fmt/format.h>

#include <filesystem>
#include <ostream>

#include "book/file/error.h"
#include "book/import/run.h"
#include "cli/import/ask.h"
#include "cli/import/package.h"
#include "cli/import/plan.h"
#include "cli/import/progress.h"
#include "cli/import/refusals.h"
#include "cli/shell/commands.h"
#include "measure/text.h"
#include "render/json.h"
#include "render/text.h"

namespace cli {
namespace {

struct ImportJob {
  std::string file;            // as typed
  std::string name;            // of the mapping; empty: none
  bool keeps_mapping = false;  // it is new or was changed
  bool dry = false;
  book::ImportWays ways;
  std::optional<book::FileProgress> goes_on;  // where the file was read to before
};

struct Done {
  book::ImportRun run;
  book::ImportCounts counts;
  std::uint64_t marked = 0;
  bool kept = false;
};

std::string absolute(const std::string& file) {
  std::error_code error;
  const auto path = std::filesystem::weakly_canonical(file, error);
  return error ? std::filesystem::absolute(file).string() : path.string();
}

// Where a file that was read before is gone on with: it is still the same up to there, and was read
// by the same mapping.
std::optional<book::FileProgress> go_on_from(const Desk& desk, const ImportJob& job,
                                             const book::ImportSource& source) {
  if (job.name.empty() || job.keeps_mapping || !source.resumable()) return std::nullopt;
  auto before = book::progress_of(desk.logbook(), absolute(job.file));
  if (!before || before->mapping != job.name || before->read_to > *source.size()) {
    return std::nullopt;
  }
  if (before->print != source.print_of(before->read_to)) return std::nullopt;
  return before;
}

std::string conflict_words(const Desk& desk, const book::Target& target,
                           const book::ImportSink::Conflict& conflict) {
  const measure::Instant at{std::chrono::seconds{conflict.at}};
  return fmt::format(
      "{} has {} {} already, not {}", target.label, shown(desk, target, conflict.standing),
      measure::moment_words(at, desk.now(), desk.site().zone), shown(desk, target, conflict.value));
}

void print_json(Context& context, const ImportJob& job, const Done& done,
                const Refusals& refusals) {
  render::Json json{{"file", job.file},
                    {"mapping", job.name.empty() ? render::Json(nullptr) : render::Json(job.name)},
                    {"recorded_in_logbook", done.kept},
                    {"went_on_from_line", job.goes_on ? job.goes_on->lines + 1 : 1},
                    {"rows", done.counts.rows},
                    {"readings_new", done.counts.recorded},
                    {"readings_already_there", done.counts.already},
                    {"readings_marked", done.marked},
                    {"refused", done.counts.refused},
                    {"first_refused", render::Json::array()}};
  for (const Refusals::Refusal& one : refusals.shown()) {
    json["first_refused"].push_back({{"line", one.line}, {"why", one.why}});
  }
  context.out << render::dumped(json);
}

std::string summary(const ImportJob& job, const Done& done) {
  std::string text = job.file + ": ";
  if (job.goes_on) text += fmt::format("from line {} on, ", job.goes_on->lines + 1);
  text += measure::counted(done.counts.rows, "row") + ", ";
  text += done.counts.recorded == 0
              ? "nothing new"
              : measure::counted(done.counts.recorded, "reading") + " recorded";
  if (job.dry && done.counts.recorded > 0) {
    text = text.substr(0, text.rfind(" recorded")) + " would be recorded";
  }
  if (done.marked > 0) text += fmt::format(" ({} of them marked)", done.marked);
  if (done.counts.already > 0) text += fmt::format("; {} there already", done.counts.already);
  return text;
}

void print_refusals(Context& context, const Refusals& refusals) {
  const auto width = static_cast<std::size_t>(context.width);
  for (const Refusals::Refusal& one : refusals.shown()) {
    context.out << render::wrapped(fmt::format("  line {}: {}", one.line, one.why), width, 4)
                << '\n';
  }
  if (refusals.count() > refusals.shown().size()) {
    context.out << fmt::format("  and {} more\n", refusals.count() - refusals.shown().size());
  }
}

void print_text(Context& context, const ImportJob& job, const Done& done, const Refusals& refusals,
                const std::string& refused_file) {
  const auto width = static_cast<std::size_t>(context.width);
  context.out << render::wrapped(summary(job, done), width, 2) << '\n';
  if (refusals.count() > 0) {
    context.out << fmt::format(
        "refused: {}{}\n", measure::counted(refusals.count(), "row"),
        refused_file.empty() || job.dry ? "" : ", written to " + refused_file);
    print_refusals(context, refusals);
  }
  if (done.marked > 0) {
    context.out << render::wrapped(
                       "  what is marked (implausible, stuck or jumping) stays out of all that is "
                       "judged; 'roundbook show' lists it",
                       width, 2)
                << '\n';
  }
  if (done.run.last_line_left) {
    context.out
        << render::wrapped(
               "  its last line has no line end and was left for next time, as a logger may "
               "still be writing it; --last-line takes it",
               width, 2)
        << '\n';
  }
  if (done.kept && job.keeps_mapping) {
    context.out << render::wrapped(
                       fmt::format("  kept as {}: next time 'roundbook import {} --as {}'",
                                   job.name, job.file, job.name),
                       width, 2)
                << '\n';
  }
  if (job.dry) context.out << "a dry run: nothing was recorded\n";
}

// Reads the file into one entry, and keeps it where nothing speaks against it.
measure::Result<Done> record(Context& context, const Desk& desk, const ImportJob& job,
                             const ImportDraft& draft, book::RowReader::Plan plan,
                             book::ImportSource& source, Refusals& refusals) {
  const book::MappedColumn* value = plan.mapping.of(book::Role::kValue);
  const std::string unit = value == nullptr ? "" : value->unit;
  book::RowReader reader(std::move(plan), desk.site().zone, draft.layout.backward, context.clock,
                         [&](std::string_view probe) -> std::optional<book::Target> {
                           const auto name = target_in_name(desk, probe);
                           if (!name) return std::nullopt;
                           const auto target = find_target(desk, *name, unit);
                           return target ? std::optional(*target) : std::nullopt;
                         });
  ProgressLine progress(context.err, source.size());
  Interruptible interruptible;
  Done done;
  std::uint64_t conflicts = 0;
  book::ImportSink sink(
      *context.book, {context.who, "import", context.line, context.clock}, reader.plan().targets,
      [&](const book::ImportSink::Conflict& conflict) {
        ++conflicts;
        refusals.add(conflict.line,
                     conflict_words(desk, reader.plan().targets[conflict.target], conflict), "");
      });
  const book::ImportWatch watch{[&](std::uint64_t line, std::string_view why,
                                    std::string_view row) { refusals.add(line, why, row); },
                                [&](std::uint64_t rows, std::uint64_t bytes) {
                                  progress.update(rows, bytes);
                                  return !Interruptible::interrupted();
                                }};
  std::uint64_t lines = draft.layout.lines_before;
  if (job.goes_on) {
    source.go_to(job.goes_on->read_to);
    lines = job.goes_on->lines;
  } else {
    source.use(draft.layout.data_from);
  }
  done.run = book::read_rows(source, reader, sink, lines, job.ways, watch);
  if (!done.run.stopped) sink.flush();
  progress.clear();
  if (done.run.stopped || Interruptible::interrupted()) {
    throw book::BookError("stopped before the end");
  }
  done.counts = {done.run.rows, sink.recorded(), sink.already(), done.run.refused + conflicts};
  done.marked = sink.marked();
  refusals.finish();
  const bool changes = done.counts.recorded > 0 || job.keeps_mapping;
  done.kept = changes && !job.dry && (done.counts.refused == 0 || job.ways.keep_good);
  if (!done.kept) return done;
  if (job.keeps_mapping) book::keep_mapping(*context.book, sink.pen(), job.name, draft.mapping);
  if (source.resumable() && !job.name.empty()) {
    book::keep_progress(*context.book, sink.pen(),
                        {absolute(job.file), job.name, done.run.read_to, done.run.lines,
                         source.print_of(done.run.read_to)});
  }
  book::keep_import(*context.book, sink.pen(), job.file, job.name, done.counts);
  sink.commit();
  return done;
}

// A name that people will type: small letters, digits, hyphens, underscores and full stops.
bool is_name(const std::string& name) {
  return !name.empty() && name.size() <= 40 && name[0] != '-' &&
         name.find_first_not_of("abcdefghijklmnopqrstuvwxyz0123456789-_.") == std::string::npos;
}

// Why a name that is given alone brings no mapping, where the person may expect one.
void say_unkept(Context& context, const book::Logbook& logbook, const std::string& name) {
  const std::vector<std::string> names = book::mapping_names(logbook);
  const auto near =
      measure::nearest(name, std::vector<std::string_view>(names.begin(), names.end()));
  const std::string text = fmt::format(
      "no mapping is kept as {}{}, so the file is asked about again (a mapping goes when "
      "the import that kept it is taken back)",
      name, near ? fmt::format(" (did you mean {}?)", *near) : "");
  context.out << render::wrapped(text, static_cast<std::size_t>(context.width), 2) << '\n';
}

}  // namespace

Outcome run_import(Context& context, const Arguments& arguments) {
  if (context.book == nullptr) return import_package(context, arguments.words[0]);
  const auto desk = Desk::lay_out(context);
  if (!desk) return desk.mistake();
  if (arguments.words.empty()) {
    return measure::Mistake{"",
                            "import needs a file, or - for standard input, like 'import "
                            "shed.csv Core=heap-3.core --as shed-logger'"};
  }
  ImportJob job{arguments.words[0],
                measure::folded(arguments.option("as").value_or("")),
                false,
                arguments.flag("dry-run"),
                {arguments.flag("last-line"), false, arguments.flag("line-breaks")},
                std::nullopt};
  const std::string refused_file = arguments.option("keep-good").value_or("");
  job.ways.keep_good = !refused_file.empty();
  if (arguments.option("as") && !is_name(job.name)) {
    return measure::Mistake{job.name, "a mapping's name is letters, digits and hyphens"};
  }
  const auto words = read_import_words(arguments);
  if (!words) return words.mistake();

  const auto source = book::ImportSource::open(job.file);
  if (!source) return source.mistake();
  const bool from_input = job.file == "-";
  job.ways.last_line = job.ways.last_line || from_input;
  const book::Layout layout = book::find_layout((*source)->text(), (*source)->at_end());
  const auto kept = job.name.empty() ? std::nullopt : book::find_mapping(desk->logbook(), job.name);
  const bool by_name_alone = words->said.empty() && !words->order && !words->zone;
  if (!job.name.empty() && !kept && by_name_alone && !layout.json && !context.json) {
    say_unkept(context, desk->logbook(), job.name);
  }
  auto draft = draft_import(*desk, layout, kept, *words);
  if (!draft) return draft.mistake();
  ImportDraft settled = *draft;

  const bool told = !words->said.empty() || words->order || words->zone;
  const bool known = (kept && !told) || layout.json;
  const bool asks = !known && !arguments.flag("yes") && !job.dry && !from_input;
  if (auto why = complete_draft(context, *desk, asks, settled)) return *why;
  const auto plan = plan_import(*desk, settled);
  if (!known && (asks || !context.json)) show_draft(context, *desk, settled, job.file);
  if (!plan) return plan.mistake();
  if (!known && from_input && !arguments.flag("yes") && !job.dry) {
    return measure::Mistake{"",
                            "what is piped in cannot be asked about: say --yes to record it as "
                            "shown, or --as with a mapping that was kept before"};
  }
  if (asks) {
    const auto answer = agreed(context);
    if (!answer) {
      return measure::Mistake{"", "nobody answered; --yes records it as shown without asking"};
    }
    if (!*answer) return measure::Mistake{"", "say what the columns are, like 'Core=heap-3.core'"};
  }
  job.keeps_mapping = !job.name.empty() && (!kept || told);
  job.goes_on = go_on_from(*desk, job, **source);

  Refusals refusals(job.dry ? "" : refused_file);
  const auto done = record(context, *desk, job, settled, *plan, **source, refusals);
  if (!done) return done.mistake();
  const bool all_or_nothing = done->counts.refused > 0 && !job.ways.keep_good;
  if (all_or_nothing && !context.json) {
    context.out << render::wrapped(fmt::format("{}: {} refused, so none {}", job.file,
                                               measure::counted(done->counts.refused, "row"),
                                               job.dry ? "would be recorded" : "was recorded"),
                                   static_cast<std::size_t>(context.width), 2)
                << '\n';
    print_refusals(context, refusals);
    context.out << "--keep-good FILE records the good rows and writes the refused ones to FILE\n";
    return kWordsWereOff;
  }
  refusals.keep();
  if (context.json) {
    print_json(context, job, *done, refusals);
  } else {
    print_text(context, job, *done, refusals, refused_file);
  }
  return all_or_nothing ? kWordsWereOff : kDone;
}

}  // namespace cli
