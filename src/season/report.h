#pragma once

#include <optional>
#include <string>
#include <vector>

#include "measure/moment.h"

// The season report as one value: terminal, CSV, JSON and HTML are four ways of writing it, so that
// a number cannot differ between them. Texts are plain; who writes them out escapes them.
namespace season {

// One number with all that is needed to believe it.
struct Figure {
  std::string key;   // stable: "came.brought"
  std::string of;    // the batch, material or product it is of; empty: the site
  std::string name;  // in words
  double si{};       // in `unit`, a base unit
  std::string unit;
  std::string shown;                // in the units asked for; "~" leads what leans on an estimate
  std::string basis;                // what it rests on and leaves out; empty: all is recorded
  std::optional<bool> estimated;    // none: the basis says what there is to say
  std::optional<double> low, high;  // none: not known to be a range
  std::optional<double> before;     // the same of the span before; none: not compared
  std::string before_shown;
  // ISO 8601; of a figure over a batch's life: its first day, and the last that it counts. Empty:
  // the report's own span.
  std::string since = {}, until = {};
};

// A cell is a text, or a figure and its shown text.
struct Cell {
  std::string text;
  std::optional<Figure> figure;
};

struct Column {
  enum class Role {
    kText,
    kNumber,
    kAside,  // a remark on the row, which a narrow page sets below it
  };
  std::string name;
  Role role = Role::kText;
};

// The first column heads its row.
struct ReportTable {
  std::string key;
  std::string caption;
  std::vector<Column> columns;
  std::vector<std::vector<Cell>> rows;
  bool totalled = false;  // the last row sums those above
  bool appendix = false;  // long: a terminal leaves it to the other forms
};

// Readings over time, thinned for drawing; every peak is kept, since each point holds the least and
// the greatest of what it stands for. Moments are the site's own clock.
struct PlotPoint {
  date::local_seconds at;
  double least{}, mean{}, greatest{};  // in the plot's unit
};
struct PlotLine {
  std::string name;  // the probe position
  std::vector<PlotPoint> points;
};
struct PlotLimit {
  double value{};  // in the plot's unit
  std::string says;
};
struct PlotMark {
  date::local_seconds at;
  std::string says;  // "turned"
};
struct TimePlot {
  std::string of;  // the batch
  std::string title;
  std::string unit;
  std::vector<PlotLine> lines;
  std::vector<PlotLimit> limits;
  std::vector<PlotMark> marks;
  std::string says;  // the picture in words
};

// One product's amounts, a month a bar.
struct Bar {
  std::string month;  // "Mar 2026"
  double value{};     // in the bars' unit
  std::string shown;
};
struct Bars {
  std::string of;
  std::string unit;  // of the values, as shown: lb, kg; empty: things counted
  std::vector<Bar> bars;
  std::string says;
};

// What went from where to where. A link back to where it came from is a loop.
struct FlowPicture {
  struct Link {
    std::size_t from{}, to{};  // into `ends`
    double kilograms{};
    std::string shown;
  };
  std::vector<std::string> ends;
  std::vector<Link> links;
  std::string says;
};

// Amounts in rows and months: each as a disc of its size.
struct MonthGrid {
  struct Row {
    std::string name;
    std::vector<double> values;  // a month each
    std::vector<std::string> shown;
  };
  std::string title;
  std::vector<std::string> months;  // "Mar"
  std::vector<Row> rows;
  std::string says;
};

// Two or more figures of one unit in bars beside each other; each row has a scale of its own.
struct Beside {
  struct Bar {
    std::string name;
    double value{};
    std::string shown;
  };
  struct Row {
    std::string name;
    std::vector<Bar> bars;
  };
  std::string title;
  std::vector<Row> rows;
  std::string says;
};

// From when to when batches were alive within the span, in shares of it.
struct Lives {
  struct Row {
    std::string name;
    double from{}, to{};
    bool open = false;
    std::string says;
  };
  std::string title;
  std::vector<std::pair<double, std::string>> months;  // where each begins
  std::vector<Row> rows;
  std::string says;
};

// What a visitor reads first, and the report in a few chapters. The numbers are those of the
// sections, in words.
struct Chapter {
  std::string key, title;
  std::string says;                   // its sentence
  std::vector<std::string> sections;  // keys of those that it opens
  std::optional<MonthGrid> grid;
  std::optional<Lives> lives;
  std::vector<Beside> beside;
};
struct Front {
  struct Large {
    std::string name, shown, before;  // before: empty: not compared
  };
  std::vector<std::string> says;
  std::vector<Large> figures;
  std::vector<Chapter> chapters;
};

struct Section {
  std::string key;
  std::string title;
  std::vector<std::string> says;
  std::vector<Figure> figures;
  std::vector<ReportTable> tables;
  std::vector<TimePlot> plots;
  std::vector<Bars> bars;
  std::optional<FlowPicture> flow;
};

struct Report {
  std::string site;
  std::string span;      // in words
  std::string compared;  // with which span; empty: with none
  std::string from, to;  // ISO 8601
  int days{};
  std::string made;  // when, by the site's clock
  std::string zone;
  std::vector<Section> sections;
  Front front;
};

// Every figure of a section in the order in which it is read: those that stand alone, then those in
// its tables.
std::vector<const Figure*> all_figures(const Section& section);

}  // namespace season
