-- Songs of the student's own, each as it was kept at some moments, of which the latest holds. Nothing of them can be made again.

CREATE TABLE songs (
	id     TEXT PRIMARY KEY,             -- of this keeping: the same in two files
	song   TEXT NOT NULL,                -- the same however often the song is changed
	at     INTEGER NOT NULL,             -- when it was kept, milliseconds since 1970, UTC
	chart  TEXT NOT NULL,                -- empty if it was taken away
	tuning TEXT NOT NULL,
	rich   INTEGER NOT NULL,             -- 0 to 10
	shapes TEXT NOT NULL,                -- those that were chosen
	sounds TEXT NOT NULL,                -- what is heard of it
	import TEXT NOT NULL DEFAULT '',     -- the import it came with; empty if it was kept here
	seal   INTEGER NOT NULL
) STRICT, WITHOUT ROWID;
