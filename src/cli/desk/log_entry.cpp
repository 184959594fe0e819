#include "cli/desk/log_entry.h"

#include <fmt/format.h>

#include <cmath>

#include "kinds/caution.h"

namespace cli {
namespace {

std::string difference_words(const LoggedReading& reading, double before, const Desk& desk) {
  const double change = reading.value.si - before;
  const measure::Dimension dimension = reading.value.dimension;
  const std::string size =
      dimension == measure::Dimension::kTemperature
          ? desk.print().difference(measure::Kelvins{std::fabs(change)})
      : dimension == measure::Dimension::kAcidity
          ? measure::print_number(std::fabs(change), 2)
          : desk.print()(measure::Value{dimension, std::fabs(change)}, reading.quantity->shown_in);
  if (std::fabs(change) < 1e-9) return "the same as";
  return (change > 0 ? "up " : "down ") + size + " since";
}

std::string name_of(const LoggedReading& reading, const kinds::Kind& kind) {
  if (reading.value.dimension == measure::Dimension::kAcidity) {
    return reading.position.empty() ? "" : reading.position + " ";  // its value says pH
  }
  const bool usual = reading.quantity->name == kind.vocabulary.temperature;
  if (reading.position.empty()) return usual ? "" : std::string(reading.quantity->name) + " ";
  return reading.position + (usual ? " " : " " + std::string(reading.quantity->name) + " ");
}

struct Said {
  std::string text;
  std::string remark;
};

// "12 today, 5 and these": what the day comes to where its readings add up.
std::string day_words(const LoggedReading& reading, const model::Batch& batch, measure::Instant at,
                      const Desk& desk) {
  const auto latest =
      book::reading_before(desk.logbook(), batch, reading.quantity->name, reading.position, at);
  if (latest && latest->at == at && latest->value == reading.value.si) return "";  // typed twice
  const model::History history = desk.history(batch, desk.now());
  const model::Series* series = history.find(reading.quantity->name, reading.position);
  const measure::Day day = desk.site().zone.day_of(at);
  const double before = series != nullptr ? series->total_on(day) : 0;
  if (before == 0) return "";
  const auto shown = [&](double si) {
    return desk.print()(measure::Value{reading.value.dimension, si}, reading.quantity->shown_in);
  };
  return fmt::format(
      ", {} {} with the {} logged before: they add up", shown(before + reading.value.si),
      day == desk.today() ? "today" : measure::day_words(day, desk.today()), shown(before));
}

// The value, the change since the last of its series, and whether that change can be.
Said say(const LoggedReading& reading, const model::Batch& batch, const kinds::Kind& kind,
         measure::Instant at, const Desk& desk) {
  Said said{name_of(reading, kind) + desk.print()(reading.value, reading.quantity->shown_in), ""};
  if (reading.quantity->adds_up) {
    said.text += day_words(reading, batch, at, desk);
    return said;
  }
  const auto before = book::reading_before(desk.logbook(), batch, reading.quantity->name,
                                           reading.position, at - std::chrono::seconds{1});
  if (!before || reading.quantity->since_before) return said;
  said.text += fmt::format(", {} {}", difference_words(reading, before->value, desk),
                           measure::moment_words(before->at, desk.now(), desk.site().zone));
  said.remark = leap_remark(*reading.quantity, kind, reading.value.si, *before, at);
  if (reading.quantity->counter && reading.value.si < before->value) {
    said.remark =
        "the counter went back: what it counted between the two is not known and left out; if it "
        "was not replaced or rolled over, 'roundbook undo' takes the line back";
  }
  return said;
}

std::vector<std::string_view> names_of(const Logged& logged) {
  std::vector<std::string_view> names;
  for (const LoggedReading& reading : logged.readings) names.push_back(reading.quantity->name);
  for (const kinds::Word* word : logged.words) names.push_back(word->word);
  return names;
}

void add_recorded(Answer& answer, const std::string& text) {
  answer.recorded += (answer.recorded.empty() ? "" : "; ") + text;
}

// The readings as the answer says them, with what is to be remarked on each.
void add_readings(const Logged& logged, const model::Batch& batch, const kinds::Kind& kind,
                  measure::Instant at, const Desk& desk, Answer& answer) {
  for (const LoggedReading& reading : logged.readings) {
    const Said said = say(reading, batch, kind, at, desk);
    add_recorded(answer, said.text);
    if (!said.remark.empty()) answer.remarks.push_back(said.remark);
    const std::string taken = taken_remark(reading, desk.print());
    if (!taken.empty()) answer.remarks.push_back(taken);
  }
}

// A length of time since the reading before that is longer than that, or a counter gone back.
std::optional<measure::Mistake> cannot_follow(const Logged& logged, const model::Batch& batch,
                                              measure::Instant at, const Desk& desk) {
  for (const LoggedReading& reading : logged.readings) {
    if (!reading.quantity->since_before && !reading.quantity->counter) continue;
    const auto before = book::reading_before(desk.logbook(), batch, reading.quantity->name,
                                             reading.position, at - std::chrono::seconds{1});
    if (reading.quantity->counter && before && reading.value.si < before->value) {
      const auto shown = [&](double si) {
        return desk.print()(measure::Value{reading.value.dimension, si},
                            reading.quantity->shown_in);
      };
      return measure::Mistake{
          "", fmt::format("{} {} is less than the {} of {}, and a counter goes back only where it "
                          "was replaced; --sure records it as the first of a new one",
                          reading.quantity->name, shown(reading.value.si), shown(before->value),
                          measure::moment_words(before->at, desk.now(), desk.site().zone))};
    }
    if (auto why = more_than_passed(reading, before, batch, at, desk.print())) return why;
  }
  return std::nullopt;
}

// A deed that can hardly have been done at that moment.
std::optional<measure::Mistake> doubtful_deed(const Logged& logged, const model::Batch& batch,
                                              measure::Instant at, const Desk& desk) {
  std::optional<Studied> study;
  for (const kinds::Word* word : logged.words) {
    if (!word->sense.empty()) continue;
    if (!study) study = desk.study(batch);
    const auto why = (*study)->doubts(*word, at);
    if (why) {
      return measure::Mistake{std::string(word->word), *why + "; --sure records it anyway"};
    }
  }
  return std::nullopt;
}

// A bare number that is a leap from the reading before was hardly meant as that reading.
std::optional<measure::Mistake> leapt(const Logged& logged, const model::Batch& batch,
                                      const kinds::Kind& kind, measure::Instant at,
                                      const Desk& desk) {
  for (const LoggedReading& reading : logged.readings) {
    if (!reading.was_guessed || reading.unit_was_said) continue;
    const Said said = say(reading, batch, kind, at, desk);
    if (said.remark.empty()) continue;
    return measure::Mistake{"", fmt::format("{} {} is a bigger jump than {} makes in that time; if "
                                            "it is right, write it with its name or unit",
                                            reading.quantity->name,
                                            desk.print()(reading.value, reading.quantity->shown_in),
                                            kinds::one_of(kind))};
  }
  return std::nullopt;
}

// Puts the readings down; a mistake where another stands at that moment.
std::optional<measure::Mistake> record_readings(book::Pen& pen, const Logged& logged,
                                                const model::Batch& batch, const kinds::Kind& kind,
                                                measure::Instant at, bool sure, const Desk& desk,
                                                Answer& answer) {
  for (const LoggedReading& reading : logged.readings) {
    const auto standing = pen.add_reading({batch.id, std::string(reading.quantity->name),
                                           reading.position, at, reading.value.si, sure});
    if (!standing) continue;
    if (!standing->same) {
      return measure::Mistake{
          "", fmt::format("{} has {}{} at that very moment already; give another --when, or "
                          "'roundbook undo' first if that was the slip",
                          batch.code, name_of(reading, kind),
                          desk.print()({reading.value.dimension, standing->value},
                                       reading.quantity->shown_in))};
    }
    answer.remarks.emplace_back(
        reading.quantity->adds_up
            ? "that was there already and was not counted twice; if it is more of it, give "
              "another --when"
            : "that reading was there already; it was not counted twice");
  }
  return std::nullopt;
}

void record_words(book::Pen& pen, const Logged& logged, const model::Batch& batch,
                  measure::Instant at, Answer& answer) {
  for (const kinds::Word* word : logged.words) {
    pen.add_word(batch.id, at, word->sense, word->word);
    const bool speaks =
        word->sense.empty() || word->word.find(word->sense) != std::string_view::npos;
    add_recorded(answer, (speaks ? "" : std::string(word->sense) + " ") + std::string(word->word));
  }
  if (!logged.note.empty()) {
    pen.add_note(batch.id, at, logged.note);
    add_recorded(answer, "noted");
  }
}

measure::Result<Answer> write_one(book::Pen& pen, const LoggedBatch& one, const LogMoment& moment,
                                  const Desk& desk) {
  const auto& [batch, logged] = one;
  const kinds::Kind& kind = desk.kind(batch);
  const measure::Instant at = moment.recorded.at;
  Answer answer{batch, "", {}};
  add_readings(logged, batch, kind, at, desk, answer);
  add_cautions({.logged = names_of(logged)}, batch, at, desk, answer);
  if (!logged.note.empty())
    answer.first = kinds::cautions_of_note(logged.note, *desk.study(batch, at));
  if (!moment.sure) {
    if (const auto why = cannot_follow(logged, batch, at, desk)) return *why;
    if (const auto why = leapt(logged, batch, kind, at, desk)) return *why;
    if (const auto why = doubtful_deed(logged, batch, at, desk)) return *why;
  }
  if (const auto why = record_readings(pen, logged, batch, kind, at, moment.sure, desk, answer)) {
    return *why;
  }
  record_words(pen, logged, batch, at, answer);
  if (moment.was_said) {
    answer.recorded = fmt::format("{}, {}", measure::moment_words(at, desk.now(), desk.site().zone),
                                  answer.recorded);
  }
  if (!moment.recorded.remark.empty()) answer.remarks.push_back(moment.recorded.remark);
  return answer;
}

}  // namespace

measure::Result<std::vector<Answer>> write_logged(book::Pen& pen,
                                                  const std::vector<LoggedBatch>& logged,
                                                  const LogMoment& moment, const Desk& desk) {
  std::vector<Answer> answers;
  for (const LoggedBatch& one : logged) {
    auto answer = write_one(pen, one, moment, desk);
    if (!answer) {
      auto why = answer.mistake();
      if (logged.size() > 1) why.why = one.batch.code + ": " + why.why;
      return why;
    }
    answers.push_back(*answer);
  }
  return answers;
}

}  // namespace cli
