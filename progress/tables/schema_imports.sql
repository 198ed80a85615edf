-- Which import an answer or a session came with. What is known of an import is in the setting of that name.

ALTER TABLE answers ADD COLUMN import TEXT NOT NULL DEFAULT '';  -- empty if it was given here, or taken in before this was kept
ALTER TABLE sessions ADD COLUMN import TEXT NOT NULL DEFAULT '';
