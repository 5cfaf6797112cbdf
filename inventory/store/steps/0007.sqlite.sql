-- Step 7, triggers in SQLite's words. Statements are separated by blank lines.

CREATE TRIGGER label_papers_stand BEFORE UPDATE OF id, name, page_width, page_height, label_width,
  label_height, per_row, per_column, from_left, from_top, across, down, care ON label_papers BEGIN
  SELECT RAISE(ABORT, 'past_changed');
END;

CREATE TRIGGER label_papers_stay BEFORE DELETE ON label_papers BEGIN
  SELECT RAISE(ABORT, 'past_changed');
END;

CREATE TRIGGER label_papers_again BEFORE INSERT ON label_papers
WHEN EXISTS (SELECT 1 FROM label_papers WHERE id = NEW.id) BEGIN
  SELECT RAISE(ABORT, 'past_changed');
END;

CREATE TRIGGER printers_stand BEFORE UPDATE OF id, name, to_right, to_foot, wide, high ON printers
BEGIN
  SELECT RAISE(ABORT, 'past_changed');
END;

CREATE TRIGGER printers_stay BEFORE DELETE ON printers BEGIN
  SELECT RAISE(ABORT, 'past_changed');
END;

CREATE TRIGGER printers_again BEFORE INSERT ON printers
WHEN EXISTS (SELECT 1 FROM printers WHERE id = NEW.id) BEGIN
  SELECT RAISE(ABORT, 'past_changed');
END;

CREATE TRIGGER photos_stand BEFORE UPDATE OF id, board, face, taken_on, file_name, sha256, width, height, jpeg
  ON photos BEGIN
  SELECT RAISE(ABORT, 'past_changed');
END;

CREATE TRIGGER photos_stay BEFORE DELETE ON photos BEGIN
  SELECT RAISE(ABORT, 'past_changed');
END;

CREATE TRIGGER photos_again BEFORE INSERT ON photos
WHEN EXISTS (SELECT 1 FROM photos WHERE id = NEW.id) BEGIN
  SELECT RAISE(ABORT, 'past_changed');
END;

CREATE TRIGGER photo_corners_stand BEFORE UPDATE OF id, photo, face, x1, y1, x2, y2, x3, y3, x4, y4
  ON photo_corners BEGIN
  SELECT RAISE(ABORT, 'past_changed');
END;

CREATE TRIGGER photo_corners_stay BEFORE DELETE ON photo_corners BEGIN
  SELECT RAISE(ABORT, 'past_changed');
END;

CREATE TRIGGER photo_corners_again BEFORE INSERT ON photo_corners
WHEN EXISTS (SELECT 1 FROM photo_corners WHERE id = NEW.id) BEGIN
  SELECT RAISE(ABORT, 'past_changed');
END;
