#include "cli/commands/amend_settings.h"

#include <fmt/format.h>

#include <algorithm>
#include <ostream>

#include "book/write/amend.h"
#include "cli/words/settings.h"
#include "measure/text.h"
#include "render/json.h"
#include "render/text.h"

namespace cli {

std::optional<model::Batch> batch_told_otherwise(const Arguments& arguments, const Desk& desk) {
  if (arguments.words.size() < 2 || arguments.words[1].find('=') == std::string::npos ||
      arguments.words[0].find_first_not_of("#0123456789") == std::string::npos) {
    return std::nullopt;
  }
  const auto batch = desk.batch(measure::folded(arguments.words[0]));
  return batch ? std::optional(*batch) : std::nullopt;
}

Outcome amend_settings(Context& context, const Arguments& arguments, const model::Batch& batch,
                       const Desk& desk) {
  for (const std::string_view option : {"when", "batch", "note"}) {
    if (!arguments.option(option)) continue;
    return measure::Mistake{
        "", fmt::format("what {} was told holds from its start on; --{} does not go with "
                        "it",
                        batch.code, option)};
  }
  const kinds::Kind& kind = desk.kind(batch);
  book::Pen pen(*context.book, {context.who, "amend", context.line, context.clock});
  std::vector<std::string> done;
  std::vector<model::Setting> all = batch.settings;
  for (std::size_t i = 1; i < arguments.words.size(); ++i) {
    const auto setting = read_setting(arguments.words[i], kind, arguments.flag("sure"), desk);
    if (!setting) return setting.mistake();
    const auto was =
        std::find_if(batch.settings.begin(), batch.settings.end(),
                     [&](const model::Setting& one) { return one.key == setting->key; });
    std::erase_if(all, [&](const model::Setting& one) { return one.key == setting->key; });
    all.push_back(*setting);
    book::amend_setting(*context.book, pen, batch.id, *setting);
    done.push_back(
        fmt::format("{}={}, {}", setting->key, setting->typed,
                    was == batch.settings.end() ? "not told before" : "was " + was->typed));
  }
  if (const auto why = kind.vocabulary.doubts_settings(all); why && !arguments.flag("sure")) {
    return measure::Mistake{why->word, why->why + "; --sure records it anyway"};
  }
  pen.commit();
  if (context.json) {
    context.out << render::dumped(
        {{"amended", batch.code}, {"entry", pen.entry()}, {"changes", done}});
    return kDone;
  }
  context.out << render::wrapped(fmt::format("{} amended, from its start on: {}", batch.code,
                                             measure::joined(done, "; ")),
                                 static_cast<std::size_t>(context.width), 2)
              << "\n  (the logbook keeps both; 'roundbook undo' takes this back)\n";
  return kDone;
}

}  // namespace cli
