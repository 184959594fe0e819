-- Schema 2: readings from files.
--
-- A value that a logger got wrong is recorded as it is and marked; what is marked stays out of the daily
-- roll-ups, and so out of everything that is judged. An import can be taken back whole: its readings move
-- to their own table, and the journal has no row for each of them.

ALTER TABLE reading ADD COLUMN mark TEXT;  -- 'implausible', 'stuck' or 'jump'; NULL: none
ALTER TABLE pen ADD COLUMN moving INTEGER NOT NULL DEFAULT 0;  -- 1: readings deleted now are kept in taken_back_reading

CREATE TABLE day_mark (                   -- derived: the marked readings of a series on one day
  series INTEGER NOT NULL REFERENCES series,
  day INTEGER NOT NULL,                   -- day
  mark TEXT NOT NULL,
  n INTEGER NOT NULL,                     -- readings
  least REAL NOT NULL,
  greatest REAL NOT NULL,
  first_at INTEGER NOT NULL,              -- instant of the first
  last_at INTEGER NOT NULL,               -- instant of the last
  PRIMARY KEY (series, day, mark)
) STRICT, WITHOUT ROWID;

CREATE TABLE mapping (                    -- what the columns of a file mean, under a name: import --as NAME
  name TEXT PRIMARY KEY,                  -- 'shed-logger'
  columns TEXT NOT NULL,                  -- one line a fact: see book/import_mapping.h
  entry INTEGER NOT NULL REFERENCES entry
) STRICT, WITHOUT ROWID;

CREATE TABLE import (                     -- an entry that took readings out of a file
  entry INTEGER PRIMARY KEY REFERENCES entry,
  file TEXT NOT NULL,                     -- as typed; '-': standard input
  mapping TEXT NOT NULL,                  -- its name; '': none
  rows INTEGER NOT NULL,                  -- read this time
  recorded INTEGER NOT NULL,              -- readings that were new
  already INTEGER NOT NULL,               -- readings that stood already
  refused INTEGER NOT NULL                -- rows
) STRICT;

CREATE TABLE import_span (                -- what an import added to one series
  id INTEGER PRIMARY KEY,
  entry INTEGER NOT NULL REFERENCES entry,
  series INTEGER,                         -- NULL: taken back, and the readings are in taken_back_reading
  batch_uid TEXT NOT NULL,                -- whose series it was, for when the series is gone
  quantity TEXT NOT NULL,
  position TEXT NOT NULL,
  first_at INTEGER NOT NULL,              -- instant
  last_at INTEGER NOT NULL,               -- instant
  n INTEGER NOT NULL
) STRICT;
CREATE INDEX import_span_of ON import_span (entry);

CREATE TABLE taken_back_reading (         -- readings of an import that was taken back, as they were
  span INTEGER NOT NULL REFERENCES import_span,
  at INTEGER NOT NULL,                    -- instant
  value REAL NOT NULL,                    -- in the quantity's base unit
  sure INTEGER NOT NULL,
  mark TEXT,
  PRIMARY KEY (span, at)
) STRICT, WITHOUT ROWID;

CREATE TABLE import_file (                -- how far a file was read, so that a growing one goes on from there
  path TEXT PRIMARY KEY,                  -- absolute
  mapping TEXT NOT NULL,
  read_to INTEGER NOT NULL,               -- bytes: the end of the last whole line
  lines INTEGER NOT NULL,                 -- lines up to there
  print TEXT NOT NULL,                    -- of its first and last bytes up to there: is it the same file?
  entry INTEGER NOT NULL REFERENCES entry
) STRICT, WITHOUT ROWID;

DROP TRIGGER reading_changed;
DROP TRIGGER reading_taken_back;
CREATE TRIGGER reading_changed AFTER UPDATE ON reading BEGIN
  INSERT INTO journal (entry, table_name, before, after) VALUES (
    (SELECT entry FROM pen), 'reading',
    '{"series":' || coalesce(OLD.series, 'null') ||
    ',"at":' || coalesce(OLD.at, 'null') ||
    ',"value":' || iif(OLD.value IS NULL, 'null', quote(OLD.value)) ||
    ',"entry":' || coalesce(OLD.entry, 'null') ||
    ',"sure":' || coalesce(OLD.sure, 'null') ||
    ',"mark":' || coalesce('"' || OLD.mark || '"', 'null') || '}',
    '{"series":' || coalesce(NEW.series, 'null') ||
    ',"at":' || coalesce(NEW.at, 'null') ||
    ',"value":' || iif(NEW.value IS NULL, 'null', quote(NEW.value)) ||
    ',"entry":' || coalesce(NEW.entry, 'null') ||
    ',"sure":' || coalesce(NEW.sure, 'null') ||
    ',"mark":' || coalesce('"' || NEW.mark || '"', 'null') || '}');
END;
CREATE TRIGGER reading_taken_back AFTER DELETE ON reading WHEN (SELECT moving FROM pen) = 0 BEGIN
  INSERT INTO journal (entry, table_name, before, after) VALUES (
    (SELECT entry FROM pen), 'reading',
    '{"series":' || coalesce(OLD.series, 'null') ||
    ',"at":' || coalesce(OLD.at, 'null') ||
    ',"value":' || iif(OLD.value IS NULL, 'null', quote(OLD.value)) ||
    ',"entry":' || coalesce(OLD.entry, 'null') ||
    ',"sure":' || coalesce(OLD.sure, 'null') ||
    ',"mark":' || coalesce('"' || OLD.mark || '"', 'null') || '}',
    NULL);
END;
CREATE TRIGGER mapping_changed AFTER UPDATE ON mapping BEGIN
  INSERT INTO journal (entry, table_name, before, after) VALUES (
    (SELECT entry FROM pen), 'mapping',
    '{"name":' || coalesce('"' || replace(replace(OLD.name, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"columns":' || coalesce('"' || replace(replace(replace(replace(OLD.columns, '\', '\\'), '"', '\"'), char(10), '\n'), char(9), '\t') || '"', 'null') ||
    ',"entry":' || coalesce(OLD.entry, 'null') || '}',
    '{"name":' || coalesce('"' || replace(replace(NEW.name, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"columns":' || coalesce('"' || replace(replace(replace(replace(NEW.columns, '\', '\\'), '"', '\"'), char(10), '\n'), char(9), '\t') || '"', 'null') ||
    ',"entry":' || coalesce(NEW.entry, 'null') || '}');
END;
CREATE TRIGGER mapping_taken_back AFTER DELETE ON mapping BEGIN
  INSERT INTO journal (entry, table_name, before, after) VALUES (
    (SELECT entry FROM pen), 'mapping',
    '{"name":' || coalesce('"' || replace(replace(OLD.name, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"columns":' || coalesce('"' || replace(replace(replace(replace(OLD.columns, '\', '\\'), '"', '\"'), char(10), '\n'), char(9), '\t') || '"', 'null') ||
    ',"entry":' || coalesce(OLD.entry, 'null') || '}',
    NULL);
END;
