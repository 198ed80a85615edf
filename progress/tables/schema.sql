-- What is kept. Nothing here can be made again.

CREATE TABLE settings (
	key   TEXT PRIMARY KEY,
	value TEXT NOT NULL
) STRICT, WITHOUT ROWID;

CREATE TABLE sessions (
	id      TEXT PRIMARY KEY,
	began   INTEGER NOT NULL,           -- milliseconds since 1970, UTC
	ended   INTEGER,                    -- null if it was never closed
	minutes REAL NOT NULL               -- asked for
) STRICT, WITHOUT ROWID;

CREATE TABLE items (
	n     INTEGER PRIMARY KEY,
	id    TEXT NOT NULL UNIQUE,
	drill TEXT NOT NULL                 -- empty for one that was only ever named by mistake
) STRICT;

CREATE TABLE answers (
	n         INTEGER PRIMARY KEY,      -- the order in which answers were given
	id        BLOB NOT NULL UNIQUE,     -- 16 random bytes: the same answer in two files
	session   TEXT NOT NULL,
	item      INTEGER NOT NULL REFERENCES items,
	seed      INTEGER NOT NULL,         -- 64 bits, read as unsigned
	at        INTEGER NOT NULL,         -- milliseconds since 1970, UTC
	day       INTEGER NOT NULL,         -- practice day where the student was
	question  TEXT NOT NULL,
	given     TEXT NOT NULL,
	expected  TEXT NOT NULL,
	taken_for INTEGER REFERENCES items,
	result    INTEGER NOT NULL CHECK (result IN (1, 2, 3)),
	took      INTEGER NOT NULL,         -- milliseconds
	replays   INTEGER NOT NULL,
	hints     INTEGER NOT NULL,
	voice     TEXT NOT NULL
) STRICT;

-- What is derived from the answers, in their order. All of it can be made again.

CREATE TABLE memory (
	item       INTEGER PRIMARY KEY REFERENCES items,
	stability  REAL NOT NULL,           -- days
	difficulty REAL NOT NULL,           -- 1 to 10
	day        INTEGER NOT NULL,        -- practice day of the last answer
	due        INTEGER NOT NULL,        -- practice day it comes back
	asked      INTEGER NOT NULL,
	held       INTEGER NOT NULL,        -- of these, right
	run        INTEGER NOT NULL         -- right in a row up to now
) STRICT;

CREATE TABLE weeks (
	item   INTEGER NOT NULL REFERENCES items,
	week   INTEGER NOT NULL,            -- counted from Thursday 1 January 1970
	asked  INTEGER NOT NULL,
	held   INTEGER NOT NULL,
	PRIMARY KEY (week, item)
) STRICT, WITHOUT ROWID;

CREATE TABLE mistakes (
	item      INTEGER NOT NULL REFERENCES items,
	taken_for INTEGER NOT NULL REFERENCES items,
	week      INTEGER NOT NULL,
	times     INTEGER NOT NULL,
	PRIMARY KEY (week, item, taken_for)
) STRICT, WITHOUT ROWID;

CREATE TABLE pace (
	drill TEXT PRIMARY KEY,
	took  TEXT NOT NULL,                -- milliseconds to the answer, right answers only, a JSON list
	cycle TEXT NOT NULL                 -- milliseconds from one answer to the next, a JSON list
) STRICT, WITHOUT ROWID;

-- How the memory model was fitted to the student, the last time that was tried.

CREATE TABLE fit (
	answers INTEGER NOT NULL,           -- how many there were
	weights TEXT NOT NULL               -- a JSON list; empty if the published ones predict as well
) STRICT;
