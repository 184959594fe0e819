#include "book/import/run.h"

#include <algorithm>
#include <string>

#include "book/import/json.h"
#include "book/import/number.h"
#include "book/import/records.h"

namespace book {
namespace {

constexpr std::size_t kLongestRecord = std::size_t{1024} * 1024;  // bytes
// A cell may hold a few line breaks (an address, a remark); more is mostly a stray quote, and taken
// only where that is said.
constexpr std::size_t kFewLineBreaks = 3, kMostLineBreaks = 100;

std::string_view line_of(std::string_view record) {
  while (!record.empty() && (record.back() == '\n' || record.back() == '\r')) {
    record.remove_suffix(1);
  }
  return record;
}

// A logger that starts anew writes its header again.
bool is_header(std::span<const std::string_view> fields, const RowReader::Plan& plan) {
  if (fields.size() != plan.fields) return false;
  for (std::size_t i = 0; i < plan.columns.size(); ++i) {
    if (plan.columns[i] < 0) continue;
    const std::string_view field = trimmed(fields[static_cast<std::size_t>(plan.columns[i])]);
    if (field != plan.mapping.columns[i].name) return false;
  }
  return true;
}

// One pass over a source; the parts of read_rows.
class Pass {
 public:
  Pass(RowReader& reader, ImportSink& sink, const ImportWays& ways, const ImportWatch& watch,
       std::uint64_t lines)
      : reader_(reader),
        sink_(sink),
        ways_(ways),
        watch_(watch),
        records_(reader.plan().mapping.delimiter,
                 ways.line_breaks ? kMostLineBreaks : kFewLineBreaks) {
    run.lines = lines;
  }

  // The bytes used of the text's front; 0: it has no whole record.
  std::size_t take(std::string_view text, bool at_end) {
    const std::size_t used = records_.next(text, at_end);
    if (used == 0) return 0;
    line_ = run.lines + 1;
    run.lines += records_.lines();
    const std::string_view row = line_of(text.substr(0, used));
    if (row.find_first_not_of(" \t") == std::string_view::npos) return used;
    if (records_.unclosed()) {
      ++run.rows;
      refuse(ways_.line_breaks || records_.lines() == 0
                 ? "a quote is opened and not closed"
                 : "a quote is opened and not closed within three lines; --line-breaks takes "
                   "cells of more",
             line_of(row.substr(0, row.find('\n'))).substr(0, 80));
      return used;
    }
    read(records_.fields(), row);
    return used;
  }

  std::size_t take_json(std::string_view text, bool at_end) {
    const std::size_t end = text.find('\n');
    if (text.empty() || (end == std::string_view::npos && !at_end)) return 0;
    line_ = run.lines + 1;
    const bool whole = end != std::string_view::npos;
    const std::size_t used = whole ? end + 1 : text.size();
    if (whole) ++run.lines;
    const std::string_view row = line_of(text.substr(0, used));
    if (row.find_first_not_of(" \t") == std::string_view::npos) return used;
    if (json_.read(row)) {
      read(json_.fields(), row);
    } else {
      ++run.rows;
      refuse(json_.why(), row);
    }
    return used;
  }

  // What is left at the end: a last line without its end, or, behind a quote, more than that.
  void finish(std::string_view left) {
    const auto breaks = static_cast<std::size_t>(std::count(left.begin(), left.end(), '\n'));
    run.last_line_left = !left.empty() && breaks == 0;
    if (breaks == 0) return;
    line_ = run.lines + 1;
    ++run.rows;
    refuse("a quote is opened and not closed by the end of the file; " + std::to_string(breaks) +
               " lines were left",
           left.substr(0, 80));
  }

  void refuse_rest(std::string_view text) {
    line_ = run.lines + 1;
    ++run.rows;
    refuse(
        "a line of more than a million bytes is no row of a table; it and what follows were left",
        text.substr(0, 80));
  }

  ImportRun run;

 private:
  void read(std::span<const std::string_view> fields, std::string_view row) {
    if (reader_.read(fields)) {
      ++run.rows;
      if (run.refused > 0 && !ways_.keep_good) return;
      for (const RowReading& reading : reader_.readings()) sink_.add(reading, reader_.at(), line_);
    } else if (!is_header(fields, reader_.plan())) {
      ++run.rows;
      refuse(reader_.why(), row);
    }
  }

  void refuse(std::string_view why, std::string_view row) {
    ++run.refused;
    watch_.refused(line_, why, row);
  }

  RowReader& reader_;
  ImportSink& sink_;
  const ImportWays& ways_;
  const ImportWatch& watch_;
  Records records_;
  JsonLine json_;
  std::uint64_t line_ = 0;
};

}  // namespace

ImportRun read_rows(ImportSource& source, RowReader& reader, ImportSink& sink, std::uint64_t lines,
                    const ImportWays& ways, const ImportWatch& watch) {
  Pass pass(reader, sink, ways, watch, lines);
  const bool json = reader.plan().mapping.json;
  pass.run.read_to = source.used();
  for (;;) {
    const bool takes_end = source.at_end() && ways.last_line;
    for (;;) {
      const std::string_view text = source.text();
      const std::size_t used = json ? pass.take_json(text, takes_end) : pass.take(text, takes_end);
      if (used == 0) break;
      const bool whole = text[used - 1] == '\n';
      source.use(used);
      if (whole) pass.run.read_to = source.used();
    }
    if (source.text().size() > kLongestRecord) {
      pass.refuse_rest(source.text());
      return pass.run;
    }
    if (!watch.go_on(pass.run.rows, source.used())) {
      pass.run.stopped = true;
      return pass.run;
    }
    if (source.at_end()) break;
    source.more();
  }
  pass.finish(source.text());
  return pass.run;
}

}  // namespace book
