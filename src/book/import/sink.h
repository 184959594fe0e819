#pragma once

#include <functional>
#include <map>
#include <vector>

#include "book/import/book.h"
#include "book/import/marks.h"
#include "book/import/rows.h"

namespace book {

// The entry that an import writes: readings in any number, in constant memory, in one transaction.
// Nothing is kept unless commit() was called.
class ImportSink {
 public:
  // A reading that the logbook or the file itself has with another value at that moment.
  struct Conflict {
    std::uint64_t line;
    std::uint32_t target;
    std::int64_t at;
    double standing, value;  // base unit
  };

  // `targets`: those that readings point to; it may grow, and must outlive the sink.
  ImportSink(Logbook& logbook, const Typed& typed, const std::vector<Target>& targets,
             std::function<void(const Conflict&)> on_conflict);
  ~ImportSink();
  ImportSink(const ImportSink&) = delete;
  ImportSink& operator=(const ImportSink&) = delete;

  void add(const RowReading& reading, std::int64_t at, std::uint64_t line);
  // Writes what has been added so far.
  void flush();
  const Pen& pen() const { return pen_; }
  std::uint64_t recorded() const { return recorded_; }
  std::uint64_t already() const { return already_; }
  std::uint64_t marked() const { return marked_; }
  void commit();

 private:
  struct Row {
    std::int64_t at;
    double value;
    std::uint64_t line;
  };
  // One series that rows go to.
  struct Place {
    std::uint32_t target, run;
    std::int64_t series;  // 0: not looked up yet
    std::vector<Row> rows;
    std::int64_t first_at, last_at, count;  // recorded
  };
  // Turns off what a bulk load need not check twice, and puts it back at the end.
  struct Settings {
    explicit Settings(Logbook& logbook);
    ~Settings();
    Logbook& logbook;
  };

  void make_places();
  void look_up(Place& place);
  void flush(Place& place);
  void write(Place& place, const std::vector<Row>& unmarked);
  void roll(Place& place, const std::vector<Row>& unmarked);
  void note_marked(Place& place, const Row& row, Mark mark);
  Marker marker_for(const Place& place, std::int64_t before) const;
  void keep_spans();

  Settings settings_;
  Logbook& logbook_;
  Pen pen_;
  const std::vector<Target>& targets_;
  std::function<void(const Conflict&)> on_conflict_;
  std::vector<std::vector<Place>> places_;  // by target and run
  std::size_t buffered_ = 0;
  std::uint64_t recorded_ = 0, already_ = 0, marked_ = 0;
};

}  // namespace book
