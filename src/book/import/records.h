#pragma once

#include <cstddef>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace book {

// Reads delimited records (RFC 4180; lines may end in CRLF or LF) off the front of a text, one at a
// time. A quote that does not begin a field is a letter like any other (5" probe).
class Records {
 public:
  // `most_breaks`: the line breaks that quoted cells of one record may hold. A record with more is
  // its first line alone, and unclosed(): a stray quote must not swallow the rows after it.
  Records(char delimiter, std::size_t most_breaks)
      : delimiter_(delimiter), most_breaks_(most_breaks) {}

  // The bytes of the first record of `text` with its line end; 0 where it is not whole yet and
  // more may come. `at_end`: nothing more comes, what is there is the last record.
  std::size_t next(std::string_view text, bool at_end);

  // Of the record just read. They hold until the next call, and while `text` does.
  std::span<const std::string_view> fields() const { return fields_; }
  std::size_t lines() const { return lines_; }  // line ends in it
  // A quote was opened and not closed where the record or the text ended.
  bool unclosed() const { return unclosed_; }

 private:
  std::size_t quoted(std::string_view text, bool at_end);
  std::size_t first_line(std::string_view text);

  char delimiter_;
  std::size_t most_breaks_;
  std::vector<std::string_view> fields_;
  std::string unescaped_;
  std::size_t lines_ = 0;
  bool unclosed_ = false;
};

}  // namespace book
