-- The answers whose time is doubted. They are derived from the order of the answers, like memory, weeks, mistakes and pace.

CREATE TABLE doubts (answer INTEGER PRIMARY KEY) STRICT; -- its number
