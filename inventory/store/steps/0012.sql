-- Step 12. Statements are separated by blank lines; units as in step 1.

-- A job that asks for other parts or sizes than before: its rows are written anew, what they were
-- stands in the entry's edit.

INSERT INTO events (name) VALUES ('job changed');
