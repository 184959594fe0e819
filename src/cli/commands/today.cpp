#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <ostream>

#include "cli/desk/columns.h"
#include "cli/desk/morning.h"
#include "cli/shell/commands.h"
#include "measure/text.h"
#include "render/json.h"
#include "render/text.h"

namespace cli {
namespace {

using season::Job;
using season::Morning;
using season::Slot;

// A terminal of 24 lines shows it whole, with the line that was typed.
constexpr std::size_t kMostLines = 23;

std::string name_of(Slot slot) {
  switch (slot) {
    case Slot::kNow:
      return "NOW";
    case Slot::kToday:
      return "TODAY";
    case Slot::kSoon:
      return "SOON";
    case Slot::kReady:
      return "READY";
    case Slot::kHold:
      return "HOLD";
  }
  return "TODAY";
}

constexpr std::string_view kNew = " new";

std::vector<std::string> broken(const std::string& text, std::size_t width, std::size_t indent) {
  return measure::split(render::wrapped(text, width, indent), '\n');
}

bool is_read(const model::Told& silence) {
  return !silence.ends.empty() && silence.ends.front().by == model::Ending::By::kReading;
}

// What one pair of hands does there; that it was not read for long is said where nothing about the
// job hurts: what is to be left shut is not opened for a thermometer.
std::string job_words(const Job& job) {
  std::string text = line_of(job.lead());
  const bool unread =
      std::any_of(job.findings.begin() + 1, job.findings.end(),
                  [](const model::Told& one) { return one.silence && is_read(one); });
  if (unread && !job.hurts()) text += "; read it";
  return text;
}

// "read dig 7 days, tumbler 11; look at hens 6": for how long nobody did.
std::string round_words(const Job& round) {
  std::string text;
  const auto add = [&](std::string_view verb, bool reads) {
    bool first = true;
    for (const model::Told& one : round.findings) {
      if (is_read(one) != reads) continue;
      const auto days = static_cast<int>(one.value ? one.value->value.si : 0);
      const std::string_view unit = !text.empty() ? "" : days == 1 ? " day" : " days";
      const std::string lead(first ? verb : "");
      text += fmt::format("{}{}{} {}{}",
                          text.empty() ? ""
                          : first      ? "; "
                                       : ", ",
                          lead, one.batch, days, unit);
      first = false;
    }
  };
  add("read ", true);
  add("look at ", false);
  return text;
}

struct Page {
  const Context& context;
  std::size_t width;
  std::size_t codes;  // columns of the longest code

  std::string title(Slot slot) const {
    return context.color ? fmt::format("\x1b[1m{}\x1b[0m", name_of(slot)) : name_of(slot);
  }

  // The job, and under it what to mind.
  std::vector<std::string> lines_of(const Job& job) const {
    const std::string number = job.number > 0 ? fmt::format("{:>2}", job.number) : "  ";
    // On a narrow terminal the text goes on under the code, and the codes make no column.
    const bool narrow = width < kNarrow;
    const std::string lead =
        job.batch.empty()
            ? number + " "
            : fmt::format("{} {}  ", number, render::padded(job.batch, narrow ? 0 : codes));
    const std::size_t indent = narrow ? 3 : render::columns(lead);
    const std::string text = lead + (job.batch.empty() ? round_words(job) : job_words(job));
    // Behind a line of its own, else behind the whole.
    const bool is_new = job.is_new && job.number > 0;
    const bool aside = is_new && !narrow && render::columns(text) + kNew.size() <= width;
    std::vector<std::string> lines =
        broken(is_new && !aside ? text + " · new" : text, width, indent);
    if (aside) lines.front() = render::padded(text, width - kNew.size()) + std::string(kNew);
    const std::string minds = model::brief_text(job.cautions());
    if (minds.empty()) return lines;
    const std::string_view mark = narrow ? "! " : "   ! ";
    for (std::string& line : broken(fmt::format("{}{}", mark, minds), width, mark.size()))
      lines.push_back(std::move(line));
    return lines;
  }

