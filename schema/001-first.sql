-- Schema 1 of a roundbook logbook.
--
-- Units: temperatures degC, masses kg, volumes L, areas m2, lengths m, shares 0 to 1, pressures kPa,
-- energies kWh. An instant (…_at) is seconds since 1970-01-01T00:00:00Z. A day is days since 1970-01-01
-- on the site's own clock. Keys that name a thing are text and never change their meaning.
--
-- What people record carries a random uid, so that two copies of a logbook can be merged. What stands in
-- a table is what holds now; what held before stands in the journal, written by triggers.

CREATE TABLE site (                       -- one row
  id INTEGER PRIMARY KEY CHECK (id = 1),
  uid TEXT NOT NULL,                      -- 16 random bytes, hexadecimal
  name TEXT NOT NULL,
  zone TEXT NOT NULL,                     -- IANA time zone
  units TEXT NOT NULL CHECK (units IN ('us', 'metric')),  -- for showing, and for bare numbers
  latitude REAL,                          -- degrees, north positive
  made_at INTEGER NOT NULL                -- instant
) STRICT;

CREATE TABLE entry (                      -- one command line that recorded something: the unit of undo
  id INTEGER PRIMARY KEY,
  uid TEXT NOT NULL UNIQUE,
  recorded_at INTEGER NOT NULL,           -- instant, by the computer's clock
  who TEXT NOT NULL,                      -- the system's name for the person
  command TEXT NOT NULL,                  -- 'log', 'add', ...
  line TEXT NOT NULL,                     -- as typed
  undone_by INTEGER REFERENCES entry      -- the entry that took it back; NULL: it holds
) STRICT;

CREATE TABLE place (
  id INTEGER PRIMARY KEY,
  uid TEXT NOT NULL UNIQUE,
  name TEXT NOT NULL UNIQUE,
  position INTEGER NOT NULL,              -- in walking order
  entry INTEGER NOT NULL REFERENCES entry
) STRICT;

CREATE TABLE batch (
  id INTEGER PRIMARY KEY,
  uid TEXT NOT NULL UNIQUE,
  code TEXT NOT NULL,                     -- 'heap-3'
  run INTEGER NOT NULL,                   -- 1 for the first batch of that code, 2 for the next, ...
  kind TEXT NOT NULL,                     -- 'pile', ...
  place INTEGER REFERENCES place,
  started_at INTEGER NOT NULL,            -- instant
  started_day INTEGER NOT NULL,           -- day
  ended_at INTEGER,                       -- instant; NULL: open
  ended_day INTEGER,                      -- day
  because TEXT,                           -- why it ended
  entry INTEGER NOT NULL REFERENCES entry,
  UNIQUE (code, run)
) STRICT;
CREATE UNIQUE INDEX open_code ON batch (code) WHERE ended_at IS NULL;

CREATE TABLE setting (                    -- a fact told of a batch when it was started
  batch INTEGER NOT NULL REFERENCES batch,
  key TEXT NOT NULL,                      -- 'method', 'volume', ...
  typed TEXT NOT NULL,                    -- as typed
  value REAL,                             -- in its base unit, where it is a number
  dimension TEXT,                         -- 'volume', ... of that number
  entry INTEGER NOT NULL REFERENCES entry,
  PRIMARY KEY (batch, key)
) STRICT, WITHOUT ROWID;

CREATE TABLE series (                     -- a quantity of a batch at one probe position
  id INTEGER PRIMARY KEY,
  uid TEXT NOT NULL UNIQUE,
  batch INTEGER NOT NULL REFERENCES batch,
  quantity TEXT NOT NULL,                 -- 'temperature', ...
  position TEXT NOT NULL,                 -- 'core'; '': none said
  UNIQUE (batch, quantity, position)
) STRICT;

