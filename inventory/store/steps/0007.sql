-- Step 7. Statements are separated by blank lines; units as in step 1.

-- Label stocks of the maker's own and how printers lie; the newest row of a name that stands holds.
-- Rows are never changed, only withdrawn. Printers: what to move the ink by, ten-thousandths to
-- stretch it by.

CREATE TABLE label_papers (
  id INTEGER PRIMARY KEY,
  name TEXT NOT NULL,
  page_width INTEGER NOT NULL CHECK (page_width > 0),
  page_height INTEGER NOT NULL CHECK (page_height > 0),
  label_width INTEGER NOT NULL CHECK (label_width > 0),
  label_height INTEGER NOT NULL CHECK (label_height > 0),
  per_row INTEGER NOT NULL CHECK (per_row > 0),
  per_column INTEGER NOT NULL CHECK (per_column > 0),
  from_left INTEGER NOT NULL CHECK (from_left >= 0),
  from_top INTEGER NOT NULL CHECK (from_top >= 0),
  across INTEGER NOT NULL CHECK (across >= 0),
  down INTEGER NOT NULL CHECK (down >= 0),
  care TEXT NOT NULL,
  withdrawn INTEGER NOT NULL DEFAULT 0 CHECK (withdrawn IN (0, 1)),
  version INTEGER NOT NULL REFERENCES entries (id)
) STRICT;

CREATE TABLE printers (
  id INTEGER PRIMARY KEY,
  name TEXT NOT NULL,
  to_right INTEGER NOT NULL,
  to_foot INTEGER NOT NULL,
  wide INTEGER NOT NULL CHECK (wide > 0),
  high INTEGER NOT NULL CHECK (high > 0),
  withdrawn INTEGER NOT NULL DEFAULT 0 CHECK (withdrawn IN (0, 1)),
  version INTEGER NOT NULL REFERENCES entries (id)
) STRICT;

INSERT INTO counters (name, last) VALUES ('label paper', 0), ('printer', 0);

INSERT INTO events (name) VALUES ('label stock added'), ('printer set');

-- Photos of boards, scaled down. `sha256`: of the file a photo came from, so that none comes twice.
-- Rows are never changed, only withdrawn.

CREATE TABLE photos (
  id INTEGER PRIMARY KEY,
  board INTEGER NOT NULL REFERENCES boards (id),
  face TEXT CHECK (face IN ('A', 'B')),
  taken_on TEXT NOT NULL,
  file_name TEXT NOT NULL,
  sha256 TEXT NOT NULL,
  width INTEGER NOT NULL CHECK (width > 0),
  height INTEGER NOT NULL CHECK (height > 0),
  jpeg BLOB NOT NULL,
  withdrawn INTEGER NOT NULL DEFAULT 0 CHECK (withdrawn IN (0, 1)),
  version INTEGER NOT NULL REFERENCES entries (id)
) STRICT;

CREATE INDEX photos_of_boards ON photos (board);

CREATE INDEX photos_of_files ON photos (sha256);

-- Where the board's corners lie on a photo of a face, thousandths of a pixel from its top left: tag
-- end near, far end near, far end far, tag end far. The newest of a photo that stand hold.

CREATE TABLE photo_corners (
  id INTEGER PRIMARY KEY,
  photo INTEGER NOT NULL REFERENCES photos (id),
  face TEXT NOT NULL CHECK (face IN ('A', 'B')),
  x1 INTEGER NOT NULL,
  y1 INTEGER NOT NULL,
  x2 INTEGER NOT NULL,
  y2 INTEGER NOT NULL,
  x3 INTEGER NOT NULL,
  y3 INTEGER NOT NULL,
  x4 INTEGER NOT NULL,
  y4 INTEGER NOT NULL,
  withdrawn INTEGER NOT NULL DEFAULT 0 CHECK (withdrawn IN (0, 1)),
  version INTEGER NOT NULL REFERENCES entries (id)
) STRICT;

CREATE INDEX corners_of_photos ON photo_corners (photo);

INSERT INTO counters (name, last) VALUES ('photo', 0), ('photo corners', 0);

INSERT INTO events (name) VALUES ('photo added'), ('photo placed');

-- Of a part: how its grain runs on from copy to copy ("along", "across 2,2,1", or nothing), pieces
-- more to set machines up with, and whether its last cut waits for the dry fit.

ALTER TABLE parts ADD COLUMN run TEXT NOT NULL DEFAULT '';

ALTER TABLE parts ADD COLUMN set_ups INTEGER NOT NULL DEFAULT 0;

ALTER TABLE parts ADD COLUMN left_long INTEGER NOT NULL DEFAULT 0;
