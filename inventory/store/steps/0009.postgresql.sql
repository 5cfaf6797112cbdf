-- Step 9, triggers in PostgreSQL's words. Statements are separated by blank lines.

CREATE TRIGGER replacement_prices_stand BEFORE UPDATE OF id, species, nominal, nominal_in, grade,
  per_foot, since, note ON replacement_prices
  FOR EACH ROW EXECUTE FUNCTION refuse_change();

CREATE TRIGGER replacement_prices_stay BEFORE DELETE ON replacement_prices
  FOR EACH ROW EXECUTE FUNCTION refuse_change();

CREATE TRIGGER job_bills_stand BEFORE UPDATE OF id, job ON job_bills
  FOR EACH ROW EXECUTE FUNCTION refuse_change();

CREATE TRIGGER job_bills_stay BEFORE DELETE ON job_bills
  FOR EACH ROW EXECUTE FUNCTION refuse_change();

CREATE TRIGGER quotes_stand BEFORE UPDATE OF id, job, number, given_on, valid_until, title, words,
  terms, price ON quotes
  FOR EACH ROW EXECUTE FUNCTION refuse_change();

CREATE TRIGGER quotes_stay BEFORE DELETE ON quotes
  FOR EACH ROW EXECUTE FUNCTION refuse_change();

CREATE TRIGGER job_lines_stand BEFORE UPDATE ON job_lines
  FOR EACH ROW EXECUTE FUNCTION refuse_change();

CREATE TRIGGER job_lines_stay BEFORE DELETE ON job_lines
  FOR EACH ROW EXECUTE FUNCTION refuse_change();
