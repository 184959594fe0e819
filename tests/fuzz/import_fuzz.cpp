// A delimited file as loggers and spreadsheets write them. The first line is what the person says
// of its columns; the rest is the file. It is read layer by layer, then imported whole.
#include <algorithm>
#include <cmath>
#include <cstdint>
#include <cstdlib>
#include <string>
#include <string_view>
#include <vector>

#include "book/import/layout.h"
#include "book/import/mapping.h"
#include "book/import/number.h"
#include "book/import/records.h"
#include "book/import/text.h"
#include "book/import/time.h"
#include "import_site.h"

namespace {

// Cut anywhere, the text gives the same record as whole, or waits for the rest.
void read_records(std::string_view text, char delimiter) {
  book::Records whole(delimiter, 1000), cut(delimiter, 1000);
  for (int records = 0; records < 50; ++records) {
    const std::size_t used = whole.next(text, true);
    if (used == 0) {
      if (!text.empty()) abort();
      return;
    }
    if (used > text.size()) abort();
    if (whole.unclosed()) {
      text.remove_prefix(used);
      cut = book::Records(delimiter, 1000);
      continue;
    }
    if (whole.fields().empty()) abort();
    const std::string_view part = text.substr(0, used / 2 + 1);
    const std::size_t early = cut.next(part, false);
    if (early != 0 && early != used) abort();
    const bool has_line_end = text[used - 1] == '\n';
    const std::size_t again = cut.next(text.substr(0, used), false);
    if (has_line_end && again != used) abort();
    if (again == used) {
      const auto fields = whole.fields();
      if (!std::equal(fields.begin(), fields.end(), cut.fields().begin(), cut.fields().end()))
        abort();
    }
    text.remove_prefix(used);
  }
}

void read_fields(std::string_view text, char delimiter) {
  book::Records records(delimiter, 1000);
  if (records.next(text, true) == 0) return;
  for (const std::string_view field : records.fields()) {
    for (const auto order :
         {book::TimeOrder::kYearFirst, book::TimeOrder::kDayFirst, book::TimeOrder::kMonthFirst,
          book::TimeOrder::kSeconds, book::TimeOrder::kMilliseconds}) {
      const auto moment = book::read_moment(field, order);
      if (moment && (moment->seconds < -86400 || moment->seconds > 7258204800)) abort();
      book::read_date(field, order);
    }
    book::read_clock(field);
    book::is_missing(field);
    for (const char decimal : {'.', ','}) {
      const auto number = book::read_number(field, decimal);
      if (number && !std::isfinite(*number)) abort();
    }
  }
}

// In two parts it becomes the same UTF-8 as in one.
std::string decoded(std::string_view bytes) {
  const book::Encoding encoding = book::sniff_encoding(bytes);
  bytes.remove_prefix(book::byte_order_mark(bytes, encoding));
  std::string whole, parts;
  book::append_utf8(bytes, encoding, whole);
  const std::size_t used = book::append_utf8(bytes.substr(0, bytes.size() / 2), encoding, parts);
  book::append_utf8(bytes.substr(used), encoding, parts);
  if (whole != parts) abort();
  return whole;
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view input(reinterpret_cast<const char*>(data), size);
  const std::size_t line = std::min(input.find('\n'), size);
  const std::string_view words = input.substr(0, line);
  const std::string_view bytes = input.substr(std::min(line + 1, size));
  const std::string text = decoded(bytes);
  for (const char delimiter : {',', ';', '\t'}) {
    read_records(text, delimiter);
    read_fields(text, delimiter);
  }
  const book::Layout layout = book::find_layout(text, true);
  if (layout.data_from > text.size()) abort();
  const std::string mapping = book::written(book::first_guess(layout));
  const auto again = book::read_mapping(mapping);
  if (!again || book::written(*again) != mapping) abort();
  book::read_mapping(text);
  fuzz::try_import(words, bytes);
  return 0;
}
