-- Step 11, triggers in SQLite's words. Statements are separated by blank lines.

CREATE TRIGGER reserved_feet_stand BEFORE UPDATE OF id, job, species, nominal, nominal_in, feet
  ON reserved_feet BEGIN
  SELECT RAISE(ABORT, 'past_changed');
END;

CREATE TRIGGER reserved_feet_stay BEFORE DELETE ON reserved_feet BEGIN
  SELECT RAISE(ABORT, 'past_changed');
END;

CREATE TRIGGER reserved_feet_again BEFORE INSERT ON reserved_feet
WHEN EXISTS (SELECT 1 FROM reserved_feet WHERE id = NEW.id) BEGIN
  SELECT RAISE(ABORT, 'past_changed');
END;
