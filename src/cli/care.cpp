#include <fmt/format.h>

#include <ostream>

#include "book/backup.h"
#include "book/error.h"
#include "book/merge.h"
#include "book/package.h"
#include "cli/commands.h"
#include "cli/desk.h"
#include "measure/text.h"
#include "render/json.h"
#include "render/text.h"

// Care of the file: what copies it, puts a copy back, hands it on, and brings two together.
namespace cli {
namespace {

using measure::Mistake;

// "2027-05-03-071500" on the site's clock: names a copy.
std::string stamp_of(measure::Instant at, const measure::Zone& zone) {
  const std::string iso = zone.iso(at);
  return fmt::format("{}-{}{}{}", iso.substr(0, 10), iso.substr(11, 2), iso.substr(14, 2),
                     iso.substr(17, 2));
}

std::string utc_stamp(measure::Instant at) {
  return stamp_of(at, *measure::Zone::named("Etc/UTC"));
}

measure::Result<int> keep_count(const std::string& typed) {
  const auto number = measure::parse_number(typed);
  if (!number || *number < 1 || *number > 10000 || *number != static_cast<int>(*number)) {
    return Mistake{typed, "--keep takes a whole number from 1 on, not " + measure::quoted(typed)};
  }
  return static_cast<int>(*number);
}

void print_wrapped(Context& context, const std::string& text, std::size_t indent) {
  context.out << render::wrapped(text, static_cast<std::size_t>(context.width), indent) << '\n';
}

}  // namespace

Outcome run_backup(Context& context, const Arguments& arguments) {
  if (arguments.words.size() > 1) {
    return Mistake{arguments.words[1], "backup takes one file or folder, or none"};
  }
  std::optional<int> keep;
  if (const auto typed = arguments.option("keep")) {
    if (!arguments.words.empty()) {
      return Mistake{*typed, "--keep thins out the usual folder only; give it without a file"};
    }
    const auto count = keep_count(*typed);
    if (!count) return count.mistake();
    keep = *count;
  }
  const std::string name = fmt::format("{}-{}.db", context.book_path.stem().string(),
                                       stamp_of(context.clock, context.book->site().zone));
  std::filesystem::path target = book::backup_folder(context.book_path) / name;
  if (!arguments.words.empty()) {
    target = arguments.words[0];
    if (std::filesystem::is_directory(target)) target /= name;
  }
  book::back_up(*context.book, target);
  const int removed =
      keep ? book::keep_newest(context.book_path, static_cast<std::size_t>(*keep)) : 0;
  const int entries = book::count_entries(*context.book);
  if (context.json) {
    context.out << render::dumped(
        {{"backup", target.string()}, {"entries", entries}, {"removed", removed}});
    return kDone;
  }
  context.out << fmt::format("{}\n  {} entries; opened and checked\n", target.string(), entries);
  if (removed > 0) context.out << fmt::format("  {} older backups removed\n", removed);
  return kDone;
}

Outcome run_restore(Context& context, const Arguments& arguments) {
  if (arguments.words.size() != 1) {
    return Mistake{"", fmt::format("restore needs the backup to put back; they are in {}",
                                   book::backup_folder(context.book_path).string())};
  }
  const book::Restored restored =
      book::restore(context.book_path, arguments.words[0], utc_stamp(context.clock));
  if (context.json) {
    context.out << render::dumped({{"restored", arguments.words[0]},
                                   {"entries", restored.entries},
                                   {"kept", restored.kept.string()}});
    return kDone;
  }
  context.out << fmt::format("{} holds what {} holds: {} entries\n", context.book_path.string(),
                             arguments.words[0], restored.entries);
  if (!restored.kept.empty()) {
    context.out << fmt::format("  what was there before is kept: {}\n", restored.kept.string());
  }
  return kDone;
}

Outcome run_export(Context& context, const Arguments& arguments) {
  if (arguments.words.size() != 1) {
    return Mistake{"", "export needs the folder to write to, like 'export tern-hollow'"};
  }
  const std::filesystem::path folder = arguments.words[0];
  const auto names = book::write_package(*context.book, folder);
  if (context.json) {
    context.out << render::dumped({{"folder", folder.string()}, {"files", names}});
    return kDone;
  }
  for (const std::string& name : names) context.out << (folder / name).string() << '\n';
  return kDone;
}

Outcome run_merge(Context& context, const Arguments& arguments) {
  if (arguments.words.size() != 1) {
    return Mistake{"", "merge needs the other copy of this logbook, like 'merge field.db'"};
  }
  const book::Merged merged = book::merge(*context.book, arguments.words[0],
                                          stamp_of(context.clock, context.book->site().zone));
  if (context.json) {
    context.out << render::dumped({{"changed", merged.changed},
                                   {"entries", merged.entries},
                                   {"new", merged.from_other},
                                   {"conflicts", merged.conflicts},
                                   {"kept", merged.kept.string()}});
    return kDone;
  }
  if (!merged.changed) {
    print_wrapped(context, arguments.words[0] + " holds nothing that is not here already", 2);
    return kDone;
  }
  print_wrapped(context,
                fmt::format("{} entries came in; {} in all, each as it was typed",
                            merged.from_other, merged.entries),
                2);
  for (const std::string& one : merged.conflicts) print_wrapped(context, "  both: " + one, 4);
  if (!merged.conflicts.empty()) {
    print_wrapped(context, "  what was outdone is in the journal; 'roundbook amend' sets it right",
                  4);
  }
  context.out << fmt::format("  the copy as it was before: {}\n", merged.kept.string());
  return kDone;
}

}  // namespace cli
