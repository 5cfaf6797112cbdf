-- Step 10. Statements are separated by blank lines; units as in step 1.

-- A sawn board whose tag still hangs on its remainder: the name it goes by. Rows are never changed,
-- only withdrawn; a serial may be given back once its row is.

CREATE TABLE tags_passed (
  id INTEGER PRIMARY KEY,
  board INTEGER NOT NULL REFERENCES boards (id),
  serial INTEGER NOT NULL,
  withdrawn INTEGER NOT NULL DEFAULT 0 CHECK (withdrawn IN (0, 1)),
  version INTEGER NOT NULL REFERENCES entries (id)
) STRICT;

CREATE UNIQUE INDEX one_tag_passed_a_board ON tags_passed (board) WHERE withdrawn = 0;

-- How deep a mark of one face goes, where it was measured; and where one that goes through the
-- board aslant comes out on face B.

ALTER TABLE defects ADD COLUMN depth INTEGER
  CONSTRAINT depth_of_a_face CHECK (depth IS NULL OR (depth > 0 AND face IN ('A', 'B')));

ALTER TABLE defects ADD COLUMN b_x INTEGER;

ALTER TABLE defects ADD COLUMN b_y INTEGER;

ALTER TABLE defects ADD COLUMN b_dx INTEGER
  CONSTRAINT aslant_has_length CHECK (b_dx IS NULL OR b_dx > 0);

ALTER TABLE defects ADD COLUMN b_dy INTEGER
  CONSTRAINT aslant_goes_through CHECK ((b_dy IS NULL) = (b_dx IS NULL)
    AND (b_dy IS NULL) = (b_x IS NULL) AND (b_dy IS NULL) = (b_y IS NULL)
    AND (b_dy IS NULL OR (b_dy > 0 AND face = 'through')));

-- How steeply the grain runs out of a board, as tenths of its run over a rise of one, 0: straight;
-- and whether a part must be of straight grain.

ALTER TABLE boards ADD COLUMN grain_slope INTEGER
  CONSTRAINT grain_runs CHECK (grain_slope IS NULL OR grain_slope = 0
    OR grain_slope BETWEEN 10 AND 10000);

ALTER TABLE parts ADD COLUMN straight INTEGER NOT NULL DEFAULT 0 CHECK (straight IN (0, 1));

INSERT INTO counters (name, last) VALUES ('tag passed', 0);
