-- Step 6. Statements are separated by blank lines; units as in step 1.

-- Blanks that are not a whole part: which copy of the part they help to make, and where in it they
-- sit. `gives`: finished width a stave brings to its panel, finished thickness a lamina brings,
-- the part's width otherwise.

CREATE TABLE layups (
  cutting INTEGER NOT NULL,
  place INTEGER NOT NULL,
  number INTEGER NOT NULL CHECK (number >= 0),
  kind TEXT NOT NULL CHECK (kind IN ('stave', 'lamina', 'gang', 'whole')),
  copy INTEGER NOT NULL CHECK (copy > 0),
  slot INTEGER NOT NULL CHECK (slot > 0),
  section INTEGER NOT NULL CHECK (section >= 0),
  turned INTEGER NOT NULL CHECK (turned IN (0, 1)),
  gives INTEGER NOT NULL CHECK (gives > 0),
  PRIMARY KEY (cutting, place, number),
  FOREIGN KEY (cutting, place) REFERENCES pieces (cutting, place)
) STRICT, WITHOUT ROWID;

-- Widths of staves as sawn and the number of laminae, where a part asks for its own; else 0.

ALTER TABLE parts ADD COLUMN staves_from INTEGER NOT NULL DEFAULT 0;

ALTER TABLE parts ADD COLUMN staves_to INTEGER NOT NULL DEFAULT 0;

ALTER TABLE parts ADD COLUMN laminae INTEGER NOT NULL DEFAULT 0;
