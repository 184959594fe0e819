#include <fmt/format.h>

#include <ostream>

#include "book/write/pen.h"
#include "cli/desk/desk.h"
#include "cli/shell/commands.h"
#include "measure/text.h"
#include "render/json.h"
#include "render/text.h"

namespace cli {
namespace {

int list_containers(Context& context, const Desk& desk) {
  if (context.json) {
    render::Json rows = render::Json::array();
    for (const auto& one : desk.containers()) {
      rows.push_back({{"container", one.name},
                      {"litres", one.content.value},
                      {"shown", desk.print()(one.content)}});
    }
    context.out << render::dumped({{"containers", rows}});
    return kDone;
  }
  render::Table table({{"container"}, {"holds"}});
  for (const auto& one : desk.containers()) table.add({one.name, desk.print()(one.content)});
  context.out << (table.empty()
                      ? "no container is set; 'roundbook container bucket 5gal' sets one\n"
                      : table.text(static_cast<std::size_t>(context.width)));
  return kDone;
}

// "5gal", or "50lb layer feed": so much of it, by its bulk density.
measure::Result<measure::Amount> content_of(const std::string& typed, const Desk& desk) {
  const auto amount = measure::parse_amount_then(typed, {});
  if (amount && amount->amount.value.dimension == measure::Dimension::kMass) {
    const std::string& name = amount->rest;
    if (name.empty()) {
      return measure::Mistake{typed,
                              fmt::format("{0} of what? Write it like '{0} chicken feed'", typed)};
    }
    const model::Material* material = desk.materials().find(name);
    if (material == nullptr) return no_material(name, desk.materials());
    model::Movement load;
    load.material = *material;
    load.amount = amount->amount.value;
    const auto volume = load.volume();
    if (!volume) {
      return measure::Mistake{typed, fmt::format("the bulk density of {} is not known; say what it "
                                                 "holds as a volume, like 10gal",
                                                 material->name)};
    }
    return measure::Amount{measure::value_of(*volume), typed};
  }
  return measure::parse_value(
      typed, measure::Dimension::kVolume,
      measure::usual_unit(measure::Dimension::kVolume, desk.print().system()));
}

}  // namespace

Outcome run_container(Context& context, const Arguments& arguments) {
  const auto desk = Desk::lay_out(context);
  if (!desk) return desk.mistake();
  if (arguments.words.empty()) return list_containers(context, *desk);
  if (arguments.words.size() < 2) {
    return measure::Mistake{
        "", "container needs a name and what it holds, like 'container bucket 5gal'"};
  }
  const std::string name = measure::folded(arguments.words[0]);
  if (measure::find_unit(name) != nullptr) {
    return measure::Mistake{
        name,
        fmt::format("{} is a unit already; a container needs another name", measure::quoted(name))};
  }
  if (name.empty() || name.find_first_not_of("abcdefghijklmnopqrstuvwxyz-") != std::string::npos) {
    return measure::Mistake{name, fmt::format("{} cannot name a container: letters and dashes only",
                                              measure::quoted(arguments.words[0]))};
  }
  const std::string typed = measure::joined(
      std::vector<std::string>(arguments.words.begin() + 1, arguments.words.end()), " ");
  const auto content = content_of(typed, *desk);
  if (!content) return content.mistake();
  if (content->value.si <= 0) return measure::Mistake{typed, "a container must hold something"};
  book::Pen pen(*context.book, {context.who, "container", context.line, context.clock});
  pen.set_container(name, measure::Litres{content->value.si}, typed);
  pen.commit();
  context.out << fmt::format("a {} holds {}; use it like '2 {}'\n", name,
                             desk->print()(content->value), name);
  return kDone;
}

}  // namespace cli
