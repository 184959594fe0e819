#include "book/read/query.h"

#include <cassert>

#include "book/file/error.h"
#include "book/file/journal.h"
#include "measure/text.h"

namespace book {

void Query::prepare(std::optional<std::size_t> parameters) {
  try {
    keep_journal(connection_.database, changed_table(text_));
    const auto found = connection_.idle.find(text_);
    if (found != connection_.idle.end()) {
      statement_ = std::move(found->second);
      connection_.idle.erase(found);
    } else {
      statement_ = std::make_unique<SQLite::Statement>(connection_.database, text_);
    }
  } catch (const SQLite::Exception& error) {
    fail(connection_.path, error);
  }
  assert(!parameters ||
         static_cast<std::size_t>(statement_->getBindParameterCount()) == *parameters);
  (void)parameters;
}

Query::~Query() {
  if (statement_ == nullptr || statement_->tryReset() != SQLite::OK) return;
  connection_.idle.emplace(text_, std::move(statement_));
}

bool Query::next() {
  if (statement_->isDone()) return false;  // SQLiteCpp takes a step after the last row for an error
  try {
    return statement_->executeStep();
  } catch (const SQLite::Exception& error) {
    fail(connection_.path, error);
  }
}

void Query::bind(int index, std::int64_t value) {
  statement_->bind(index, value);
}
void Query::bind(int index, double value) {
  statement_->bind(index, value);
}
void Query::bind(int index, std::string_view value) {
  if (!measure::is_clean_text(value)) {
    throw BookError(measure::quoted(value) + " holds a control character or is not UTF-8 text");
  }
  statement_->bind(index, std::string(value));
}
void Query::bind(int index, Lines value) {
  if (!measure::is_clean_lines(value.text)) {
    throw BookError(measure::quoted(value.text) +
                    " holds a control character or is not UTF-8 text");
  }
  statement_->bind(index, std::string(value.text));
}
void Query::bind_null(int index) {
  statement_->bind(index);
}

bool Query::null(int column) const {
  return statement_->isColumnNull(column);
}
std::int64_t Query::integer(int column) const {
  return statement_->getColumn(column).getInt64();
}
double Query::real(int column) const {
  return statement_->getColumn(column).getDouble();
}
std::string Query::lines(int column) const {
  return measure::inert_lines(statement_->getColumn(column).getString());
}
std::string Query::text(int column) const {
  return measure::inert(statement_->getColumn(column).getString());
}

std::optional<std::int64_t> Query::maybe_integer(int column) const {
  return null(column) ? std::nullopt : std::optional(integer(column));
}

std::optional<double> Query::maybe_real(int column) const {
  return null(column) ? std::nullopt : std::optional(real(column));
}

measure::Instant Query::instant(int column) const {
  return measure::Instant{std::chrono::seconds{integer(column)}};
}

measure::Day Query::day(int column) const {
  return measure::Day{date::days{static_cast<int>(integer(column))}};
}

}  // namespace book
