-- Step 7, triggers in PostgreSQL's words. Statements are separated by blank lines.

CREATE TRIGGER label_papers_stand BEFORE UPDATE OF id, name, page_width, page_height, label_width,
  label_height, per_row, per_column, from_left, from_top, across, down, care ON label_papers
  FOR EACH ROW EXECUTE FUNCTION refuse_change();

CREATE TRIGGER label_papers_stay BEFORE DELETE ON label_papers
  FOR EACH ROW EXECUTE FUNCTION refuse_change();

CREATE TRIGGER printers_stand BEFORE UPDATE OF id, name, to_right, to_foot, wide, high ON printers
  FOR EACH ROW EXECUTE FUNCTION refuse_change();

CREATE TRIGGER printers_stay BEFORE DELETE ON printers
  FOR EACH ROW EXECUTE FUNCTION refuse_change();

CREATE TRIGGER photos_stand BEFORE UPDATE OF id, board, face, taken_on, file_name, sha256, width, height, jpeg
  ON photos FOR EACH ROW EXECUTE FUNCTION refuse_change();

CREATE TRIGGER photos_stay BEFORE DELETE ON photos
  FOR EACH ROW EXECUTE FUNCTION refuse_change();

CREATE TRIGGER photo_corners_stand BEFORE UPDATE OF id, photo, face, x1, y1, x2, y2, x3, y3, x4, y4
  ON photo_corners FOR EACH ROW EXECUTE FUNCTION refuse_change();

CREATE TRIGGER photo_corners_stay BEFORE DELETE ON photo_corners
  FOR EACH ROW EXECUTE FUNCTION refuse_change();
