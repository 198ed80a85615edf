-- What there was to choose from, and what of it was chosen.

ALTER TABLE answers ADD COLUMN offered TEXT NOT NULL DEFAULT '';   -- ids of the choices as they stood, with | between them; empty if it was answered freely, or if nobody knows
ALTER TABLE answers ADD COLUMN chosen INTEGER NOT NULL DEFAULT 0; -- which of them was answered, counted from 1; 0 if none
