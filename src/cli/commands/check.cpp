#include "book/keep/check.h"

#include <fmt/format.h>

#include <ostream>
#include <set>

#include "book/keep/backup.h"
#include "cli/desk/desk.h"
#include "cli/shell/commands.h"
#include "measure/text.h"
#include "render/json.h"
#include "render/text.h"

namespace cli {
namespace {

using book::Trouble;

std::string_view word(Trouble::Sort sort) {
  switch (sort) {
    case Trouble::Sort::kDamage:
      return "damage";
    case Trouble::Sort::kDerived:
      return "derived";
    case Trouble::Sort::kDoubt:
      return "doubt";
  }
  return "";
}

// More out than in, of a kind that makes no mass: by weight, a little more than everything aside.
void look_at_balances(const Desk& desk, std::vector<Trouble>& found) {
  constexpr double kSlack = 1.05;  // a scale and a handbook density differ
  for (const model::Batch& batch : desk.batches()) {
    if (!desk.kind(batch).roles.holds_mass) continue;
    const model::History history = desk.history(batch);
    double in = 0;
    double out = 0;
    bool known = true;
    for (const model::Movement& one : history.in) {
      known = known && one.mass().has_value();
      in += one.mass().value_or(measure::Kilograms{}).value;
    }
    for (const model::Movement& one : history.out)
      out += one.mass().value_or(measure::Kilograms{}).value;
    if (!known || history.in.empty() || out <= in * kSlack) continue;
    found.push_back(
        {Trouble::Sort::kDoubt,
         fmt::format("more was taken out of {} than went in: {} of {}",
                     book::label_of(desk.logbook(), batch), desk.print()(measure::Kilograms{out}),
                     desk.print()(measure::Kilograms{in})),
         "an amount was mistyped, or something that went in was not recorded",
         fmt::format("'roundbook history {}' shows the entries; amend the wrong one",
                     book::label_of(desk.logbook(), batch))});
  }
}

void look_at_kinds(const Desk& desk, std::vector<Trouble>& found) {
  for (const model::Batch& batch : desk.unknown_batches()) {
    found.push_back(
        {Trouble::Sort::kDamage,
         fmt::format("{} is of a kind that this version does not know: {}", batch.code, batch.kind),
         "its records cannot be read", "install the roundbook that wrote it"});
  }
}

void look_at_materials(const Desk& desk, std::vector<Trouble>& found) {
  std::set<std::string> unknown;
  for (const std::string& name : book::materials_used(desk.logbook(), measure::Instant::max())) {
    if (desk.materials().find(name) == nullptr) unknown.insert(name);
  }
  for (const std::string& name : unknown) {
    found.push_back(
        {Trouble::Sort::kDoubt, fmt::format("material {} is not known", measure::quoted(name)),
         "its loads count for no sum and no wait",
         fmt::format("'roundbook material {} --new --group ...' makes it known", name)});
  }
}

}  // namespace

Outcome run_check(Context& context, const Arguments& arguments) {
  if (!arguments.words.empty()) {
    return measure::Mistake{arguments.words[0],
                            "check takes no words; --repair makes anew what is "
                            "derived"};
  }
  const auto desk = Desk::lay_out(context);
  if (!desk) return desk.mistake();
  std::vector<Trouble> found = book::check(desk->logbook(), context.clock);
  const bool ruined = std::any_of(found.begin(), found.end(), [](const Trouble& one) {
    return one.sort == Trouble::Sort::kDamage;
  });
  bool repaired = false;
  if (arguments.flag("repair") && !ruined && !found.empty()) {
    book::Pen pen(*context.book, {context.who, "check", context.line, context.clock});
    book::repair(*context.book, pen);
    pen.commit();
    repaired = true;
    found = book::check(desk->logbook(), context.clock);
  }
  if (!ruined) {
    look_at_kinds(*desk, found);
    if (found.empty() || found.back().sort != Trouble::Sort::kDamage) {
      look_at_balances(*desk, found);
    }
    look_at_materials(*desk, found);
  }
  const bool bad = std::any_of(found.begin(), found.end(), [](const Trouble& one) {
    return one.sort != Trouble::Sort::kDoubt;
  });
  const int status = bad ? kCouldNot : kDone;
  const auto place = book::unsafe_place(context.book_path);
  if (context.json) {
    render::Json rows = render::Json::array();
    for (const Trouble& one : found) {
      rows.push_back({{"sort", std::string(word(one.sort))},
                      {"what", one.what},
                      {"means", one.means},
                      {"do", one.advice}});
    }
    context.out << render::dumped({{"whole", !bad},
                                   {"repaired", repaired},
                                   {"place", place ? render::Json(*place) : render::Json(nullptr)},
                                   {"troubles", rows}});
    return status;
  }
  const auto width = static_cast<std::size_t>(context.width);
  if (repaired) context.out << "what is derived was rebuilt from what is recorded\n";
  for (const Trouble& one : found) {
    context.out << render::wrapped(fmt::format("{}: {}; {}. Do: {}.", word(one.sort), one.what,
                                               one.means, one.advice),
                                   width, 2)
                << '\n';
  }
  if (place) context.out << render::wrapped("doubt: " + *place + ".", width, 2) << '\n';
  if (!bad) {
    context.out << render::wrapped(
                       fmt::format(
                           "the logbook is whole: {} entries, the file, its references, its "
                           "daily sums and its journal agree",
                           book::count_entries(desk->logbook())),
                       width, 2)
                << '\n';
  }
  return status;
}

}  // namespace cli
