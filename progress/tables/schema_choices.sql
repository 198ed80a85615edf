-- How many answers there were to choose from, and what luck has to do with what follows from the answers.

ALTER TABLE answers ADD COLUMN choices INTEGER NOT NULL DEFAULT 0; -- 0 if it was answered freely, or before this was kept

-- Answers that guessing would have made right, on average.
ALTER TABLE weeks ADD COLUMN guessed REAL NOT NULL DEFAULT 0;

-- The chance that guessing alone gives the run of right answers; 1 where there is none.
ALTER TABLE memory ADD COLUMN luck REAL NOT NULL DEFAULT 0;
UPDATE memory SET luck = 1 WHERE run = 0;
