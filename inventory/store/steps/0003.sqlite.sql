-- Step 3, triggers in SQLite's words. Statements are separated by blank lines.

CREATE TRIGGER invoice_lines_stand BEFORE UPDATE ON invoice_lines BEGIN
  SELECT RAISE(ABORT, 'past_changed');
END;

CREATE TRIGGER invoice_lines_stay BEFORE DELETE ON invoice_lines BEGIN
  SELECT RAISE(ABORT, 'past_changed');
END;

CREATE TRIGGER invoice_claims_stand BEFORE UPDATE ON invoice_claims BEGIN
  SELECT RAISE(ABORT, 'past_changed');
END;

CREATE TRIGGER invoice_claims_stay BEFORE DELETE ON invoice_claims BEGIN
  SELECT RAISE(ABORT, 'past_changed');
END;

CREATE TRIGGER bay_count_lines_stand BEFORE UPDATE ON bay_count_lines BEGIN
  SELECT RAISE(ABORT, 'past_changed');
END;

CREATE TRIGGER bay_count_lines_stay BEFORE DELETE ON bay_count_lines BEGIN
  SELECT RAISE(ABORT, 'past_changed');
END;

CREATE TRIGGER returns_stand BEFORE UPDATE OF id, board, reason, expected ON returns BEGIN
  SELECT RAISE(ABORT, 'past_changed');
END;

CREATE TRIGGER returns_stay BEFORE DELETE ON returns BEGIN
  SELECT RAISE(ABORT, 'past_changed');
END;

CREATE TRIGGER returns_again BEFORE INSERT ON returns
WHEN EXISTS (SELECT 1 FROM returns WHERE id = NEW.id) BEGIN
  SELECT RAISE(ABORT, 'past_changed');
END;

CREATE TRIGGER credits_stand BEFORE UPDATE OF id, returned, amount, received_on ON credits BEGIN
  SELECT RAISE(ABORT, 'past_changed');
END;

CREATE TRIGGER credits_stay BEFORE DELETE ON credits BEGIN
  SELECT RAISE(ABORT, 'past_changed');
END;

CREATE TRIGGER credits_again BEFORE INSERT ON credits
WHEN EXISTS (SELECT 1 FROM credits WHERE id = NEW.id) BEGIN
  SELECT RAISE(ABORT, 'past_changed');
END;

CREATE TRIGGER bay_counts_stand BEFORE UPDATE OF id, bay, untagged ON bay_counts BEGIN
  SELECT RAISE(ABORT, 'past_changed');
END;

CREATE TRIGGER bay_counts_stay BEFORE DELETE ON bay_counts BEGIN
  SELECT RAISE(ABORT, 'past_changed');
END;

CREATE TRIGGER bay_counts_again BEFORE INSERT ON bay_counts
WHEN EXISTS (SELECT 1 FROM bay_counts WHERE id = NEW.id) BEGIN
  SELECT RAISE(ABORT, 'past_changed');
END;

CREATE TRIGGER bay_tags_stand BEFORE UPDATE OF id, bay ON bay_tags BEGIN
  SELECT RAISE(ABORT, 'past_changed');
END;

CREATE TRIGGER bay_tags_stay BEFORE DELETE ON bay_tags BEGIN
  SELECT RAISE(ABORT, 'past_changed');
END;

CREATE TRIGGER bay_tags_again BEFORE INSERT ON bay_tags
WHEN EXISTS (SELECT 1 FROM bay_tags WHERE id = NEW.id) BEGIN
  SELECT RAISE(ABORT, 'past_changed');
END;
