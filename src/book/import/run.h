#pragma once

#include <functional>
#include <string_view>

#include "book/import/rows.h"
#include "book/import/sink.h"
#include "book/import/source.h"

namespace book {

// What is told while a file is read.
struct ImportWatch {
  // A row that was refused: its line, why, and its text.
  std::function<void(std::uint64_t line, std::string_view why, std::string_view row)> refused;
  // Now and then, with the rows and bytes read so far; false: stop.
  std::function<bool(std::uint64_t rows, std::uint64_t bytes)> go_on;
};

// How a file is read. `last_line`: a last line without its line end is taken; a logger may still be
// writing it. `keep_good`: else nothing more is put into the sink once a row was refused.
// `line_breaks`: quoted cells may hold many of them (RFC 4180); else one with more than a few is
// refused, since mostly a quote is missing.
struct ImportWays {
  bool last_line = false, keep_good = false, line_breaks = false;
};

struct ImportRun {
  std::uint64_t rows = 0, refused = 0;
  std::uint64_t read_to = 0, lines = 0;  // up to the end of the last whole line
  bool last_line_left = false;           // it has no line end, and was left for next time
  bool stopped = false;                  // go_on said so
};

// Reads rows from where `source` stands, which is behind `lines` lines.
ImportRun read_rows(ImportSource& source, RowReader& reader, ImportSink& sink, std::uint64_t lines,
                    const ImportWays& ways, const ImportWatch& watch);

}  // namespace book
