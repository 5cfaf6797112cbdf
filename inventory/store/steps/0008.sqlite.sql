-- Step 8, triggers in SQLite's words. Statements are separated by blank lines.

CREATE TRIGGER bins_stand BEFORE UPDATE OF id, name, species, note ON bins BEGIN
  SELECT RAISE(ABORT, 'past_changed');
END;

CREATE TRIGGER bins_stay BEFORE DELETE ON bins BEGIN
  SELECT RAISE(ABORT, 'past_changed');
END;

CREATE TRIGGER bins_again BEFORE INSERT ON bins
WHEN EXISTS (SELECT 1 FROM bins WHERE id = NEW.id) BEGIN
  SELECT RAISE(ABORT, 'past_changed');
END;
