#include "cli/desk/carry.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "book/write/amend.h"
#include "book/write/pen.h"
#include "cli/desk/answer.h"
#include "cli/desk/desk.h"
#include "cli/desk/objections.h"
#include "cli/desk/photo.h"
#include "cli/words/carried.h"
#include "measure/text.h"

namespace cli {
namespace {

using measure::Dimension;
using measure::Mistake;

// "12.50", "$12.50" as hundredths.
measure::Result<std::optional<std::int64_t>> read_money(const Arguments& arguments,
                                                        std::string_view option) {
  const auto typed = arguments.option(option);
  if (!typed) return std::optional<std::int64_t>();
  std::string_view digits = *typed;
  for (const std::string_view sign : {"$", "€", "£"}) {
    if (digits.starts_with(sign)) digits.remove_prefix(sign.size());
  }
  const auto number = measure::parse_number(digits);
  if (!number || *number < 0 || *number > 1e9) {
    return Mistake{*typed, fmt::format("--{} takes an amount of money like 12.50, not {}", option,
                                       measure::quoted(*typed))};
  }
  return std::optional(static_cast<std::int64_t>(std::llround(*number * 100)));
}

struct CarriedWords {
  std::string text;  // "2 bucket coffee grounds (26.4 lb by its bulk density)"
  std::optional<std::string> remark;
};

CarriedWords carried_words(const Carried& carried, const Desk& desk) {
  model::Movement moved;
  moved.material = carried.material;
  moved.amount = carried.amount;
  const auto mass = moved.mass();
  CarriedWords words{fmt::format("{} {}", carried.typed, carried.material.name), std::nullopt};
  if (carried.amount.dimension != Dimension::kVolume) return words;
  if (mass) {
    words.text += fmt::format(" ({} by its bulk density)", desk.print()(*mass));
  } else if (carried.material.group != "gas") {
    words.remark = fmt::format(
        "the bulk density of {0} is not known, so it stays a volume: 'roundbook "
        "material \"{0}\" bulk_density=...' sets it",
        carried.material.name);
  }
  return words;
}

std::string_view product_of(const model::Batch& batch, measure::Instant at, const Desk& desk) {
  return desk.study(batch, at)->product();
}

// "0.5gal tea --from tea": where the other batch's own code stands for the material, what it gives
// is meant, not what else goes by that word.
std::string material_words(const std::vector<std::string>& words,
                           const std::optional<model::Batch>& other, measure::Instant at,
                           const Desk& desk) {
  std::vector<std::string> meant = words;
  if (other && meant.size() > 1 && measure::folded(meant.back()) == other->code) {
    const std::string_view product = product_of(*other, at, desk);
    if (!product.empty()) meant.back() = product;
  }
  return measure::joined(meant, " ");
}

// Where the other end is no batch: how the outside is said instead.
Mistake other_end_mistake(const std::string& code, Mistake mistake, const Carrying& carrying,
                          const Desk& desk) {
  if (desk.batch(code)) return mistake;
  mistake.why += carrying.into_the_batch
                     ? " (--from is for a batch; what comes from outside needs none)"
                     : fmt::format(
                           " (--to is for a batch; what leaves the site says where with "
                           "--for {})",
                           measure::quoted(code));
  return mistake;
}

// A purpose that is nearly one said before, and so may be it mistyped.
std::optional<std::string> purpose_remark(const std::string& purpose, const Desk& desk) {
  if (purpose.empty()) return std::nullopt;
  const auto loads =
      book::movements(desk.logbook(), desk.materials(), measure::Instant{}, desk.now());
  std::map<std::string, int> near;
  for (const model::Movement& one : loads) {
    if (one.purpose == purpose) return std::nullopt;
    const bool same = measure::folded(purpose) == measure::folded(one.purpose);
    if (same || measure::is_slip_of(purpose, one.purpose)) near[one.purpose] += same ? 100 : 1;
  }
  if (near.empty()) return std::nullopt;
  const auto likeliest = std::max_element(
      near.begin(), near.end(), [](const auto& a, const auto& b) { return a.second < b.second; });
  return fmt::format("{} is new here; did you mean {}? 'roundbook undo' takes the line back",
                     measure::quoted(purpose), likeliest->first);
}

// What the words of a line say beside amounts and materials; options say the same.
struct SaidOfLoad {
  std::vector<std::string> words;
  std::optional<std::string> other_end, purpose;
};

std::string without_article(std::string text) {
  constexpr std::string_view kThe = "the ";
  return text.starts_with(kThe) ? text.substr(kThe.size()) : text;
}

// "5lb larvae to hens", "3lb kale for the market", "4 bucket leaves from heap-2". Where `to` is
// followed by no batch, it says what it is for.
measure::Result<SaidOfLoad> said_of_load(const Arguments& arguments, const Carrying& carrying,
                                         const Desk& desk) {
  SaidOfLoad said{{arguments.words.begin() + 1, arguments.words.end()},
                  arguments.option(carrying.other_end),
                  arguments.option("for")};
  const auto tail_of = [&](std::string_view word) -> std::optional<std::string> {
    for (std::size_t i = said.words.size(); i-- > 1;) {
      if (measure::folded(said.words[i]) != word || i + 1 == said.words.size()) continue;
      const std::vector<std::string> tail(said.words.begin() + static_cast<std::ptrdiff_t>(i) + 1,
                                          said.words.end());
      said.words.resize(i);
      return measure::joined(tail, " ");
    }
    return std::nullopt;
  };
  if (!said.purpose) {
    if (const auto tail = tail_of("for")) said.purpose = without_article(*tail);
  }
  if (said.other_end) return said;
  const auto tail = tail_of(carrying.other_end);
  if (!tail) return said;
  const std::string code = measure::folded(*tail);
  const bool is_place = !desk.batch(code) && !carrying.into_the_batch && !said.purpose;
  if (!is_place) {
    said.other_end = code;
    return said;
  }
  for (const model::Batch& one : desk.open_batches()) {
    if (measure::is_slip_of(code, one.code)) return no_such("batch", code, {one.code});
  }
  said.purpose = without_article(*tail);
  return said;
}

// The batch at the other end, where the line names one.
measure::Result<std::optional<model::Batch>> other_end(const SaidOfLoad& said,
                                                       const Carrying& carrying,
                                                       const model::Batch& batch,
                                                       measure::Instant at, const Desk& desk) {
  const auto code = said.other_end;
  if (!code) return std::optional<model::Batch>();
  const auto found = desk.open_batch(*code, at);
  if (!found) return other_end_mistake(*code, found.mistake(), carrying, desk);
  if (found->id == batch.id) {
    return Mistake{*code,
                   fmt::format("{} cannot be carried {} itself", found->code, carrying.other_end)};
  }
  return std::optional(*found);
}

struct Ends {
  std::optional<model::Batch> from;
  std::optional<model::Batch> to;
};

// "2 bucket coffee grounds (26.4 lb by its bulk density) in from bin-1 for the beds"
std::string recorded_words(const CarriedWords& words, const model::Movement& load,
                           const Carrying& carrying, const std::optional<model::Batch>& other) {
  std::string recorded = words.text + (carrying.into_the_batch ? " in" : " out");
  if (other) recorded += fmt::format(" {} {}", carrying.other_end, other->code);
  if (!load.purpose.empty()) recorded += " for " + load.purpose;
  return recorded;
}

measure::Result<std::vector<Carried>> read_loads(const std::string& text, const CarriedFrom& from,
                                                 const Desk& desk) {
  std::vector<Carried> loads;
  for (const std::string& one : loads_in(text)) {
    const auto carried = read_carried(one, from, desk);
    if (!carried) return carried.mistake();
    loads.push_back(*carried);
  }
  if (loads.empty()) return Mistake{text, "an amount and a material are missing"};
  return loads;
}

}  // namespace

std::vector<std::string> use_lines(const model::Movement& load,
                                   const std::optional<model::Batch>& from,
                                   const std::optional<model::Batch>& to, const Desk& desk) {
  if (!to) return {};
  std::vector<std::string> lines;
  if (from && desk.kind(*to).roles.ground) lines = desk.study(*from, load.at)->at_use(load);
  for (auto& line : desk.study(*to, load.at)->on_arrival(load)) {
    lines.push_back(std::move(line));
  }
  return lines;
}

Outcome carry(Context& context, const Arguments& arguments, const Carrying& carrying) {
  const auto desk = Desk::lay_out(context);
  if (!desk) return desk.mistake();
  if (arguments.words.size() < 2) {
    return Mistake{
        "", fmt::format("{0} needs a batch, an amount and a material, like '{0} heap-3 40kg {1}'",
                        carrying.command, carrying.into_the_batch ? "coffee grounds" : "compost")};
  }
  const auto at = recorded_at(context, arguments, desk->site());
  if (!at) return at.mistake();
  const auto batch = desk->open_batch(arguments.words[0], at->at);
  if (!batch) return batch.mistake();
  const auto said = said_of_load(arguments, carrying, *desk);
  if (!said) return said.mistake();
  const auto other = other_end(*said, carrying, *batch, at->at, *desk);
  if (!other) return other.mistake();
  const Ends ends = carrying.into_the_batch ? Ends{*other, *batch} : Ends{*batch, *other};
  const bool sure = arguments.flag("sure");
  const std::string_view usual = carrying.into_the_batch ? "" : product_of(*batch, at->at, *desk);
  const auto loads =
      read_loads(material_words(said->words, *other, at->at, *desk),
                 {.usual = usual, .batch = ends.from, .at = at->at, .sure = sure}, *desk);
  if (!loads) return loads.mistake();
  const auto money = read_money(arguments, carrying.money);
  if (!money) return money.mistake();
  if (*money && loads->size() > 1) {
    return Mistake{"", fmt::format("--{} is for one load, and there are {}; give each a line",
                                   carrying.money, loads->size())};
  }

  if (*other && (arguments.option("supplier") || arguments.option("buyer"))) {
    return Mistake{(*other)->code,
                   fmt::format("{} is a batch of the site; a {} is for what {} the site",
                               (*other)->code, carrying.into_the_batch ? "supplier" : "buyer",
                               carrying.into_the_batch ? "comes to" : "leaves")};
  }
  const auto photo = photo_of(context, arguments);
  if (!photo) return photo.mistake();
  const auto id_of = [](const std::optional<model::Batch>& end) {
    return end ? std::optional(end->id) : std::nullopt;
  };
  Answer answer{*batch, "", {}};
  std::optional<book::Pen> pen;
  for (const Carried& carried : *loads) {
    model::Movement load = load_of(carried, at->at, ends.from, ends.to, *desk);
    load.purpose = said->purpose.value_or("");
    if (!carrying.into_the_batch) load.sold_cents = *money;  // who buys it uses it
    const auto remarks = objections(carried, load, ends.from, ends.to, sure, *desk);
    if (!remarks) return remarks.mistake();
    const CarriedWords words = carried_words(carried, *desk);
    answer.recorded +=
        (answer.recorded.empty() ? "" : "; ") + recorded_words(words, load, carrying, *other);
    answer.remarks.insert(answer.remarks.end(), remarks->begin(), remarks->end());
    for (auto& line : use_lines(load, ends.from, ends.to, *desk)) {
      answer.remarks.push_back(std::move(line));
    }
    if (ends.from) add_cautions({.out = &load}, *ends.from, load.at, *desk, answer);
    if (ends.to) add_cautions({.in = &load}, *ends.to, load.at, *desk, answer);
    if (words.remark) answer.remarks.push_back(*words.remark);
    if (!pen) {
      if (const auto near = purpose_remark(load.purpose, *desk)) answer.remarks.push_back(*near);
      pen.emplace(*context.book, book::Typed{context.who, std::string(carrying.command),
                                             context.line, context.clock});
    }
    pen->add_movement({.at = at->at,
                       .material = carried.material.name,
                       .from = id_of(ends.from),
                       .to = id_of(ends.to),
                       .amount = carried.amount,
                       .typed = carried.typed,
                       .purpose = said->purpose,
                       .paid_cents = carrying.into_the_batch ? *money : std::nullopt,
                       .sold_cents = carrying.into_the_batch ? std::nullopt : *money,
                       .supplier = arguments.option("supplier"),
                       .lot = arguments.option("lot"),
                       .buyer = arguments.option("buyer"),
                       .sure = sure});
  }
  add_photo(*pen, *photo, answer.recorded);
  pen->commit();
  if (arguments.option("when")) {
    answer.recorded = fmt::format(
        "{}, {}", measure::moment_words(at->at, desk->now(), desk->site().zone), answer.recorded);
  }
  if (!at->remark.empty()) answer.remarks.push_back(at->remark);
  print_answer(context, *desk, answer);
  return kDone;
}

}  // namespace cli
