-- Step 9, triggers in SQLite's words. Statements are separated by blank lines.

CREATE TRIGGER replacement_prices_stand BEFORE UPDATE OF id, species, nominal, nominal_in, grade,
  per_foot, since, note ON replacement_prices BEGIN
  SELECT RAISE(ABORT, 'past_changed');
END;

CREATE TRIGGER replacement_prices_stay BEFORE DELETE ON replacement_prices BEGIN
  SELECT RAISE(ABORT, 'past_changed');
END;

CREATE TRIGGER replacement_prices_again BEFORE INSERT ON replacement_prices
WHEN EXISTS (SELECT 1 FROM replacement_prices WHERE id = NEW.id) BEGIN
  SELECT RAISE(ABORT, 'past_changed');
END;

CREATE TRIGGER job_bills_stand BEFORE UPDATE OF id, job ON job_bills BEGIN
  SELECT RAISE(ABORT, 'past_changed');
END;

CREATE TRIGGER job_bills_stay BEFORE DELETE ON job_bills BEGIN
  SELECT RAISE(ABORT, 'past_changed');
END;

CREATE TRIGGER job_bills_again BEFORE INSERT ON job_bills
WHEN EXISTS (SELECT 1 FROM job_bills WHERE id = NEW.id) BEGIN
  SELECT RAISE(ABORT, 'past_changed');
END;

CREATE TRIGGER quotes_stand BEFORE UPDATE OF id, job, number, given_on, valid_until, title, words,
  terms, price ON quotes BEGIN
  SELECT RAISE(ABORT, 'past_changed');
END;

CREATE TRIGGER quotes_stay BEFORE DELETE ON quotes BEGIN
  SELECT RAISE(ABORT, 'past_changed');
END;

CREATE TRIGGER quotes_again BEFORE INSERT ON quotes
WHEN EXISTS (SELECT 1 FROM quotes WHERE id = NEW.id) BEGIN
  SELECT RAISE(ABORT, 'past_changed');
END;

CREATE TRIGGER job_lines_stand BEFORE UPDATE ON job_lines BEGIN
  SELECT RAISE(ABORT, 'past_changed');
END;

CREATE TRIGGER job_lines_stay BEFORE DELETE ON job_lines BEGIN
  SELECT RAISE(ABORT, 'past_changed');
END;
