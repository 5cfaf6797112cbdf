-- Step 5: drafts, what is being typed and is no entry yet. Statements are separated by blank lines;
-- units as in step 1.

CREATE TABLE drafts (
  what TEXT NOT NULL,
  station TEXT NOT NULL,
  saved_at TEXT NOT NULL,
  body TEXT NOT NULL,
  PRIMARY KEY (what, station)
) STRICT;
