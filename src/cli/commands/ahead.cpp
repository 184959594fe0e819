#include "cli/desk/ahead.h"

#include <fmt/format.h>

#include <algorithm>
#include <ostream>
#include <set>

#include "cli/desk/calendar_entries.h"
#include "cli/desk/columns.h"
#include "cli/desk/morning.h"
#include "cli/shell/commands.h"
#include "cli/shell/write_file.h"
#include "measure/text.h"
#include "render/calendar.h"
#include "render/json.h"
#include "render/text.h"

namespace cli {
namespace {

using measure::Day;
using season::Ahead;
using season::Foretold;
using season::Repeated;

bool falls_on(const Repeated& one, Day day) {
  return std::find(one.days.begin(), one.days.end(), day) != one.days.end();
}

int days_of(const Ahead& ahead) {
  return (ahead.days.to - ahead.days.from).count() + 1;
}

// What comes round is told day by day of a week, and once of a longer time.
bool is_long(const Ahead& ahead) {
  constexpr int kByDay = 8;
  return days_of(ahead) > kByDay;
}

bool is_daily(const Repeated& one, const Ahead& ahead) {
  return static_cast<int>(one.days.size()) == days_of(ahead);
}

// "read heap-3, dig-1; look at hens; feed bin-a"
template <class Wanted>
std::string rounds(const Ahead& ahead, const Wanted& wanted) {
  std::string text;
  const auto add = [&](std::string_view verb, const std::vector<Repeated>& all) {
    std::vector<std::string> codes;
    for (const Repeated& one : all) {
      if (wanted(one)) codes.push_back(one.batch);
    }
    if (codes.empty()) return;
    text += fmt::format("{}{} {}", text.empty() ? "" : "; ", verb, measure::joined(codes, ", "));
  };
  add("read", ahead.readings);
  add("look at", ahead.looks);
  add("feed", ahead.feedings);
  return text;
}

int jobs_today(const Ahead& ahead) {
  return ahead.morning.count(season::Slot::kNow) + ahead.morning.count(season::Slot::kToday);
}

class Leaf {
 public:
  Leaf(Context& context, const Desk& desk, const Ahead& ahead)
      : out_(context.out),
        today_(desk.today()),
        ahead_(ahead),
        width_(std::min(static_cast<std::size_t>(context.width), kMostColumns)) {
    for (const season::FallsDue& one : ahead.due) widen(one.finding.batch);
    for (const Foretold& one : ahead.foretold) widen(one.batch);
  }

  void print(const std::string& site) const {
    say(fmt::format("{} · {}{}", site, span(), waiting()), 2);
    const auto daily = [&](const Repeated& one) { return is_daily(one, ahead_); };
    const bool one_day = days_of(ahead_) == 1;
    const std::string each = one_day ? "" : rounds(ahead_, daily);
    if (!each.empty()) say("Each day: " + each, 2);
    bool any = print_rhythms() || !each.empty();
    for (Day day = ahead_.days.from; day <= ahead_.days.to; day += date::days{1})
      any = print_day(day, one_day) || any;
    if (!ahead_.foretold.empty()) {
      out_ << "Foreseen\n";
      for (const Foretold& one : ahead_.foretold) job(one.batch, foretold_words(one, today_));
    }
    print_held();
    if (!any && ahead_.foretold.empty()) out_ << "Nothing falls due.\n";
  }

 private:
  void widen(const std::string& code) { codes_ = std::max(codes_, render::columns(code)); }
  void say(const std::string& text, std::size_t indent) const {
    out_ << render::wrapped(text, width_, indent) << '\n';
  }
  std::string words(Day day) const { return measure::day_words(day, today_); }

  std::string span() const {
    if (ahead_.days.from == ahead_.days.to) return words(ahead_.days.from);
    return fmt::format("{} to {}", words(ahead_.days.from), words(ahead_.days.to));
  }

  std::string waiting() const {
    const int jobs = jobs_today(ahead_);
    return jobs == 0 ? "" : fmt::format(" · {} wait{} today", jobs, jobs == 1 ? "s" : "");
  }

  void job(const std::string& code, const std::string& text) const {
    const std::string lead = width_ < kNarrow ? fmt::format("  {}  ", code)
                                              : fmt::format("  {}  ", render::padded(code, codes_));
    say(lead + text, width_ < kNarrow ? 4 : render::columns(lead));
  }

  // Of a long time, what comes round every so many days; whether there was any.
  bool print_rhythms() const {
    std::set<int> rhythms;
    if (!is_long(ahead_)) return false;
    for (const auto* all : {&ahead_.readings, &ahead_.looks, &ahead_.feedings}) {
      for (const Repeated& one : *all) {
        if (!is_daily(one, ahead_)) rhythms.insert(one.every);
      }
    }
    for (const int every : rhythms) {
      say(fmt::format("Every {} days: {}", every,
                      rounds(ahead_,
                             [&](const Repeated& one) {
                               return one.every == every && !is_daily(one, ahead_);
                             })),
          2);
    }
    return !rhythms.empty();
  }

