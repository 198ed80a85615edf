-- What is heard is told apart and not remembered; luck and slips are reckoned with; and what was foretold is compared with what
-- happened. All of it is derived from the answers, and made again when a file comes to this version.

ALTER TABLE memory ADD COLUMN guess REAL NOT NULL DEFAULT 0;   -- chance to guess it, as it was last asked
ALTER TABLE memory ADD COLUMN ear INTEGER NOT NULL DEFAULT 0;  -- 1 if its questions are heard
ALTER TABLE memory ADD COLUMN kept REAL NOT NULL DEFAULT 0;    -- of what is heard: d' without what the last day added
ALTER TABLE memory ADD COLUMN added REAL NOT NULL DEFAULT 0;   -- d' that the last day added
ALTER TABLE memory ADD COLUMN unsure REAL NOT NULL DEFAULT 0;  -- variance of that d'
ALTER TABLE memory ADD COLUMN favour REAL NOT NULL DEFAULT 0;  -- how much likelier that it is told apart than remembered, in nats

CREATE TABLE foretold (
	tenth INTEGER PRIMARY KEY,  -- of the chance that was foretold, from 0
	asked INTEGER NOT NULL,
	held  INTEGER NOT NULL,     -- of these, right
	sum   REAL NOT NULL         -- of the chances
) STRICT;

-- Weights were fitted to a model that took every slip for forgetting.
DELETE FROM fit;