CREATE TABLE reading (
  series INTEGER NOT NULL REFERENCES series,
  at INTEGER NOT NULL,                    -- instant
  value REAL NOT NULL,                    -- in the quantity's base unit
  entry INTEGER NOT NULL REFERENCES entry,
  sure INTEGER NOT NULL DEFAULT 0,        -- 1: implausible, and recorded on the person's word
  PRIMARY KEY (series, at)
) STRICT, WITHOUT ROWID;

CREATE TABLE day_roll (                   -- derived: the readings of a series on one day
  series INTEGER NOT NULL REFERENCES series,
  day INTEGER NOT NULL,                   -- day
  n INTEGER NOT NULL,                     -- readings
  least REAL NOT NULL,
  greatest REAL NOT NULL,
  total REAL NOT NULL,                    -- their sum
  last_at INTEGER NOT NULL,               -- instant of the last
  last REAL NOT NULL,                     -- its value
  PRIMARY KEY (series, day)
) STRICT, WITHOUT ROWID;

CREATE TABLE movement (                   -- an amount of a material carried from somewhere to somewhere
  id INTEGER PRIMARY KEY,
  uid TEXT NOT NULL UNIQUE,
  at INTEGER NOT NULL,                    -- instant
  day INTEGER NOT NULL,                   -- day
  material TEXT NOT NULL,                 -- the material's own name, never an alias
  from_batch INTEGER REFERENCES batch,    -- NULL: from outside
  to_batch INTEGER REFERENCES batch,      -- NULL: away
  dimension TEXT NOT NULL CHECK (dimension IN ('mass', 'volume', 'count', 'energy')),
  amount REAL NOT NULL CHECK (amount > 0),  -- kg, L, 1 or kWh: as it was measured
  typed TEXT NOT NULL,                    -- '2 bucket'
  purpose TEXT,                           -- what it was for
  paid_cents INTEGER,                     -- hundredths of the site's money
  sold_cents INTEGER,
  sure INTEGER NOT NULL DEFAULT 0,        -- 1: recorded over an objection, on the person's word
  entry INTEGER NOT NULL REFERENCES entry,
  CHECK (from_batch IS NOT NULL OR to_batch IS NOT NULL)
) STRICT;
CREATE INDEX movement_from ON movement (from_batch, at);
CREATE INDEX movement_to ON movement (to_batch, at);

CREATE TABLE deed (                       -- something done to a batch, or a judgement by hand
  id INTEGER PRIMARY KEY,
  uid TEXT NOT NULL UNIQUE,
  batch INTEGER NOT NULL REFERENCES batch,
  at INTEGER NOT NULL,                    -- instant
  day INTEGER NOT NULL,                   -- day
  sense TEXT NOT NULL,                    -- what was judged: 'moisture', 'smell'; '': a deed
  word TEXT NOT NULL,                     -- 'turned'; 'soggy'
  entry INTEGER NOT NULL REFERENCES entry
) STRICT;
CREATE INDEX deed_of ON deed (batch, at);

CREATE TABLE note (
  id INTEGER PRIMARY KEY,
  uid TEXT NOT NULL UNIQUE,
  batch INTEGER NOT NULL REFERENCES batch,
  at INTEGER NOT NULL,                    -- instant
  day INTEGER NOT NULL,                   -- day
  text TEXT NOT NULL,
  entry INTEGER NOT NULL REFERENCES entry
) STRICT;
CREATE INDEX note_of ON note (batch, at);

CREATE TABLE material (                   -- a material of the site's own, beside the catalogue's
  name TEXT PRIMARY KEY,
  material_group TEXT NOT NULL,           -- 'brown', ...
  aliases TEXT NOT NULL,                  -- separated by ';'
  flags TEXT NOT NULL,                    -- separated by ';'
  entry INTEGER NOT NULL REFERENCES entry
) STRICT, WITHOUT ROWID;

CREATE TABLE figure (                     -- the site's own figure for a material: an analysis
  material TEXT NOT NULL,
  property TEXT NOT NULL,                 -- 'moisture', ...
  value REAL NOT NULL,                    -- fractions 0 to 1; kg/m3; m3/kg; ratio
  source TEXT NOT NULL,                   -- 'laboratory 2026-03-01', ...
  entry INTEGER NOT NULL REFERENCES entry,
  PRIMARY KEY (material, property)
) STRICT, WITHOUT ROWID;

