#include "book/write/amend.h"

#include <fmt/format.h>

#include <algorithm>
#include <ostream>
#include <set>

#include "cli/commands/amend_settings.h"
#include "cli/desk/desk.h"
#include "cli/desk/objections.h"
#include "cli/shell/commands.h"
#include "cli/words/carried.h"
#include "cli/words/log_words.h"
#include "measure/text.h"
#include "render/json.h"
#include "render/text.h"

namespace cli {
namespace {

using book::Written;
using measure::Mistake;

// What an amendment asks for beside its words.
struct Wanted {
  std::optional<measure::Instant> at;
  std::optional<model::Batch> batch;
  std::optional<std::string> note;
  std::optional<std::string> supplier, buyer, lot;  // of a load
  bool sure = false;
};

// An amendment in the making: each step changes rows under the pen and says what it did.
struct Amending {
  Context& context;
  const Desk& desk;
  book::Pen& pen;
  const Wanted& wanted;
  std::vector<std::string> done;
  std::string remark = {};  // what is odd about a value given

  book::Logbook& logbook() const { return *context.book; }
  measure::Instant at(measure::Instant was) const { return wanted.at.value_or(was); }
  std::int64_t batch(std::int64_t was) const { return wanted.batch ? wanted.batch->id : was; }
};

measure::Result<Written> entry_to_amend(const Desk& desk, const std::string& word) {
  const auto number = entry_number(word);
  if (!number) return number.mistake();
  auto written = book::written_by(desk.logbook(), *number);
  if (!written) {
    return Mistake{word,
                   fmt::format("there is no entry {}; 'roundbook history' shows them", *number)};
  }
  if (written->undone_by) {
    return Mistake{word, fmt::format("entry {} was taken back by entry {}; record it again instead",
                                     *number, *written->undone_by)};
  }
  if (written->entry.command == "import") {
    return Mistake{word, fmt::format("entry {} is an import; 'roundbook undo' takes it back whole, "
                                     "and a wrong value of it is marked by itself",
                                     *number)};
  }
  if (written->readings.empty() && written->words.empty() && written->notes.empty() &&
      written->movements.empty() && !written->started && !written->ended) {
    return Mistake{word,
                   fmt::format("entry {} ('{}') holds nothing that amend changes: it corrects what "
                               "was logged, added, taken, started or ended. Give the command again",
                               *number, written->entry.line)};
  }
  return *written;
}

// An entry of several batches: which of them is meant cannot be said yet.
std::optional<Mistake> of_several(const Written& written, const Desk& desk) {
  std::set<std::int64_t> batches;
  for (const auto& one : written.readings) batches.insert(one.batch);
  for (const auto& one : written.words) batches.insert(one.batch);
  for (const auto& one : written.notes) batches.insert(one.batch);
  if (batches.size() < 2) return std::nullopt;
  std::vector<std::string> codes;
  for (const std::int64_t id : batches)
    codes.push_back(book::batch_of_id(desk.logbook(), id)->code);
  return Mistake{"",
                 fmt::format("entry {0} is of {1}: take it back ('roundbook undo {0}') and type "
                             "it anew",
                             written.entry.id, measure::listed(codes, "and"))};
}

std::string value_words(const Desk& desk, const model::Batch& batch, const std::string& quantity,
                        double si) {
  const kinds::Quantity* known = kinds::find_quantity(desk.kind(batch), quantity);
  if (known == nullptr) return fmt::format("{}", si);
  return desk.print()(measure::Value{known->dimension, si}, known->shown_in);
}

std::string name_of(const std::string& quantity, const std::string& position) {
  return position.empty() ? quantity : quantity + " " + position;
}

// The one reading of the entry that a new value is for: of that quantity and position, or the only
// one of that quantity where no position was said.
const Written::Reading* reading_for(const Written& written, const LoggedReading& said) {
  const Written::Reading* only = nullptr;
  int of_the_quantity = 0;
  for (const Written::Reading& one : written.readings) {
    if (one.quantity != said.quantity->name) continue;
    if (one.position == said.position) return &one;
    ++of_the_quantity;
    only = &one;
  }
  return said.position.empty() && of_the_quantity == 1 ? only : nullptr;
}

std::optional<Mistake> move_reading(Amending& amending, const Written::Reading& was, double value,
                                    bool sure) {
  const book::NewReading is{amending.batch(was.batch), was.quantity, was.position,
                            amending.at(was.at),       value,        sure};
  const auto standing = book::amend(amending.logbook(), amending.pen, was, is);
  if (!standing) return std::nullopt;
  return Mistake{"", fmt::format("there is {} at that very moment already; give another --when",
                                 name_of(was.quantity, was.position))};
}

// What moves or is said anew of readings, words and notes.
std::optional<Mistake> amend_logged(Amending& amending, const Written& written,
                                    const std::vector<std::string>& words) {
  const Desk& desk = amending.desk;
  const std::int64_t batch_id = !written.readings.empty() ? written.readings[0].batch
                                : !written.words.empty()  ? written.words[0].batch
                                                          : written.notes[0].batch;
  const auto was = book::batch_of_id(desk.logbook(), batch_id);
  const model::Batch& batch = amending.wanted.batch ? *amending.wanted.batch : *was;
  const kinds::Kind& kind = desk.kind(batch);
  auto read = read_log_words(
      words, kind, desk.print(), amending.wanted.sure,
      // Without the reading that is corrected.
      [&] {
        const measure::Instant at =
            written.readings.empty() ? desk.now() : amending.at(written.readings[0].at);
        return desk.study(batch, at - std::chrono::seconds{1});
      },
      desk.containers());
  if (!read) return read.mistake();
  for (const Written::Reading& one : written.readings) {
    if (kinds::find_quantity(kind, one.quantity) == nullptr ||
        (!one.position.empty() && !kinds::has_position(kind, one.position))) {
      return Mistake{batch.code,
                     fmt::format("{} is {}, which has no {}", batch.code, kinds::one_of(kind),
                                 name_of(one.quantity, one.position))};
    }
  }
  std::vector<const Written::Reading*> said_anew;
  for (const LoggedReading& said : read->readings) {
    const Written::Reading* reading = reading_for(written, said);
    if (reading == nullptr) {
      return Mistake{"", fmt::format("entry {} has no {} to correct", written.entry.id,
                                     name_of(std::string(said.quantity->name), said.position))};
    }
    if (const auto why = move_reading(amending, *reading, said.value.si, amending.wanted.sure))
      return why;
    if (std::find(said_anew.begin(), said_anew.end(), reading) != said_anew.end()) {
      return Mistake{
          "", fmt::format("{} is given twice", name_of(reading->quantity, reading->position))};
    }
    said_anew.push_back(reading);
    amending.done.push_back(
        fmt::format("{} {}, was {}", name_of(reading->quantity, reading->position),
                    value_words(desk, batch, reading->quantity, said.value.si),
                    value_words(desk, *was, reading->quantity, reading->value)));
    const measure::Instant at = amending.at(reading->at);
    const auto before = book::reading_before(desk.logbook(), batch, reading->quantity,
                                             reading->position, at - std::chrono::seconds{1});
    auto too_long = more_than_passed(said, before, batch, at, desk.print());
    if (too_long && !amending.wanted.sure) return too_long;
    if (before) {
      amending.remark = leap_remark(*said.quantity, kind, said.value.si, *before, at);
    }
  }
  if (read->words.size() > 1 || (read->words.size() == 1 && written.words.size() != 1)) {
    return Mistake{"", fmt::format("a deed is corrected where the entry has one and one is given; "
                                   "entry {} has {}",
                                   written.entry.id, written.words.size())};
  }
  if (read->words.size() == 1) {
    Written::Word word = written.words[0];
    amending.done.push_back(fmt::format("{}, was {}", read->words[0]->word, word.word));
    word.sense = read->words[0]->sense;
    word.word = read->words[0]->word;
    word.at = amending.at(word.at);
    word.batch = amending.batch(word.batch);
    book::amend(amending.logbook(), amending.pen, word);
  }
  const bool moves = amending.wanted.at || amending.wanted.batch;
  if (moves) {
    for (const Written::Reading& one : written.readings) {
      if (std::find(said_anew.begin(), said_anew.end(), &one) != said_anew.end()) continue;
      if (const auto why = move_reading(amending, one, one.value, one.sure)) return why;
    }
    for (Written::Word one : written.words) {
      if (!read->words.empty()) break;
      if (kinds::find_word(kind, one.word) == nullptr) {
        return Mistake{batch.code,
                       fmt::format("{} is no deed of a {}", measure::quoted(one.word), kind.name)};
      }
      one.at = amending.at(one.at);
      one.batch = amending.batch(one.batch);
      book::amend(amending.logbook(), amending.pen, one);
    }
  }
  const std::string note = amending.wanted.note.value_or(read->note);
  if (!note.empty() && written.notes.empty()) {
    const auto at = !written.readings.empty() ? written.readings[0].at : written.words[0].at;
    amending.pen.add_note(batch.id, amending.at(at), note);
    amending.done.push_back("noted");
  }
  for (Written::Note one : written.notes) {
    if (note.empty() && !moves) break;
    if (!note.empty()) {
      amending.done.push_back(fmt::format("note “{}”, was “{}”", note, one.text));
      one.text = note;
    }
    one.at = amending.at(one.at);
    one.batch = amending.batch(one.batch);
    book::amend(amending.logbook(), amending.pen, one);
  }
  return std::nullopt;
}

// Who brought it or got it, and its lot.
std::optional<Mistake> amend_people(Amending& amending, const std::string& command,
                                    book::NewMovement& what) {
  const Wanted& wanted = amending.wanted;
  if (wanted.supplier && command != "add") {
    return Mistake{"--supplier", "--supplier is of what came in, which 'add' records"};
  }
  if (wanted.buyer && command != "take") {
    return Mistake{"--buyer", "--buyer is of what left, which 'take' records"};
  }
  const auto set = [&](const char* name, const std::optional<std::string>& said,
                       std::optional<std::string>& into) {
    if (!said) return;
    amending.done.push_back(fmt::format("{} {}, was {}", name, *said, into.value_or("not said")));
    into = said;
  };
  set("supplier", wanted.supplier, what.supplier);
  set("buyer", wanted.buyer, what.buyer);
  set("lot", wanted.lot, what.lot);
  return std::nullopt;
}

std::optional<Mistake> amend_carried(Amending& amending, const Written& written,
                                     const std::vector<std::string>& words) {
  if (written.movements.size() != 1) {
    return Mistake{"", fmt::format("entry {} moved several things at once; amend takes one",
                                   written.entry.id)};
  }
  Written::Movement movement = written.movements[0];
  book::NewMovement& what = movement.what;
  if (amending.wanted.note) {
    return Mistake{"", "a movement has no note; 'roundbook log' takes one"};
  }
  if (!words.empty()) {
    const auto from = what.from ? book::batch_of_id(amending.desk.logbook(), *what.from)
                                : std::optional<model::Batch>();
    const auto carried = read_carried(
        measure::joined(words, " "),
        {.usual = what.material, .batch = from, .at = what.at, .sure = amending.wanted.sure},
        amending.desk);
    if (!carried) return carried.mistake();
    amending.done.push_back(fmt::format("{} {}, was {} {}", carried->typed, carried->material.name,
                                        what.typed, what.material));
    what.material = carried->material.name;
    what.amount = carried->amount;
    what.typed = carried->typed;
    what.sure = what.sure || amending.wanted.sure;
  }
  if (const auto why = amend_people(amending, written.command, what)) return why;
  what.at = amending.at(what.at);
  if (amending.wanted.batch) {
    auto& end = written.command == "take" ? what.from : what.to;
    const auto& other = written.command == "take" ? what.to : what.from;
    end = amending.wanted.batch->id;
    if (other == end) return Mistake{"", "a thing cannot be carried from a batch to itself"};
  }
  const auto objections = standing_against(what, amending.desk, amending.wanted.sure, movement.id);
  if (!objections) return objections.mistake();
  amending.done.insert(amending.done.end(), objections->begin(), objections->end());
  book::amend(amending.logbook(), amending.pen, movement);
  return std::nullopt;
}

// The runs of one code follow each other.
std::optional<Mistake> overlaps(const Amending& amending, const model::Batch& is) {
  const auto other = book::overlapping(amending.desk.logbook(), is);
  if (!other) return std::nullopt;
  const std::string label = book::label_of(amending.desk.logbook(), *other);
  const auto words_of = [&](measure::Instant moment) {
    return measure::moment_words(moment, amending.desk.now(), amending.desk.site().zone);
  };
  if (other->run > is.run) {
    return Mistake{label, fmt::format("the {} of that code after it, {}, was started {}, before "
                                      "the end you give",
                                      other->kind, label, words_of(other->started))};
  }
  return Mistake{label, fmt::format("the {} of that code before it, {}, {}, after the start you "
                                    "give",
                                    other->kind, label,
                                    other->ended ? "ended " + words_of(*other->ended)
                                                 : std::string("is still open"))};
}

std::optional<Mistake> amend_span(Amending& amending, const Written& written,
                                  const std::vector<std::string>& words) {
  if (!words.empty() || amending.wanted.batch || amending.wanted.note || !amending.wanted.at) {
    return Mistake{"", "of a start or an end amend changes the moment: --when"};
  }
  const measure::Instant at = *amending.wanted.at;
  const auto batch = book::batch_of_id(amending.desk.logbook(),
                                       written.started ? *written.started : *written.ended);
  const measure::Zone& zone = amending.desk.site().zone;
  const auto words_of = [&](measure::Instant moment) {
    return measure::moment_words(moment, amending.desk.now(), zone);
  };
  if (written.started) {
    const auto first = book::first_of(amending.desk.logbook(), *batch);
    if ((first && *first < at) || (batch->ended && *batch->ended < at)) {
      return Mistake{"", fmt::format("{} has an entry of {}, before the start you give",
                                     batch->code, words_of(first ? *first : *batch->ended))};
    }
    model::Batch is = *batch;
    is.started = at;
    if (const auto why = overlaps(amending, is)) return why;
    book::amend_start(amending.logbook(), amending.pen, batch->id, at);
    amending.done.push_back(
        fmt::format("started {}, was {}", words_of(at), words_of(batch->started)));
    return std::nullopt;
  }
  const auto latest = book::latest_of(amending.desk.logbook(), *batch);
  if ((latest && *latest > at) || at < batch->started) {
    return Mistake{"", fmt::format("{} has an entry of {}, after the end you give", batch->code,
                                   words_of(latest ? *latest : batch->started))};
  }
  model::Batch is = *batch;
  is.ended = at;
  if (const auto why = overlaps(amending, is)) return why;
  book::amend_end(amending.logbook(), amending.pen, batch->id, at, std::nullopt);
  amending.done.push_back(fmt::format("ended {}, was {}", words_of(at), words_of(*batch->ended)));
  return std::nullopt;
}

// Everything of the entry must lie within the life of the batch that it is of now; what is carried,
// within that of both its ends.
std::optional<Mistake> outside_life(const Amending& amending, const Written& written) {
  if (!amending.wanted.at && !amending.wanted.batch) return std::nullopt;
  std::vector<std::pair<std::int64_t, measure::Instant>> places;
  const auto add = [&](std::int64_t batch, measure::Instant at) {
    places.emplace_back(batch, amending.at(at));
  };
  for (const auto& one : written.readings) add(amending.batch(one.batch), one.at);
  for (const auto& one : written.words) add(amending.batch(one.batch), one.at);
  for (const auto& one : written.notes) add(amending.batch(one.batch), one.at);
  for (const auto& one : written.movements) {
    const bool taken = written.command == "take";
    const auto& end = taken ? one.what.from : one.what.to;
    const auto& other = taken ? one.what.to : one.what.from;
    if (end) add(amending.batch(*end), one.what.at);
    if (other) add(*other, one.what.at);
  }
  for (const auto& [id, at] : places) {
    const auto batch = book::batch_of_id(amending.desk.logbook(), id);
    const auto open = amending.desk.open_batch(book::label_of(amending.desk.logbook(), *batch), at);
    if (!open) return open.mistake();
  }
  return std::nullopt;
}

measure::Result<Wanted> read_wanted(Context& context, const Arguments& arguments,
                                    const Desk& desk) {
  Wanted wanted;
  wanted.note = arguments.option("note");
  wanted.sure = arguments.flag("sure");
  wanted.supplier = arguments.option("supplier");
  wanted.buyer = arguments.option("buyer");
  wanted.lot = arguments.option("lot");
  if (arguments.option("when")) {
    const auto at = recorded_at(context, arguments, desk.site());
    if (!at) return at.mistake();
    wanted.at = at->at;
  }
  if (const auto code = arguments.option("batch")) {
    const auto batch = desk.batch(*code);
    if (!batch) return batch.mistake();
    wanted.batch = *batch;
  }
  return wanted;
}

}  // namespace

Outcome run_amend(Context& context, const Arguments& arguments) {
  const auto desk = Desk::lay_out(context);
  if (!desk) return desk.mistake();
  if (const auto batch = batch_told_otherwise(arguments, *desk)) {
    return amend_settings(context, arguments, *batch, *desk);
  }
  if (arguments.words.empty()) {
    return Mistake{"",
                   "amend needs an entry's number and what it should have been, like 'amend 41 "
                   "148F'; 'roundbook history' shows the numbers"};
  }
  const auto written = entry_to_amend(*desk, arguments.words[0]);
  if (!written) return written.mistake();
  const auto wanted = read_wanted(context, arguments, *desk);
  if (!wanted) return wanted.mistake();
  const std::vector<std::string> words(arguments.words.begin() + 1, arguments.words.end());
  const bool people = wanted->supplier || wanted->buyer || wanted->lot;
  if (people && written->movements.empty()) {
    return Mistake{"", fmt::format("entry {} carried nothing, so it has no supplier, buyer or lot",
                                   written->entry.id)};
  }
  if (words.empty() && !wanted->at && !wanted->batch && !wanted->note && !people) {
    return Mistake{"", fmt::format("amend {} needs what it should have been: a value, --when, "
                                   "--batch or --note",
                                   written->entry.id)};
  }
  if (const auto why = of_several(*written, *desk)) return *why;
  book::Pen pen(*context.book, {context.who, "amend", context.line, context.clock});
  Amending amending{context, *desk, pen, *wanted, {}};
  if (const auto why = outside_life(amending, *written)) return *why;
  const auto why = !written->movements.empty()          ? amend_carried(amending, *written, words)
                   : written->started || written->ended ? amend_span(amending, *written, words)
                                                        : amend_logged(amending, *written, words);
  if (why) return *why;
  if (wanted->at && !written->started && !written->ended) {
    amending.done.push_back("moved to " +
                            measure::moment_words(*wanted->at, desk->now(), desk->site().zone));
  }
  if (wanted->batch) amending.done.push_back("moved to " + wanted->batch->code);
  pen.commit();
  if (context.json) {
    context.out << render::dumped({{"amended", written->entry.id},
                                   {"entry", pen.entry()},
                                   {"was", written->entry.line},
                                   {"changes", amending.done},
                                   {"remark", amending.remark}});
    return kDone;
  }
  context.out << render::wrapped(fmt::format("entry {} amended: {}", written->entry.id,
                                             measure::joined(amending.done, "; ")),
                                 static_cast<std::size_t>(context.width), 2)
              << '\n'
              << render::wrapped(fmt::format("  it was: {}", written->entry.line),
                                 static_cast<std::size_t>(context.width), 4)
              << "\n  (the logbook keeps both; 'roundbook undo' takes this back)\n";
  if (!amending.remark.empty()) {
    context.out << render::wrapped("  " + amending.remark, static_cast<std::size_t>(context.width),
                                   4)
                << '\n';
  }
  return kDone;
}

}  // namespace cli
