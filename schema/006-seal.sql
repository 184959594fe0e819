-- Schema 6: a digest of each entry.
--
-- Of the entry and of what it wrote, chained to that of the entry before it: so a changed bit, a row that
-- is missing, or one that another program wrote, does not pass for what was recorded.

CREATE TABLE seal (
  entry INTEGER PRIMARY KEY REFERENCES entry,
  digest TEXT NOT NULL,                   -- SHA-256, hexadecimal
  covers TEXT NOT NULL CHECK (covers IN ('rows', 'entry'))  -- 'entry': an import, without its readings
) STRICT;