CREATE TABLE container (                  -- a vessel the site measures with
  name TEXT PRIMARY KEY,
  litres REAL NOT NULL CHECK (litres > 0),
  typed TEXT NOT NULL,                    -- '5 gal'
  entry INTEGER NOT NULL REFERENCES entry
) STRICT, WITHOUT ROWID;

CREATE TABLE rule (                       -- a threshold that the site has changed
  key TEXT NOT NULL,                      -- 'pile.hot.above'
  batch INTEGER NOT NULL DEFAULT 0,       -- for one batch; 0: for the whole kind
  value REAL NOT NULL,                    -- in the threshold's base unit
  typed TEXT NOT NULL,
  entry INTEGER NOT NULL REFERENCES entry,
  PRIMARY KEY (key, batch)
) STRICT, WITHOUT ROWID;

CREATE TABLE pen (                        -- who holds the pen: the entry being written, for the triggers
  id INTEGER PRIMARY KEY CHECK (id = 1),
  entry INTEGER REFERENCES entry          -- NULL: nobody
) STRICT;
INSERT INTO pen (id, entry) VALUES (1, NULL);

CREATE TABLE journal (                    -- every row that was changed or taken back, as it was before
  id INTEGER PRIMARY KEY,
  entry INTEGER NOT NULL REFERENCES entry,  -- the entry that changed it: who, when and why
  table_name TEXT NOT NULL,
  before TEXT NOT NULL,                   -- the whole row as JSON
  after TEXT                              -- the whole row as JSON; NULL: it was taken back
) STRICT;
CREATE INDEX journal_of ON journal (entry);

