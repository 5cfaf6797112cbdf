-- Step 1, triggers in SQLite's words. Statements are separated by blank lines.
-- INSERT OR REPLACE deletes the old row without its DELETE trigger, hence the ..._again.

CREATE TRIGGER seal_posts AFTER INSERT ON seals BEGIN
  SELECT RAISE(ABORT, 'seal_without_entry')
    WHERE NOT EXISTS (SELECT 1 FROM entries WHERE id = NEW.entry);
  UPDATE accounts SET
    volume = volume
      + (SELECT coalesce(sum(volume), 0) FROM moves WHERE entry = NEW.entry AND target = accounts.id)
      - (SELECT coalesce(sum(volume), 0) FROM moves WHERE entry = NEW.entry AND source = accounts.id),
    cost = cost
      + (SELECT coalesce(sum(cost), 0) FROM moves WHERE entry = NEW.entry AND target = accounts.id)
      - (SELECT coalesce(sum(cost), 0) FROM moves WHERE entry = NEW.entry AND source = accounts.id),
    whole_volume = coalesce(remeasured_volume, whole_volume),
    remeasured_volume = NULL
    WHERE id IN (SELECT source FROM moves WHERE entry = NEW.entry
      UNION SELECT target FROM moves WHERE entry = NEW.entry
      UNION SELECT id FROM accounts WHERE remeasured_volume IS NOT NULL);
END;

CREATE TRIGGER seals_stand BEFORE UPDATE ON seals BEGIN
  SELECT RAISE(ABORT, 'past_changed');
END;

CREATE TRIGGER seals_stay BEFORE DELETE ON seals BEGIN
  SELECT RAISE(ABORT, 'past_changed');
END;

CREATE TRIGGER entries_stand BEFORE UPDATE ON entries
WHEN EXISTS (SELECT 1 FROM seals WHERE entry = OLD.id) BEGIN
  SELECT RAISE(ABORT, 'past_changed');
END;

CREATE TRIGGER entries_stay BEFORE DELETE ON entries BEGIN
  SELECT RAISE(ABORT, 'past_changed');
END;

CREATE TRIGGER moves_sealed BEFORE INSERT ON moves
WHEN EXISTS (SELECT 1 FROM seals WHERE entry = NEW.entry) BEGIN
  SELECT RAISE(ABORT, 'past_changed');
END;

CREATE TRIGGER moves_stand BEFORE UPDATE ON moves BEGIN
  SELECT RAISE(ABORT, 'past_changed');
END;

CREATE TRIGGER moves_stay BEFORE DELETE ON moves BEGIN
  SELECT RAISE(ABORT, 'past_changed');
END;

CREATE TRIGGER edits_sealed BEFORE INSERT ON edits
WHEN EXISTS (SELECT 1 FROM seals WHERE entry = NEW.entry) BEGIN
  SELECT RAISE(ABORT, 'past_changed');
END;

CREATE TRIGGER edits_stand BEFORE UPDATE ON edits BEGIN
  SELECT RAISE(ABORT, 'past_changed');
END;

CREATE TRIGGER edits_stay BEFORE DELETE ON edits BEGIN
  SELECT RAISE(ABORT, 'past_changed');
END;

CREATE TRIGGER cuttings_sealed BEFORE INSERT ON cuttings
WHEN EXISTS (SELECT 1 FROM seals
  WHERE entry = coalesce(NEW.entry, (SELECT entry FROM plans WHERE id = NEW.plan))) BEGIN
  SELECT RAISE(ABORT, 'past_changed');
END;

CREATE TRIGGER pieces_sealed BEFORE INSERT ON pieces
WHEN EXISTS (SELECT 1 FROM cuttings JOIN plans ON plans.id = cuttings.plan
  JOIN seals ON seals.entry = coalesce(cuttings.entry, plans.entry)
  WHERE cuttings.id = NEW.cutting) BEGIN
  SELECT RAISE(ABORT, 'past_changed');
END;

CREATE TRIGGER cuttings_stand BEFORE UPDATE ON cuttings BEGIN
  SELECT RAISE(ABORT, 'past_changed');
END;

CREATE TRIGGER cuttings_stay BEFORE DELETE ON cuttings BEGIN
  SELECT RAISE(ABORT, 'past_changed');
END;

CREATE TRIGGER pieces_stand BEFORE UPDATE ON pieces BEGIN
  SELECT RAISE(ABORT, 'past_changed');
END;

CREATE TRIGGER pieces_stay BEFORE DELETE ON pieces BEGIN
  SELECT RAISE(ABORT, 'past_changed');
END;

CREATE TRIGGER profiles_stand BEFORE UPDATE OF id, body ON profiles BEGIN
  SELECT RAISE(ABORT, 'past_changed');
END;

CREATE TRIGGER profiles_stay BEFORE DELETE ON profiles BEGIN
  SELECT RAISE(ABORT, 'past_changed');
END;

CREATE TRIGGER plans_stay BEFORE DELETE ON plans BEGIN
  SELECT RAISE(ABORT, 'past_changed');
END;

CREATE TRIGGER boards_stay BEFORE DELETE ON boards BEGIN
  SELECT RAISE(ABORT, 'past_changed');
END;

CREATE TRIGGER accounts_stay BEFORE DELETE ON accounts BEGIN
  SELECT RAISE(ABORT, 'past_changed');
END;

CREATE TRIGGER seals_again BEFORE INSERT ON seals
WHEN EXISTS (SELECT 1 FROM seals WHERE entry = NEW.entry) BEGIN
  SELECT RAISE(ABORT, 'past_changed');
END;

CREATE TRIGGER entries_again BEFORE INSERT ON entries
WHEN EXISTS (SELECT 1 FROM entries WHERE id = NEW.id) BEGIN
  SELECT RAISE(ABORT, 'past_changed');
END;

CREATE TRIGGER cuttings_again BEFORE INSERT ON cuttings
WHEN EXISTS (SELECT 1 FROM cuttings WHERE id = NEW.id) BEGIN
  SELECT RAISE(ABORT, 'past_changed');
END;

CREATE TRIGGER profiles_again BEFORE INSERT ON profiles
WHEN EXISTS (SELECT 1 FROM profiles WHERE id = NEW.id) BEGIN
  SELECT RAISE(ABORT, 'past_changed');
END;

CREATE TRIGGER plans_again BEFORE INSERT ON plans
WHEN EXISTS (SELECT 1 FROM plans WHERE id = NEW.id) BEGIN
  SELECT RAISE(ABORT, 'past_changed');
END;
