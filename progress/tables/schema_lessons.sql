-- What lesson an answer was asked for. The lessons themselves are settings: one may come from anywhere, and nothing rests on it.

ALTER TABLE answers ADD COLUMN lesson TEXT NOT NULL DEFAULT ''; -- id of the lesson; empty if it was asked for none
ALTER TABLE answers ADD COLUMN step TEXT NOT NULL DEFAULT '';   -- id of that lesson's step