  // "SOON   dig-1 leak check · tank-1 gutters": batches that want the same together.
  std::vector<std::string> folded(const Morning& morning, Slot slot, measure::Day today) const {
    std::vector<std::pair<std::string, std::vector<std::string>>> tags;  // what, of which batches
    for (const Job& job : morning.jobs) {
      if (job.slot != slot || job.waits) continue;
      std::string tag = tag_of(job.lead());
      if (tag == job.batch) tag.clear();
      if (slot == Slot::kHold && job.lead().due) {
        tag += (tag.empty() ? "until " : " until ") + measure::day_words(*job.lead().due, today);
      }
      const auto same =
          std::find_if(tags.begin(), tags.end(), [&](const auto& one) { return one.first == tag; });
      if (same == tags.end()) {
        tags.emplace_back(std::move(tag), std::vector{job.batch});
      } else if (same->second.back() != job.batch) {  // the jobs of a batch follow each other
        same->second.push_back(job.batch);
      }
    }
    std::string text;
    // Two lines, and a count of what is left out; on a narrow terminal only what must not be done
    // has two.
    const bool one_line = width < kNarrow && slot != Slot::kHold;
    const std::size_t room = one_line ? width - 20 : 2 * width - 20;
    for (std::size_t i = 0; i < tags.size(); ++i) {
      const std::string more = fmt::format("{}{} {}", i == 0 ? "" : " · ",
                                           measure::joined(tags[i].second, ", "), tags[i].first);
      if (i > 0 && render::columns(text) + render::columns(more) > room) {
        text += fmt::format(" · and {} more", tags.size() - i);
        break;
      }
      text += more;
    }
    if (text.empty()) return {};
    return broken(render::padded(title(slot), 7) + text, width, 7);
  }
};

std::string heading(const Desk& desk, const Morning& morning) {
  std::string text =
      fmt::format("{} · {}", desk.site().name, measure::day_words(desk.today(), desk.today()));
  if (morning.looked_at == 0) return text;
  const int now = morning.count(Slot::kNow), today = morning.count(Slot::kToday);
  if (now + today == 0) return text + " · nothing today";
  text += " · ";
  if (now > 0) text += fmt::format("{} now", now);
  if (today > 0) text += fmt::format("{}{} today", now > 0 ? ", " : "", today);
  if (const int fresh = morning.count_new(); fresh > 0)
    text += fmt::format(", {} of them new", fresh);
  return text;
}

std::string ending(const Morning& morning) {
  std::string text;
  if (const auto fine = morning.well.size(); fine > 0) {
    text = fine == static_cast<std::size_t>(morning.looked_at)
               ? fmt::format("{} looked at: all fine.", fine)
               : fmt::format("{} {} fine.", fine, fine == 1 ? "is" : "are");
  }
  if (const auto unread = morning.unread.size(); unread > 0)
    text += fmt::format("{}{} not read yet.", text.empty() ? "" : " ", unread);
  if (!morning.put_off.empty())
    text += fmt::format("{}Put off: {}.", text.empty() ? "" : " ", morning.put_off.size());
  if (std::any_of(morning.jobs.begin(), morning.jobs.end(),
                  [](const Job& job) { return job.number > 0; }))
    text += fmt::format("{}'roundbook why 1' says why.", text.empty() ? "" : " ");
  return text;
}

void print_lines(std::ostream& out, const std::vector<std::string>& lines) {
  for (const std::string& line : lines) out << line << '\n';
}

void print(Context& context, const Desk& desk, const Morning& morning) {
  const std::size_t width = std::min(static_cast<std::size_t>(context.width), kMostColumns);
  Page page{context, width, 0};
  for (const Job& job : morning.jobs) {
    if (job.number > 0) page.codes = std::max(page.codes, render::columns(job.batch));
  }
  std::vector<std::string> tail;
  for (const Slot slot : {Slot::kSoon, Slot::kReady, Slot::kHold}) {
    for (std::string& line : page.folded(morning, slot, desk.today()))
      tail.push_back(std::move(line));
  }
  for (std::string& line : broken(ending(morning), width, 0)) {
    if (!line.empty()) tail.push_back(std::move(line));
  }
  std::vector<std::string> lines = broken(heading(desk, morning), width, 2);
  if (morning.looked_at == 0) {
    lines.emplace_back();
    lines.emplace_back("No batch is open. 'roundbook start pile heap-1' begins one.");
    return print_lines(context.out, lines);
  }
  std::optional<Slot> slot;
  int left_out = 0;
  for (const Job& job : morning.jobs) {
    if (job.number == 0) continue;
    std::vector<std::string> more = page.lines_of(job);
    if (slot != job.slot) more.insert(more.begin(), page.title(job.slot));
    // What is NOW is never left out; a line is kept for the count of what is.
    if (left_out > 0 ||
        (job.slot != Slot::kNow && lines.size() + more.size() + tail.size() + 1 > kMostLines)) {
      ++left_out;
      continue;
    }
    slot = job.slot;
    lines.insert(lines.end(), more.begin(), more.end());
  }
  if (left_out > 0)
    lines.push_back(fmt::format("   and {} more: 'roundbook today --all'", left_out));
  lines.insert(lines.end(), tail.begin(), tail.end());
  print_lines(context.out, lines);
}

// Everything unfolded: a line a job, and what is found of each batch that is fine.
void print_all(Context& context, const Desk& desk, const Morning& morning) {
  const auto width = static_cast<std::size_t>(context.width);
  Page page{context, std::min(width, kMostColumns), 0};
  for (const Job& job : morning.jobs) page.codes = std::max(page.codes, render::columns(job.batch));
  print_lines(context.out, broken(heading(desk, morning), page.width, 2));
  std::optional<Slot> slot;
  for (const Job& job : morning.jobs) {
    if (slot != job.slot) context.out << page.title(job.slot) << '\n';
    slot = job.slot;
    print_lines(context.out, page.lines_of(job));
  }
  for (const Job& job : morning.put_off)
    context.out << render::wrapped(fmt::format("put off: {} {}", job.batch, line_of(job.lead())),
                                   width, 2)
                << '\n';
  for (const season::LookedAt& one : morning.well) {
    context.out << render::wrapped(fmt::format("fine: {}{}{}", one.batch,
                                               one.well.empty() ? "" : ": ", one.well),
                                   width, 2)
                << '\n';
  }
  for (const season::LookedAt& one : morning.unread)
    context.out << render::wrapped("not read yet: " + one.batch, width, 2) << '\n';
}

render::Json json_of_morning(const Desk& desk, const Morning& morning) {
  render::Json json{{"as_of", desk.site().zone.iso(desk.now())},
                    {"site", desk.site().name},
                    {"findings", render::Json::array()},
                    {"looked_at", morning.looked_at},
                    {"put_off", morning.put_off.size()},
                    {"well", render::Json::array()},
                    {"unread", render::Json::array()}};
  for (const Job& job : morning.jobs) {
    for (const model::Told& one : job.findings) {
      render::Json row = render::json_of(one, desk.print());
      row["job"] = job.number > 0 ? render::Json(job.number) : render::Json(nullptr);
      row["new"] = job.is_new;
      json["findings"].push_back(row);
    }
  }
  for (const season::LookedAt& one : morning.well) {
    json["well"].push_back(one.well.empty() ? one.batch : one.batch + " " + one.well);
  }
  for (const season::LookedAt& one : morning.unread) json["unread"].push_back(one.batch);
  return json;
}

}  // namespace

Outcome run_today(Context& context, const Arguments& arguments) {
  if (!arguments.words.empty()) {
    return measure::Mistake{"",
                            "today takes no words; 'roundbook why CODE' says what one batch wants"};
  }
  const book::View view(*context.book);
  const auto desk = Desk::lay_out(context);
  if (!desk) return desk.mistake();
  const Morning morning = look_round(*desk);
  if (context.json) {
    context.out << render::dumped(json_of_morning(*desk, morning));
  } else if (arguments.flag("all")) {
    print_all(context, *desk, morning);
  } else {
    print(context, *desk, morning);
  }
  return arguments.flag("check") && morning.count(Slot::kNow) > 0 ? kHandsNeeded : kDone;
}

}  // namespace cli
