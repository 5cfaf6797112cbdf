-- Step 6, triggers in SQLite's words. Statements are separated by blank lines.

CREATE TRIGGER layups_sealed BEFORE INSERT ON layups
WHEN EXISTS (SELECT 1 FROM cuttings JOIN plans ON plans.id = cuttings.plan
  JOIN seals ON seals.entry = coalesce(cuttings.entry, plans.entry)
  WHERE cuttings.id = NEW.cutting) BEGIN
  SELECT RAISE(ABORT, 'past_changed');
END;

CREATE TRIGGER layups_stand BEFORE UPDATE ON layups BEGIN
  SELECT RAISE(ABORT, 'past_changed');
END;

CREATE TRIGGER layups_stay BEFORE DELETE ON layups BEGIN
  SELECT RAISE(ABORT, 'past_changed');
END;
