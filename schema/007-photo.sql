-- Schema 7: a picture that goes with an entry.
--
-- The picture stays where it is; its name and its digest tell whether a file found later is that one.

CREATE TABLE photo (                      -- a picture taken with an entry
  id INTEGER PRIMARY KEY,
  uid TEXT NOT NULL UNIQUE,
  name TEXT NOT NULL,                     -- the file's own name, without its folder
  sha256 TEXT NOT NULL,                   -- of its bytes: 64 hexadecimal digits
  kept TEXT NOT NULL,                     -- its name in the folder NAME-photos beside the logbook; '': not copied
  entry INTEGER NOT NULL REFERENCES entry
) STRICT;
CREATE INDEX photo_of ON photo (entry);

CREATE TRIGGER photo_changed AFTER UPDATE ON photo BEGIN
  INSERT INTO journal (entry, table_name, before, after) VALUES (
    (SELECT entry FROM pen), 'photo',
    '{"id":' || coalesce(OLD.id, 'null') ||
    ',"uid":' || coalesce('"' || replace(replace(OLD.uid, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"name":' || coalesce('"' || replace(replace(OLD.name, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"sha256":' || coalesce('"' || replace(replace(OLD.sha256, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"kept":' || coalesce('"' || replace(replace(OLD.kept, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"entry":' || coalesce(OLD.entry, 'null') || '}',
    '{"id":' || coalesce(NEW.id, 'null') ||
    ',"uid":' || coalesce('"' || replace(replace(NEW.uid, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"name":' || coalesce('"' || replace(replace(NEW.name, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"sha256":' || coalesce('"' || replace(replace(NEW.sha256, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"kept":' || coalesce('"' || replace(replace(NEW.kept, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"entry":' || coalesce(NEW.entry, 'null') || '}');
END;
CREATE TRIGGER photo_taken_back AFTER DELETE ON photo BEGIN
  INSERT INTO journal (entry, table_name, before, after) VALUES (
    (SELECT entry FROM pen), 'photo',
    '{"id":' || coalesce(OLD.id, 'null') ||
    ',"uid":' || coalesce('"' || replace(replace(OLD.uid, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"name":' || coalesce('"' || replace(replace(OLD.name, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"sha256":' || coalesce('"' || replace(replace(OLD.sha256, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"kept":' || coalesce('"' || replace(replace(OLD.kept, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"entry":' || coalesce(OLD.entry, 'null') || '}',
    NULL);
END;
