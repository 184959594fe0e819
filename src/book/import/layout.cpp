#include "book/import/layout.h"

#include <algorithm>
#include <array>
#include <map>
#include <set>

#include "book/import/number.h"
#include "book/import/records.h"
#include "measure/text.h"
#include "measure/unit.h"

namespace book {
namespace {

constexpr std::size_t kMostRecords = 2000;
constexpr std::size_t kMostColumns = 1000;  // a line of more fields is no row of a table
constexpr std::size_t kMostBreaks = 8;      // in the heads of columns, as spreadsheets write them
constexpr std::size_t kFew = 400;
constexpr std::array kWrittenOrders{TimeOrder::kYearFirst, TimeOrder::kDayFirst,
                                    TimeOrder::kMonthFirst};

struct Record {
  std::vector<std::string> fields;
  std::size_t at;  // where it begins
  std::size_t lines_before;
};

std::vector<Record> records_of(std::string_view head, char delimiter, bool at_end) {
  std::vector<Record> found;
  Records records(delimiter, kMostBreaks);
  std::size_t at = 0, lines = 0;
  while (found.size() < kMostRecords) {
    const std::size_t used = records.next(head.substr(at), at_end);
    if (used == 0) break;
    Record record{{}, at, lines};
    for (const std::string_view field : records.fields()) record.fields.emplace_back(field);
    found.push_back(std::move(record));
    at += used;
    lines += records.lines();
  }
  return found;
}

bool is_blank(const Record& record) {
  return record.fields.size() == 1 && trimmed(record.fields[0]).empty();
}

// How many fields most records have, and how many have that many.
struct Usual {
  std::size_t fields = 0, records = 0, all = 0;
};

Usual usual_of(const std::vector<Record>& records) {
  std::map<std::size_t, std::size_t> counts;
  Usual usual;
  for (const Record& record : records) {
    if (is_blank(record)) continue;
    ++counts[record.fields.size()];
    ++usual.all;
  }
  for (const auto& [fields, count] : counts) {
    if (fields >= 2 && fields <= kMostColumns && count >= usual.records) {
      usual.fields = fields;
      usual.records = count;
    }
  }
  return usual;
}

// A comma may be a decimal comma, hence last: it is the delimiter only where the others cut less
// well.
std::optional<char> delimiter_of(std::string_view head, bool at_end) {
  std::optional<char> best;
  double best_share = 0;
  for (const char delimiter : {'\t', ';', ','}) {
    const Usual usual = usual_of(records_of(head, delimiter, at_end));
    if (usual.fields < 2) continue;
    const double share = static_cast<double>(usual.records) / static_cast<double>(usual.all);
    if (!best || share > best_share + 0.2) {
      best = delimiter;
      best_share = share;
    }
  }
  return best;
}

// A whole number that can be seconds or milliseconds since 1970, from 2001 to 2096.
std::optional<TimeOrder> count_order(std::string_view field) {
  const auto number = read_number(field, '.');
  if (!number || trimmed(field).find_first_of("eE") != std::string_view::npos) return std::nullopt;
  if (*number >= 1e9 && *number < 4e9) return TimeOrder::kSeconds;
  if (*number >= 1e12 && *number < 4e12) return TimeOrder::kMilliseconds;
  return std::nullopt;
}

bool is_clock(std::string_view field) {
  return field.find(':') != std::string_view::npos && read_clock(field).has_value();
}

bool is_date(std::string_view field, TimeOrder order) {
  return field.find_first_of("-/. ") != std::string_view::npos || trimmed(field).size() == 8
             ? read_date(field, order).has_value()
             : false;
}

bool has_a_time(const Record& record) {
  bool date = false, clock = false;
  for (const std::string& field : record.fields) {
    if (count_order(field)) return true;
    clock = clock || is_clock(field);
    for (const TimeOrder order : kWrittenOrders) {
      if (read_moment(field, order)) return true;
      date = date || is_date(field, order);
    }
  }
  return date && clock;
}

bool looks_like_header(const Record& record) {
  return std::none_of(record.fields.begin(), record.fields.end(), [](const std::string& field) {
    return read_number(field, '.') || read_number(field, ',') || is_clock(field);
  });
}

// "64.4 °C"
bool is_number_with_unit(std::string_view field) {
  const std::size_t end = field.find_last_of("0123456789");
  return end != std::string_view::npos && measure::find_unit(field.substr(end + 1)) != nullptr &&
         (read_number(field.substr(0, end + 1), '.') || read_number(field.substr(0, end + 1), ','));
}

using Values = std::vector<std::string_view>;

// How many values are of a sort. A slip or two in a column does not change what the column is.
template <class Is>
std::size_t count_of(const Values& values, Is is) {
  return static_cast<std::size_t>(std::count_if(values.begin(), values.end(), is));
}

bool is_most(std::size_t count, const Values& values) {
  return count * 5 >= values.size() * 4;
}

// Of written dates: the orders that fit most values, and as many as any other; only the year-first
// one where it does, since it fits none by chance.
template <class Fits>
std::vector<TimeOrder> orders_of(const Values& values, Fits fits) {
  std::vector<TimeOrder> orders;
  std::size_t best = 0;
  for (const TimeOrder order : kWrittenOrders) {
    const std::size_t count =
        count_of(values, [&](std::string_view value) { return bool{fits(value, order)}; });
    if (!is_most(count, values) || count < best) continue;
    if (count > best) orders.clear();
    best = count;
    orders.push_back(order);
    if (order == TimeOrder::kYearFirst) break;
  }
  return orders;
}

std::vector<TimeOrder> count_orders_of(const Values& values) {
  for (const TimeOrder order : {TimeOrder::kSeconds, TimeOrder::kMilliseconds}) {
    const std::size_t count =
        count_of(values, [&](std::string_view value) { return count_order(value) == order; });
    if (is_most(count, values)) return {order};
  }
  return {};
}

void look_at(const Values& values, char decimal, LayoutColumn& column) {
  if (values.empty()) return;
  const auto most = [&](auto is) { return is_most(count_of(values, is), values); };
  column.orders = count_orders_of(values);
  if (column.orders.empty()) {
    column.orders = orders_of(values, [](std::string_view value, TimeOrder order) {
      return read_moment(value, order).has_value();
    });
  }
  if (!column.orders.empty()) {
    column.looks = Looks::kMoment;
    return;
  }
  column.orders = orders_of(values, is_date);
  const bool number = most([&](auto value) { return read_number(value, decimal).has_value(); });
  const bool named_date = measure::folded(column.name).find("date") != std::string::npos;
  if (!column.orders.empty() && (!number || named_date)) {
    column.looks = Looks::kDate;
    return;
  }
  column.orders.clear();
  if (most(is_clock)) {
    column.looks = Looks::kClock;
  } else if (number || most(is_number_with_unit)) {
    column.looks = Looks::kNumber;
  } else if (most([](auto value) { return measure::find_unit(value) != nullptr; })) {
    column.looks = Looks::kUnit;
  } else {
    column.looks = Looks::kText;
  }
  std::set<std::string_view> different(values.begin(), values.end());
  if (different.size() > kFew) return;
  for (const std::string_view value : different) column.few.push_back(measure::inert(value));
}

char decimal_of(const std::vector<Record>& records, std::size_t from, char delimiter) {
  if (delimiter == ',') return '.';
  for (std::size_t i = from; i < records.size(); ++i) {
    for (const std::string& field : records[i].fields) {
      if (field.find('.') != std::string::npos && read_number(field, '.')) return '.';
    }
  }
  for (std::size_t i = from; i < records.size(); ++i) {
    for (const std::string& field : records[i].fields) {
      if (field.find(',') != std::string::npos && read_number(field, ',')) return ',';
    }
  }
  return '.';
}

// The header: the rows of words right above the first row, the topmost of them the names; units may
// stand below them.
void name_columns(const std::vector<Record>& records, std::size_t first, std::size_t fields,
                  Layout& layout) {
  std::size_t top = first;
  while (top > 0 && first - top < 3 && records[top - 1].fields.size() == fields &&
         looks_like_header(records[top - 1])) {
    --top;
  }
  layout.has_header = top < first;
  std::set<std::string> taken;
  for (std::size_t i = 0; i < fields; ++i) {
    LayoutColumn column;
    if (layout.has_header) column.name = measure::inert(trimmed(records[top].fields[i]));
    for (std::size_t row = top; row < first && column.unit.empty(); ++row) {
      const std::string_view text = trimmed(records[row].fields[i]);
      const measure::Unit* alone = row > top ? measure::find_unit(text) : nullptr;
      column.unit = alone != nullptr ? std::string(alone->symbol) : unit_in_header(text);
    }
    if (column.name.empty()) column.name = "col" + std::to_string(i + 1);
    const std::string name = column.name;
    for (int nth = 2; !taken.insert(column.name).second; ++nth) {
      column.name = name + " (" + std::to_string(nth) + ")";
    }
    layout.columns.push_back(std::move(column));
  }
}

// Whether the first column of moments goes down from the first row to the last.
bool goes_backward(const std::vector<const Record*>& rows, const Layout& layout) {
  for (std::size_t i = 0; i < layout.columns.size(); ++i) {
    const LayoutColumn& column = layout.columns[i];
    const bool is_time = column.looks == Looks::kMoment || column.looks == Looks::kDate;
    if (!is_time) continue;
    std::optional<std::int64_t> first, last;
    for (const Record* row : rows) {
      std::optional<std::int64_t> at;
      if (column.looks == Looks::kMoment) {
        const auto moment = read_moment(row->fields[i], column.orders[0]);
        if (moment) at = moment->seconds;
      } else {
        at = read_date(row->fields[i], column.orders[0]);
      }
      if (!first) first = at;
      if (at) last = at;
    }
    if (first && last && *first != *last) return *last < *first;
  }
  return false;
}

}  // namespace

std::string unit_in_header(std::string_view header) {
  const auto symbol = [](std::string_view text) {
    const measure::Unit* unit = measure::find_unit(trimmed(text));
    return unit == nullptr ? std::string() : std::string(unit->symbol);
  };
  for (const auto& [open, close] : {std::pair{'(', ')'}, std::pair{'[', ']'}}) {
    const std::size_t begin = header.rfind(open);
    const std::size_t end = begin == std::string_view::npos ? begin : header.find(close, begin);
    if (end == std::string_view::npos) continue;
    if (auto found = symbol(header.substr(begin + 1, end - begin - 1)); !found.empty())
      return found;
  }
  const std::size_t last = header.find_last_of(" _,/");
  if (last == std::string_view::npos) return {};
  const std::string_view word = header.substr(last + 1);
  // A letter alone is a unit only behind a word for warmth: "temp F", but not "probe C".
  const std::string before = measure::folded(header.substr(0, last));
  const bool warmth = before.find("temp") != std::string::npos;
  const bool plain_letter = word.size() == 1;
  if (plain_letter && !warmth) return {};
  return symbol(word);
}

Layout find_layout(std::string_view head, bool at_end) {
  Layout layout;
  const std::size_t begin = head.find_first_not_of(" \t\r\n");
  if (begin != std::string_view::npos && head[begin] == '{') {
    layout.json = true;
    return layout;
  }
  const auto delimiter = delimiter_of(head, at_end);
  if (!delimiter) return layout;
  layout.delimiter = *delimiter;
  const std::vector<Record> records = records_of(head, *delimiter, at_end);
  const std::size_t fields = usual_of(records).fields;
  std::size_t first = 0;
  while (first < records.size() &&
         (records[first].fields.size() != fields || !has_a_time(records[first]))) {
    ++first;
  }
  if (first == records.size()) return layout;
  layout.data_from = records[first].at;
  layout.lines_before = records[first].lines_before;
  layout.decimal = decimal_of(records, first, *delimiter);
  name_columns(records, first, fields, layout);
  std::vector<const Record*> rows;
  for (std::size_t i = first; i < records.size(); ++i) {
    if (records[i].fields.size() == fields) rows.push_back(&records[i]);
  }
  for (std::size_t i = 0; i < fields; ++i) {
    Values values;
    for (const Record* row : rows) {
      if (!is_missing(row->fields[i])) values.push_back(trimmed(row->fields[i]));
    }
    look_at(values, layout.decimal, layout.columns[i]);
  }
  layout.backward = goes_backward(rows, layout);
  for (std::size_t i = 0; i < std::min<std::size_t>(rows.size(), 3); ++i) {
    layout.sample.push_back(rows[i]->fields);
  }
  return layout;
}

}  // namespace book
