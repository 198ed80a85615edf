-- How closely a thing was asked, and how closely it is asked next.

ALTER TABLE answers ADD COLUMN rung INTEGER NOT NULL DEFAULT 0; -- counted from 1, the clearest; 0 if nobody knows

ALTER TABLE memory ADD COLUMN rung INTEGER NOT NULL DEFAULT 0;  -- on which it is asked next
ALTER TABLE memory ADD COLUMN told INTEGER NOT NULL DEFAULT 0;  -- right answers in a row on this rung
