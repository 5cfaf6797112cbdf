-- Step 4: what went otherwise than planned. Statements are separated by blank lines; units as in
-- step 1.

-- A blank or part of a done cutting that came to nothing: its wood went from `parts` to `lost`, and
-- its copy is wanted again. Rows are never changed, only withdrawn.

CREATE TABLE spoiled_pieces (
  id INTEGER PRIMARY KEY,
  cutting INTEGER NOT NULL,
  place INTEGER NOT NULL,
  reason TEXT NOT NULL,
  withdrawn INTEGER NOT NULL DEFAULT 0 CHECK (withdrawn IN (0, 1)),
  version INTEGER NOT NULL REFERENCES entries (id),
  FOREIGN KEY (cutting, place) REFERENCES pieces (cutting, place)
) STRICT;

CREATE UNIQUE INDEX spoiled_once ON spoiled_pieces (cutting, place) WHERE withdrawn = 0;

-- Boards used up without a plan. The account's number is one that no board's account can have.

INSERT INTO causes (name) VALUES ('by hand');

INSERT INTO accounts (id, kind, whole_volume, volume, cost) VALUES (0, 'by hand', 0, 0, 0);

INSERT INTO counters (name, last) VALUES ('spoiled', 0);

INSERT INTO events (name) VALUES ('spoiled'), ('used by hand');