  // Whether there was anything to say of the day.
  bool print_day(Day day, bool one_day) const {
    const std::string round = rounds(ahead_, [&](const Repeated& one) {
      const bool goes_there = std::any_of(
          ahead_.due.begin(), ahead_.due.end(),
          [&](const auto& due) { return due.day == day && due.finding.batch == one.batch; });
      return falls_on(one, day) && (one_day || !is_daily(one, ahead_)) && !is_long(ahead_) &&
             !goes_there;
    });
    const bool due = std::any_of(ahead_.due.begin(), ahead_.due.end(),
                                 [&](const auto& one) { return one.day == day; });
    if (round.empty() && !due) return false;
    out_ << words(day) << '\n';
    for (const season::FallsDue& one : ahead_.due) {
      if (one.day != day) continue;
      job(one.finding.batch, line_of(one.finding));
      const std::string minds = model::brief_text(one.finding.cautions);
      if (!minds.empty()) say("    ! " + minds, 6);
    }
    if (!round.empty()) say("  " + round, 4);
    return true;
  }

  void print_held() const {
    std::string text;
    for (const model::Told& one : ahead_.held) {
      text += fmt::format("{}{} {}", text.empty() ? "Not yet: " : " · ", one.batch, tag_of(one));
      if (one.due) text += " until " + words(*one.due);
    }
    if (!text.empty()) say(text, 2);
  }

  std::ostream& out_;
  Day today_;
  const Ahead& ahead_;
  std::size_t width_;
  std::size_t codes_ = 0;
};

render::Json json_of_day(std::optional<Day> day) {
  return day ? render::Json(measure::iso_date(*day)) : render::Json(nullptr);
}

render::Json json_of(const Repeated& one) {
  render::Json days = render::Json::array();
  for (const Day day : one.days) days.push_back(measure::iso_date(day));
  render::Json json{{"batch", one.batch}, {"every_days", one.every}, {"days", days}};
  if (!one.what.empty()) json["quantity"] = one.what;
  return json;
}

render::Json json_of(const std::vector<Repeated>& all) {
  render::Json json = render::Json::array();
  for (const Repeated& one : all) json.push_back(json_of(one));
  return json;
}

render::Json json_of(const Desk& desk, const Ahead& ahead) {
  render::Json json{{"as_of", desk.site().zone.iso(desk.now())},
                    {"site", desk.site().name},
                    {"from", measure::iso_date(ahead.days.from)},
                    {"to", measure::iso_date(ahead.days.to)},
                    {"waiting", jobs_today(ahead)},
                    {"due", render::Json::array()},
                    {"readings", json_of(ahead.readings)},
                    {"looks", json_of(ahead.looks)},
                    {"feedings", json_of(ahead.feedings)},
                    {"foreseen", render::Json::array()},
                    {"held", render::Json::array()}};
  for (const season::FallsDue& one : ahead.due) {
    render::Json row = render::json_of(one.finding, desk.print());
    row["day"] = measure::iso_date(one.day);
    json["due"].push_back(row);
  }
  for (const Foretold& one : ahead.foretold) {
    json["foreseen"].push_back({{"batch", one.batch},
                                {"what", one.forecast.what},
                                {"line", foretold_words(one, desk.today())},
                                {"earliest", json_of_day(one.forecast.earliest)},
                                {"likely", json_of_day(one.forecast.likely)},
                                {"latest", json_of_day(one.forecast.latest)},
                                {"untried", one.untried}});
  }
  for (const model::Told& one : ahead.held)
    json["held"].push_back(render::json_of(one, desk.print()));
  return json;
}

}  // namespace

Outcome run_ahead(Context& context, const Arguments& arguments) {
  const book::View view(*context.book);
  const auto desk = Desk::lay_out(context);
  if (!desk) return desk.mistake();
  const auto days = days_asked(arguments.words, desk->today());
  if (!days) return days.mistake();
  const Ahead ahead = look_ahead(*desk, *days);
  if (const auto file = arguments.option("calendar")) {
    const std::vector<render::CalendarEntry> entries = calendar_entries(*desk, ahead);
    const std::string text =
        render::calendar(desk->site().name, desk->site().zone, context.clock, entries);
    write_or_print(context, *file, text,
                   fmt::format("{} until {}", measure::counted(entries.size(), "entry", "entries"),
                               measure::day_words(days->to, desk->today())));
    return kDone;
  }
  if (context.json) {
    context.out << render::dumped(json_of(*desk, ahead));
  } else {
    Leaf(context, *desk, ahead).print(desk->site().name);
  }
  return kDone;
}

}  // namespace cli
