#include <fmt/format.h>

#include <ostream>

#include "book/file/error.h"
#include "book/keep/backup.h"
#include "book/keep/package.h"
#include "book/merge/merge.h"
#include "cli/desk/desk.h"
#include "cli/shell/commands.h"
#include "measure/text.h"
#include "render/json.h"
#include "render/text.h"

// Care of the file: what copies it, puts a copy back, hands it on, and brings two together.
namespace cli {
namespace {

using measure::Mistake;

std::string counted(int entries) {
  return measure::counted(entries, "entry", "entries");
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
                                       book::stamp(context.clock, context.book->site().zone));
  std::filesystem::path target = book::backup_folder(context.book_path) / name;
  if (!arguments.words.empty()) {
    target = arguments.words[0];
    if (std::filesystem::is_directory(target)) target /= name;
  }
  book::back_up(*context.book, target);
  const int removed = keep ? book::keep_newest(context.book_path, static_cast<std::size_t>(*keep),
                                               book::Which::kAll)
                           : 0;
  const int entries = book::count_entries(*context.book);
  if (context.json) {
    context.out << render::dumped(
        {{"backup", target.string()}, {"entries", entries}, {"removed", removed}});
    return kDone;
  }
  context.out << fmt::format("{}\n  {}; opened and checked\n", target.string(), counted(entries));
  if (removed > 0) context.out << fmt::format("  {} older backups removed\n", removed);
  return kDone;
}

Outcome run_restore(Context& context, const Arguments& arguments) {
  if (arguments.words.size() != 1) {
    return Mistake{"", fmt::format("restore needs the backup to put back; they are in {}",
                                   book::backup_folder(context.book_path).string())};
  }
  const book::Restored restored =
      book::restore(context.book_path, arguments.words[0], context.clock);
  if (context.json) {
    context.out << render::dumped({{"restored", arguments.words[0]},
                                   {"entries", restored.entries},
                                   {"kept", restored.kept.string()}});
    return kDone;
  }
  context.out << fmt::format("{} holds what {} holds: {}\n", context.book_path.string(),
                             arguments.words[0], counted(restored.entries));
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

namespace {

struct Words {
  std::string kept, other;
};

Words words_of(const book::Conflict& conflict, const measure::Printer& print) {
  const kinds::Kind* kind = kinds::find_kind(conflict.kind);
  const kinds::Quantity* quantity =
      kind == nullptr ? nullptr : kinds::find_quantity(*kind, conflict.quantity);
  if (quantity == nullptr) return {conflict.kept, conflict.other};
  const auto shown = [&](double si) {
    return print(measure::Value{quantity->dimension, si}, quantity->shown_in);
  };
  return {shown(conflict.kept_value), shown(conflict.other_value)};
}

std::string text_of(const book::Conflict& conflict, const measure::Printer& print) {
  const Words words = words_of(conflict, print);
  return fmt::format("{}: {} stands{}; the other copy has {}", conflict.what, words.kept,
                     conflict.by.empty() ? "" : ", by " + conflict.by, words.other);
}

}  // namespace

Outcome run_merge(Context& context, const Arguments& arguments) {
  if (arguments.words.size() != 1) {
    return Mistake{"", "merge needs the other copy of this logbook, like 'merge field.db'"};
  }
  const auto desk = Desk::lay_out(context);
  if (!desk) return desk.mistake();
  const book::Merged merged = book::merge(*context.book, arguments.words[0], context.clock);
  if (context.json) {
    render::Json conflicts = render::Json::array();
    for (const book::Conflict& one : merged.conflicts) {
      const Words words = words_of(one, desk->print());
      conflicts.push_back(
          {{"what", one.what}, {"kept", words.kept}, {"other", words.other}, {"by", one.by}});
    }
    context.out << render::dumped({{"changed", merged.changed},
                                   {"entries", merged.entries},
                                   {"new", merged.from_other},
                                   {"conflicts", conflicts},
                                   {"kept", merged.kept.string()}});
    return kDone;
  }
  if (!merged.changed) {
    print_wrapped(context, arguments.words[0] + " holds nothing that is not here already", 2);
    return kDone;
  }
  print_wrapped(context,
                fmt::format("{} came in, each as it was typed; {} in all",
                            counted(merged.from_other), merged.entries),
                2);
  for (const book::Conflict& one : merged.conflicts) {
    print_wrapped(context, "  " + text_of(one, desk->print()), 4);
  }
  if (!merged.conflicts.empty()) {
    print_wrapped(context, "  what lost out is in the journal; 'roundbook amend' sets it right", 4);
  }
  context.out << fmt::format("  the copy as it was before: {}\n", merged.kept.string());
  return kDone;
}

}  // namespace cli
