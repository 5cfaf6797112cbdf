-- Step 3, triggers in PostgreSQL's words. Statements are separated by blank lines.

CREATE TRIGGER invoice_lines_stand BEFORE UPDATE OR DELETE ON invoice_lines
  FOR EACH ROW EXECUTE FUNCTION refuse_change();

CREATE TRIGGER invoice_claims_stand BEFORE UPDATE OR DELETE ON invoice_claims
  FOR EACH ROW EXECUTE FUNCTION refuse_change();

CREATE TRIGGER bay_count_lines_stand BEFORE UPDATE OR DELETE ON bay_count_lines
  FOR EACH ROW EXECUTE FUNCTION refuse_change();

CREATE TRIGGER returns_stand BEFORE UPDATE OF id, board, reason, expected ON returns
  FOR EACH ROW EXECUTE FUNCTION refuse_change();

CREATE TRIGGER returns_stay BEFORE DELETE ON returns
  FOR EACH ROW EXECUTE FUNCTION refuse_change();

CREATE TRIGGER credits_stand BEFORE UPDATE OF id, returned, amount, received_on ON credits
  FOR EACH ROW EXECUTE FUNCTION refuse_change();

CREATE TRIGGER credits_stay BEFORE DELETE ON credits
  FOR EACH ROW EXECUTE FUNCTION refuse_change();

CREATE TRIGGER bay_counts_stand BEFORE UPDATE OF id, bay, untagged ON bay_counts
  FOR EACH ROW EXECUTE FUNCTION refuse_change();

CREATE TRIGGER bay_counts_stay BEFORE DELETE ON bay_counts
  FOR EACH ROW EXECUTE FUNCTION refuse_change();

CREATE TRIGGER bay_tags_stand BEFORE UPDATE OF id, bay ON bay_tags
  FOR EACH ROW EXECUTE FUNCTION refuse_change();

CREATE TRIGGER bay_tags_stay BEFORE DELETE ON bay_tags
  FOR EACH ROW EXECUTE FUNCTION refuse_change();