-- The journal's triggers. They write JSON by hand because a hardened connection (trusted_schema off)
-- lets no trigger call SQLite's JSON functions; quote() writes a real so that it reads back the same.
CREATE TRIGGER place_changed AFTER UPDATE ON place BEGIN
  INSERT INTO journal (entry, table_name, before, after) VALUES (
    (SELECT entry FROM pen), 'place',
    '{"id":' || coalesce(OLD.id, 'null') ||
    ',"uid":' || coalesce('"' || replace(replace(OLD.uid, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"name":' || coalesce('"' || replace(replace(OLD.name, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"position":' || coalesce(OLD.position, 'null') ||
    ',"entry":' || coalesce(OLD.entry, 'null') || '}',
    '{"id":' || coalesce(NEW.id, 'null') ||
    ',"uid":' || coalesce('"' || replace(replace(NEW.uid, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"name":' || coalesce('"' || replace(replace(NEW.name, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"position":' || coalesce(NEW.position, 'null') ||
    ',"entry":' || coalesce(NEW.entry, 'null') || '}');
END;
CREATE TRIGGER place_taken_back AFTER DELETE ON place BEGIN
  INSERT INTO journal (entry, table_name, before, after) VALUES (
    (SELECT entry FROM pen), 'place',
    '{"id":' || coalesce(OLD.id, 'null') ||
    ',"uid":' || coalesce('"' || replace(replace(OLD.uid, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"name":' || coalesce('"' || replace(replace(OLD.name, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"position":' || coalesce(OLD.position, 'null') ||
    ',"entry":' || coalesce(OLD.entry, 'null') || '}',
    NULL);
END;
CREATE TRIGGER batch_changed AFTER UPDATE ON batch BEGIN
  INSERT INTO journal (entry, table_name, before, after) VALUES (
    (SELECT entry FROM pen), 'batch',
    '{"id":' || coalesce(OLD.id, 'null') ||
    ',"uid":' || coalesce('"' || replace(replace(OLD.uid, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"code":' || coalesce('"' || replace(replace(OLD.code, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"run":' || coalesce(OLD.run, 'null') ||
    ',"kind":' || coalesce('"' || replace(replace(OLD.kind, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"place":' || coalesce(OLD.place, 'null') ||
    ',"started_at":' || coalesce(OLD.started_at, 'null') ||
    ',"started_day":' || coalesce(OLD.started_day, 'null') ||
    ',"ended_at":' || coalesce(OLD.ended_at, 'null') ||
    ',"ended_day":' || coalesce(OLD.ended_day, 'null') ||
    ',"because":' || coalesce('"' || replace(replace(OLD.because, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"entry":' || coalesce(OLD.entry, 'null') || '}',
    '{"id":' || coalesce(NEW.id, 'null') ||
    ',"uid":' || coalesce('"' || replace(replace(NEW.uid, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"code":' || coalesce('"' || replace(replace(NEW.code, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"run":' || coalesce(NEW.run, 'null') ||
    ',"kind":' || coalesce('"' || replace(replace(NEW.kind, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"place":' || coalesce(NEW.place, 'null') ||
    ',"started_at":' || coalesce(NEW.started_at, 'null') ||
    ',"started_day":' || coalesce(NEW.started_day, 'null') ||
    ',"ended_at":' || coalesce(NEW.ended_at, 'null') ||
    ',"ended_day":' || coalesce(NEW.ended_day, 'null') ||
    ',"because":' || coalesce('"' || replace(replace(NEW.because, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"entry":' || coalesce(NEW.entry, 'null') || '}');
END;
CREATE TRIGGER batch_taken_back AFTER DELETE ON batch BEGIN
  INSERT INTO journal (entry, table_name, before, after) VALUES (
    (SELECT entry FROM pen), 'batch',
    '{"id":' || coalesce(OLD.id, 'null') ||
    ',"uid":' || coalesce('"' || replace(replace(OLD.uid, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"code":' || coalesce('"' || replace(replace(OLD.code, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"run":' || coalesce(OLD.run, 'null') ||
    ',"kind":' || coalesce('"' || replace(replace(OLD.kind, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"place":' || coalesce(OLD.place, 'null') ||
    ',"started_at":' || coalesce(OLD.started_at, 'null') ||
    ',"started_day":' || coalesce(OLD.started_day, 'null') ||
    ',"ended_at":' || coalesce(OLD.ended_at, 'null') ||
    ',"ended_day":' || coalesce(OLD.ended_day, 'null') ||
    ',"because":' || coalesce('"' || replace(replace(OLD.because, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"entry":' || coalesce(OLD.entry, 'null') || '}',
    NULL);
END;
CREATE TRIGGER setting_changed AFTER UPDATE ON setting BEGIN
  INSERT INTO journal (entry, table_name, before, after) VALUES (
    (SELECT entry FROM pen), 'setting',
    '{"batch":' || coalesce(OLD.batch, 'null') ||
    ',"key":' || coalesce('"' || replace(replace(OLD.key, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"typed":' || coalesce('"' || replace(replace(OLD.typed, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"value":' || iif(OLD.value IS NULL, 'null', quote(OLD.value)) ||
    ',"dimension":' || coalesce('"' || replace(replace(OLD.dimension, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"entry":' || coalesce(OLD.entry, 'null') || '}',
    '{"batch":' || coalesce(NEW.batch, 'null') ||
    ',"key":' || coalesce('"' || replace(replace(NEW.key, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"typed":' || coalesce('"' || replace(replace(NEW.typed, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"value":' || iif(NEW.value IS NULL, 'null', quote(NEW.value)) ||
    ',"dimension":' || coalesce('"' || replace(replace(NEW.dimension, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"entry":' || coalesce(NEW.entry, 'null') || '}');
END;
CREATE TRIGGER setting_taken_back AFTER DELETE ON setting BEGIN
  INSERT INTO journal (entry, table_name, before, after) VALUES (
    (SELECT entry FROM pen), 'setting',
    '{"batch":' || coalesce(OLD.batch, 'null') ||
    ',"key":' || coalesce('"' || replace(replace(OLD.key, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"typed":' || coalesce('"' || replace(replace(OLD.typed, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"value":' || iif(OLD.value IS NULL, 'null', quote(OLD.value)) ||
    ',"dimension":' || coalesce('"' || replace(replace(OLD.dimension, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"entry":' || coalesce(OLD.entry, 'null') || '}',
    NULL);
END;
CREATE TRIGGER reading_changed AFTER UPDATE ON reading BEGIN
  INSERT INTO journal (entry, table_name, before, after) VALUES (
    (SELECT entry FROM pen), 'reading',
    '{"series":' || coalesce(OLD.series, 'null') ||
    ',"at":' || coalesce(OLD.at, 'null') ||
    ',"value":' || iif(OLD.value IS NULL, 'null', quote(OLD.value)) ||
    ',"entry":' || coalesce(OLD.entry, 'null') ||
    ',"sure":' || coalesce(OLD.sure, 'null') || '}',
    '{"series":' || coalesce(NEW.series, 'null') ||
    ',"at":' || coalesce(NEW.at, 'null') ||
    ',"value":' || iif(NEW.value IS NULL, 'null', quote(NEW.value)) ||
    ',"entry":' || coalesce(NEW.entry, 'null') ||
    ',"sure":' || coalesce(NEW.sure, 'null') || '}');
END;
CREATE TRIGGER reading_taken_back AFTER DELETE ON reading BEGIN
  INSERT INTO journal (entry, table_name, before, after) VALUES (
    (SELECT entry FROM pen), 'reading',
    '{"series":' || coalesce(OLD.series, 'null') ||
    ',"at":' || coalesce(OLD.at, 'null') ||
    ',"value":' || iif(OLD.value IS NULL, 'null', quote(OLD.value)) ||
    ',"entry":' || coalesce(OLD.entry, 'null') ||
    ',"sure":' || coalesce(OLD.sure, 'null') || '}',
    NULL);
END;
CREATE TRIGGER movement_changed AFTER UPDATE ON movement BEGIN
  INSERT INTO journal (entry, table_name, before, after) VALUES (
    (SELECT entry FROM pen), 'movement',
    '{"id":' || coalesce(OLD.id, 'null') ||
    ',"uid":' || coalesce('"' || replace(replace(OLD.uid, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"at":' || coalesce(OLD.at, 'null') ||
    ',"day":' || coalesce(OLD.day, 'null') ||
    ',"material":' || coalesce('"' || replace(replace(OLD.material, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"from_batch":' || coalesce(OLD.from_batch, 'null') ||
    ',"to_batch":' || coalesce(OLD.to_batch, 'null') ||
    ',"dimension":' || coalesce('"' || replace(replace(OLD.dimension, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"amount":' || iif(OLD.amount IS NULL, 'null', quote(OLD.amount)) ||
    ',"typed":' || coalesce('"' || replace(replace(OLD.typed, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"purpose":' || coalesce('"' || replace(replace(OLD.purpose, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"paid_cents":' || coalesce(OLD.paid_cents, 'null') ||
    ',"sold_cents":' || coalesce(OLD.sold_cents, 'null') ||
    ',"sure":' || coalesce(OLD.sure, 'null') ||
    ',"entry":' || coalesce(OLD.entry, 'null') || '}',
    '{"id":' || coalesce(NEW.id, 'null') ||
    ',"uid":' || coalesce('"' || replace(replace(NEW.uid, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"at":' || coalesce(NEW.at, 'null') ||
    ',"day":' || coalesce(NEW.day, 'null') ||
    ',"material":' || coalesce('"' || replace(replace(NEW.material, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"from_batch":' || coalesce(NEW.from_batch, 'null') ||
    ',"to_batch":' || coalesce(NEW.to_batch, 'null') ||
    ',"dimension":' || coalesce('"' || replace(replace(NEW.dimension, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"amount":' || iif(NEW.amount IS NULL, 'null', quote(NEW.amount)) ||
    ',"typed":' || coalesce('"' || replace(replace(NEW.typed, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"purpose":' || coalesce('"' || replace(replace(NEW.purpose, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"paid_cents":' || coalesce(NEW.paid_cents, 'null') ||
    ',"sold_cents":' || coalesce(NEW.sold_cents, 'null') ||
    ',"sure":' || coalesce(NEW.sure, 'null') ||
    ',"entry":' || coalesce(NEW.entry, 'null') || '}');
END;
CREATE TRIGGER movement_taken_back AFTER DELETE ON movement BEGIN
  INSERT INTO journal (entry, table_name, before, after) VALUES (
    (SELECT entry FROM pen), 'movement',
    '{"id":' || coalesce(OLD.id, 'null') ||
    ',"uid":' || coalesce('"' || replace(replace(OLD.uid, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"at":' || coalesce(OLD.at, 'null') ||
    ',"day":' || coalesce(OLD.day, 'null') ||
    ',"material":' || coalesce('"' || replace(replace(OLD.material, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"from_batch":' || coalesce(OLD.from_batch, 'null') ||
    ',"to_batch":' || coalesce(OLD.to_batch, 'null') ||
    ',"dimension":' || coalesce('"' || replace(replace(OLD.dimension, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"amount":' || iif(OLD.amount IS NULL, 'null', quote(OLD.amount)) ||
    ',"typed":' || coalesce('"' || replace(replace(OLD.typed, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"purpose":' || coalesce('"' || replace(replace(OLD.purpose, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"paid_cents":' || coalesce(OLD.paid_cents, 'null') ||
    ',"sold_cents":' || coalesce(OLD.sold_cents, 'null') ||
    ',"sure":' || coalesce(OLD.sure, 'null') ||
    ',"entry":' || coalesce(OLD.entry, 'null') || '}',
    NULL);
END;
CREATE TRIGGER deed_changed AFTER UPDATE ON deed BEGIN
  INSERT INTO journal (entry, table_name, before, after) VALUES (
    (SELECT entry FROM pen), 'deed',
    '{"id":' || coalesce(OLD.id, 'null') ||
    ',"uid":' || coalesce('"' || replace(replace(OLD.uid, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"batch":' || coalesce(OLD.batch, 'null') ||
    ',"at":' || coalesce(OLD.at, 'null') ||
    ',"day":' || coalesce(OLD.day, 'null') ||
    ',"sense":' || coalesce('"' || replace(replace(OLD.sense, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"word":' || coalesce('"' || replace(replace(OLD.word, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"entry":' || coalesce(OLD.entry, 'null') || '}',
    '{"id":' || coalesce(NEW.id, 'null') ||
    ',"uid":' || coalesce('"' || replace(replace(NEW.uid, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"batch":' || coalesce(NEW.batch, 'null') ||
    ',"at":' || coalesce(NEW.at, 'null') ||
    ',"day":' || coalesce(NEW.day, 'null') ||
    ',"sense":' || coalesce('"' || replace(replace(NEW.sense, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"word":' || coalesce('"' || replace(replace(NEW.word, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"entry":' || coalesce(NEW.entry, 'null') || '}');
END;
CREATE TRIGGER deed_taken_back AFTER DELETE ON deed BEGIN
  INSERT INTO journal (entry, table_name, before, after) VALUES (
    (SELECT entry FROM pen), 'deed',
    '{"id":' || coalesce(OLD.id, 'null') ||
    ',"uid":' || coalesce('"' || replace(replace(OLD.uid, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"batch":' || coalesce(OLD.batch, 'null') ||
    ',"at":' || coalesce(OLD.at, 'null') ||
    ',"day":' || coalesce(OLD.day, 'null') ||
    ',"sense":' || coalesce('"' || replace(replace(OLD.sense, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"word":' || coalesce('"' || replace(replace(OLD.word, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"entry":' || coalesce(OLD.entry, 'null') || '}',
    NULL);
END;
CREATE TRIGGER note_changed AFTER UPDATE ON note BEGIN
  INSERT INTO journal (entry, table_name, before, after) VALUES (
    (SELECT entry FROM pen), 'note',
    '{"id":' || coalesce(OLD.id, 'null') ||
    ',"uid":' || coalesce('"' || replace(replace(OLD.uid, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"batch":' || coalesce(OLD.batch, 'null') ||
    ',"at":' || coalesce(OLD.at, 'null') ||
    ',"day":' || coalesce(OLD.day, 'null') ||
    ',"text":' || coalesce('"' || replace(replace(OLD.text, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"entry":' || coalesce(OLD.entry, 'null') || '}',
    '{"id":' || coalesce(NEW.id, 'null') ||
    ',"uid":' || coalesce('"' || replace(replace(NEW.uid, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"batch":' || coalesce(NEW.batch, 'null') ||
    ',"at":' || coalesce(NEW.at, 'null') ||
    ',"day":' || coalesce(NEW.day, 'null') ||
    ',"text":' || coalesce('"' || replace(replace(NEW.text, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"entry":' || coalesce(NEW.entry, 'null') || '}');
END;
CREATE TRIGGER note_taken_back AFTER DELETE ON note BEGIN
  INSERT INTO journal (entry, table_name, before, after) VALUES (
    (SELECT entry FROM pen), 'note',
    '{"id":' || coalesce(OLD.id, 'null') ||
    ',"uid":' || coalesce('"' || replace(replace(OLD.uid, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"batch":' || coalesce(OLD.batch, 'null') ||
    ',"at":' || coalesce(OLD.at, 'null') ||
    ',"day":' || coalesce(OLD.day, 'null') ||
    ',"text":' || coalesce('"' || replace(replace(OLD.text, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"entry":' || coalesce(OLD.entry, 'null') || '}',
    NULL);
END;
CREATE TRIGGER material_changed AFTER UPDATE ON material BEGIN
  INSERT INTO journal (entry, table_name, before, after) VALUES (
    (SELECT entry FROM pen), 'material',
    '{"name":' || coalesce('"' || replace(replace(OLD.name, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"material_group":' || coalesce('"' || replace(replace(OLD.material_group, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"aliases":' || coalesce('"' || replace(replace(OLD.aliases, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"flags":' || coalesce('"' || replace(replace(OLD.flags, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"entry":' || coalesce(OLD.entry, 'null') || '}',
    '{"name":' || coalesce('"' || replace(replace(NEW.name, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"material_group":' || coalesce('"' || replace(replace(NEW.material_group, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"aliases":' || coalesce('"' || replace(replace(NEW.aliases, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"flags":' || coalesce('"' || replace(replace(NEW.flags, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"entry":' || coalesce(NEW.entry, 'null') || '}');
END;
CREATE TRIGGER material_taken_back AFTER DELETE ON material BEGIN
  INSERT INTO journal (entry, table_name, before, after) VALUES (
    (SELECT entry FROM pen), 'material',
    '{"name":' || coalesce('"' || replace(replace(OLD.name, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"material_group":' || coalesce('"' || replace(replace(OLD.material_group, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"aliases":' || coalesce('"' || replace(replace(OLD.aliases, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"flags":' || coalesce('"' || replace(replace(OLD.flags, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"entry":' || coalesce(OLD.entry, 'null') || '}',
    NULL);
END;
CREATE TRIGGER figure_changed AFTER UPDATE ON figure BEGIN
  INSERT INTO journal (entry, table_name, before, after) VALUES (
    (SELECT entry FROM pen), 'figure',
    '{"material":' || coalesce('"' || replace(replace(OLD.material, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"property":' || coalesce('"' || replace(replace(OLD.property, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"value":' || iif(OLD.value IS NULL, 'null', quote(OLD.value)) ||
    ',"source":' || coalesce('"' || replace(replace(OLD.source, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"entry":' || coalesce(OLD.entry, 'null') || '}',
    '{"material":' || coalesce('"' || replace(replace(NEW.material, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"property":' || coalesce('"' || replace(replace(NEW.property, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"value":' || iif(NEW.value IS NULL, 'null', quote(NEW.value)) ||
    ',"source":' || coalesce('"' || replace(replace(NEW.source, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"entry":' || coalesce(NEW.entry, 'null') || '}');
END;
CREATE TRIGGER figure_taken_back AFTER DELETE ON figure BEGIN
  INSERT INTO journal (entry, table_name, before, after) VALUES (
    (SELECT entry FROM pen), 'figure',
    '{"material":' || coalesce('"' || replace(replace(OLD.material, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"property":' || coalesce('"' || replace(replace(OLD.property, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"value":' || iif(OLD.value IS NULL, 'null', quote(OLD.value)) ||
    ',"source":' || coalesce('"' || replace(replace(OLD.source, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"entry":' || coalesce(OLD.entry, 'null') || '}',
    NULL);
END;
CREATE TRIGGER container_changed AFTER UPDATE ON container BEGIN
  INSERT INTO journal (entry, table_name, before, after) VALUES (
    (SELECT entry FROM pen), 'container',
    '{"name":' || coalesce('"' || replace(replace(OLD.name, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"litres":' || iif(OLD.litres IS NULL, 'null', quote(OLD.litres)) ||
    ',"typed":' || coalesce('"' || replace(replace(OLD.typed, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"entry":' || coalesce(OLD.entry, 'null') || '}',
    '{"name":' || coalesce('"' || replace(replace(NEW.name, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"litres":' || iif(NEW.litres IS NULL, 'null', quote(NEW.litres)) ||
    ',"typed":' || coalesce('"' || replace(replace(NEW.typed, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"entry":' || coalesce(NEW.entry, 'null') || '}');
END;
CREATE TRIGGER container_taken_back AFTER DELETE ON container BEGIN
  INSERT INTO journal (entry, table_name, before, after) VALUES (
    (SELECT entry FROM pen), 'container',
    '{"name":' || coalesce('"' || replace(replace(OLD.name, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"litres":' || iif(OLD.litres IS NULL, 'null', quote(OLD.litres)) ||
    ',"typed":' || coalesce('"' || replace(replace(OLD.typed, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"entry":' || coalesce(OLD.entry, 'null') || '}',
    NULL);
END;
CREATE TRIGGER rule_changed AFTER UPDATE ON rule BEGIN
  INSERT INTO journal (entry, table_name, before, after) VALUES (
    (SELECT entry FROM pen), 'rule',
    '{"key":' || coalesce('"' || replace(replace(OLD.key, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"batch":' || coalesce(OLD.batch, 'null') ||
    ',"value":' || iif(OLD.value IS NULL, 'null', quote(OLD.value)) ||
    ',"typed":' || coalesce('"' || replace(replace(OLD.typed, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"entry":' || coalesce(OLD.entry, 'null') || '}',
    '{"key":' || coalesce('"' || replace(replace(NEW.key, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"batch":' || coalesce(NEW.batch, 'null') ||
    ',"value":' || iif(NEW.value IS NULL, 'null', quote(NEW.value)) ||
    ',"typed":' || coalesce('"' || replace(replace(NEW.typed, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"entry":' || coalesce(NEW.entry, 'null') || '}');
END;
CREATE TRIGGER rule_taken_back AFTER DELETE ON rule BEGIN
  INSERT INTO journal (entry, table_name, before, after) VALUES (
    (SELECT entry FROM pen), 'rule',
    '{"key":' || coalesce('"' || replace(replace(OLD.key, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"batch":' || coalesce(OLD.batch, 'null') ||
    ',"value":' || iif(OLD.value IS NULL, 'null', quote(OLD.value)) ||
    ',"typed":' || coalesce('"' || replace(replace(OLD.typed, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"entry":' || coalesce(OLD.entry, 'null') || '}',
    NULL);
END;
