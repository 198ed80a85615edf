-- What was foretold is held against what happened by ear and by eye apart, and sets right what is foretold next. It is derived from the
-- answers, and made again when a file comes to this version.

DROP TABLE foretold;

CREATE TABLE foretold (
	ear   INTEGER NOT NULL,     -- 1 of what is heard
	tenth INTEGER NOT NULL,     -- of the chance that was foretold, from 0
	asked INTEGER NOT NULL,
	held  INTEGER NOT NULL,     -- of these, right
	sum   REAL NOT NULL,        -- of the chances
	PRIMARY KEY (ear, tenth)
) STRICT, WITHOUT ROWID;
