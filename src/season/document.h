#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "measure/moment.h"

// A document for someone outside, as one value: the printable page and the tables of data are two
// ways of writing it, so that they cannot differ.
namespace season {

struct DocumentColumn {
  enum class Type { kText, kNumber, kWhole, kDay, kMoment };
  std::string name;     // of the field: "mass_kg"
  std::string heading;  // on the page; empty: it is in the data alone
  std::string meaning;
  Type type = Type::kText;
};

// What a page shows; and what the data has where that is not the same: a number, a day or a moment
// in ISO 8601. Neither: not known, or not said.
struct DocumentCell {
  std::string shown;
  std::optional<double> number = {};
  std::optional<std::string> data = {};
};

struct DocumentTable {
  std::string key;  // a file's name: "loads-in"
  std::string title;
  std::vector<DocumentColumn> columns;
  std::vector<std::vector<DocumentCell>> rows;
  std::string none;  // what is said where it has no row; empty: then it is left out
};

struct DocumentPart {
  std::string title;
  std::vector<std::string> says;                           // the most important first
  std::vector<std::pair<std::string, std::string>> facts;  // name, value
  std::vector<DocumentTable> tables;
  bool new_page = false;
};

struct Document {
  std::string site;
  std::string title;  // "Record of heap-1"
  std::string span;   // "12 April to 4 June 2025"
  std::string made;   // when, by the site's clock
  std::string key;    // what its files' names begin with
  std::vector<DocumentPart> parts;
};

DocumentCell day_cell(measure::Day day);
// "12 Apr 2025, 07:08".
DocumentCell moment_cell(measure::Instant at, const measure::Zone& zone);
DocumentCell number_cell(double number, std::string shown);

}  // namespace season
