-- Schema 9: who a load came from and went to, and what the site measures with.
--
-- An inspector follows a load back to its supplier and a harvest on to its buyer, and asks when the
-- thermometer was last compared with something known.

ALTER TABLE movement ADD COLUMN supplier TEXT;  -- who brought it; NULL: not said
ALTER TABLE movement ADD COLUMN lot TEXT;  -- its lot, invoice or delivery note; NULL: not said
ALTER TABLE movement ADD COLUMN buyer TEXT;  -- who got it; NULL: not said

DROP TRIGGER movement_changed;
DROP TRIGGER movement_taken_back;
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
    ',"supplier":' || coalesce('"' || replace(replace(OLD.supplier, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"lot":' || coalesce('"' || replace(replace(OLD.lot, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"buyer":' || coalesce('"' || replace(replace(OLD.buyer, '\', '\\'), '"', '\"') || '"', 'null') ||
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
    ',"supplier":' || coalesce('"' || replace(replace(NEW.supplier, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"lot":' || coalesce('"' || replace(replace(NEW.lot, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"buyer":' || coalesce('"' || replace(replace(NEW.buyer, '\', '\\'), '"', '\"') || '"', 'null') ||
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
    ',"supplier":' || coalesce('"' || replace(replace(OLD.supplier, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"lot":' || coalesce('"' || replace(replace(OLD.lot, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"buyer":' || coalesce('"' || replace(replace(OLD.buyer, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"sure":' || coalesce(OLD.sure, 'null') ||
    ',"entry":' || coalesce(OLD.entry, 'null') || '}',
    NULL);
END;

CREATE TABLE tool (                       -- a check of what the site measures with; a row a check
  name TEXT NOT NULL,                     -- 'probe-1'
  checked_day INTEGER NOT NULL,           -- day
  against TEXT NOT NULL,                  -- 'ice water: 33 F'
  entry INTEGER NOT NULL REFERENCES entry,
  PRIMARY KEY (name, checked_day)
) STRICT, WITHOUT ROWID;

CREATE TRIGGER tool_changed AFTER UPDATE ON tool BEGIN
  INSERT INTO journal (entry, table_name, before, after) VALUES (
    (SELECT entry FROM pen), 'tool',
    '{"name":' || coalesce('"' || replace(replace(OLD.name, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"checked_day":' || coalesce(OLD.checked_day, 'null') ||
    ',"against":' || coalesce('"' || replace(replace(OLD.against, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"entry":' || coalesce(OLD.entry, 'null') || '}',
    '{"name":' || coalesce('"' || replace(replace(NEW.name, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"checked_day":' || coalesce(NEW.checked_day, 'null') ||
    ',"against":' || coalesce('"' || replace(replace(NEW.against, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"entry":' || coalesce(NEW.entry, 'null') || '}');
END;
CREATE TRIGGER tool_taken_back AFTER DELETE ON tool BEGIN
  INSERT INTO journal (entry, table_name, before, after) VALUES (
    (SELECT entry FROM pen), 'tool',
    '{"name":' || coalesce('"' || replace(replace(OLD.name, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"checked_day":' || coalesce(OLD.checked_day, 'null') ||
    ',"against":' || coalesce('"' || replace(replace(OLD.against, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"entry":' || coalesce(OLD.entry, 'null') || '}',
    NULL);
END;
