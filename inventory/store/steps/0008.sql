-- Step 8. Statements are separated by blank lines; units as in step 1.

-- Of a part: how its grain runs on from copy to copy ("along", "across 2,2,1", or nothing), pieces
-- more to set machines up with, and whether its last cut waits for the dry fit.

ALTER TABLE parts ADD COLUMN run TEXT NOT NULL DEFAULT '';

ALTER TABLE parts ADD COLUMN set_ups INTEGER NOT NULL DEFAULT 0;

ALTER TABLE parts ADD COLUMN left_long INTEGER NOT NULL DEFAULT 0;
