-- Whether an answer was played.

ALTER TABLE answers ADD COLUMN played INTEGER NOT NULL DEFAULT 0; -- 1 if it was played on an instrument or sung; 0 if typed, or if nobody knows
