-- The tables of a class, for PostgreSQL 12 or later. From the folder in which they lie:
--
--     psql -v ON_ERROR_STOP=1 -d DATABASE -f schema.sql
--
-- All of it lies in the schema sparetone_class, which is made anew each time. Nothing else in the database is touched.

BEGIN;

DROP SCHEMA IF EXISTS sparetone_class CASCADE;
CREATE SCHEMA sparetone_class;
SET LOCAL search_path TO sparetone_class;
SET LOCAL datestyle TO ISO;

CREATE TABLE class (today date NOT NULL);
COMMENT ON TABLE class IS 'one row: the practice day on which the class is looked at';

CREATE TABLE students (
	student text PRIMARY KEY,
	name    text NOT NULL,
	listed  boolean NOT NULL
);
COMMENT ON COLUMN students.student IS 'id of the progress file; roster-N of somebody of whom there is no file';
COMMENT ON COLUMN students.name IS 'as the page shows it, told apart from others of the same name';
COMMENT ON COLUMN students.listed IS 'on the roster, or there is none';

CREATE TABLE items (
	item   text PRIMARY KEY,
	drill  text NOT NULL,
	target text NOT NULL,
	tuning text NOT NULL,
	ear    boolean NOT NULL,
	name   text NOT NULL,
	known  boolean NOT NULL
);
COMMENT ON COLUMN items.item IS 'drill/target/tuning: what memory keeps';
COMMENT ON COLUMN items.ear IS 'it cannot be done without sound';
COMMENT ON COLUMN items.known IS 'to the version that wrote the tables; others are counted with their drill, and never called weak';

CREATE TABLE sessions (
	student text NOT NULL REFERENCES students,
	session text NOT NULL,
	began   timestamptz,
	ended   timestamptz,
	minutes double precision NOT NULL,
	doubted boolean NOT NULL,
	PRIMARY KEY (student, session)
);
COMMENT ON COLUMN sessions.began IS 'NULL where only answers tell of the session';
COMMENT ON COLUMN sessions.ended IS 'NULL if it was never closed';
COMMENT ON COLUMN sessions.minutes IS 'that were asked for';

CREATE TABLE answers (
	student   text NOT NULL REFERENCES students,
	answer    text NOT NULL,
	session   text,
	item      text NOT NULL REFERENCES items,
	at        timestamptz NOT NULL,
	day       date NOT NULL,
	result    text NOT NULL CHECK (result IN ('right', 'partly', 'wrong')),
	choices   integer NOT NULL,
	rung      integer NOT NULL,
	took_ms   integer NOT NULL,
	taken_for text REFERENCES items,
	lesson    text,
	played    boolean NOT NULL,
	offered   text,
	chosen    integer NOT NULL,
	doubted   boolean NOT NULL,
	PRIMARY KEY (student, answer)
);
COMMENT ON COLUMN answers.answer IS 'id, 32 hexadecimal digits, the same wherever the answer goes';
COMMENT ON COLUMN answers.day IS 'practice day where the student was; it ends at four in the morning';
COMMENT ON COLUMN answers.choices IS 'to choose from; 0 if it was answered freely';
COMMENT ON COLUMN answers.rung IS 'how closely it was asked, counted from 1; 0 if nobody knows';
COMMENT ON COLUMN answers.played IS 'on an instrument or sung; false if it was typed or chosen, or if nobody knows';
COMMENT ON COLUMN answers.offered IS 'ids of the choices as they stood, with | between them; NULL if it was answered freely, or if nobody knows';
COMMENT ON COLUMN answers.chosen IS 'which of these was answered, counted from 1; 0 if none';
COMMENT ON COLUMN answers.doubted IS 'given while a clock was wrong: it counts among the answers and nowhere else';

\copy class from 'class.csv' with (format csv, header true)
\copy students from 'students.csv' with (format csv, header true)
\copy items from 'items.csv' with (format csv, header true)
\copy sessions from 'sessions.csv' with (format csv, header true)
\copy answers from 'answers.csv' with (format csv, header true)

CREATE INDEX ON answers (student, session, at, answer);
CREATE INDEX ON answers (student, item, at, answer);
ANALYZE answers;

-- The chance of k right answers or fewer out of n, each right with a chance p: the binomial distribution, its terms by their logarithms.
CREATE FUNCTION at_most(k bigint, n bigint, p double precision) RETURNS double precision LANGUAGE sql IMMUTABLE AS $$
	SELECT CASE WHEN k >= n THEN 1 ELSE (
		SELECT coalesce(sum(exp(ways + i * ln(p) + (n - i) * ln(1 - p))), 0)
		FROM (
			SELECT i, sum(CASE WHEN i = 0 THEN 0 ELSE ln((n - i + 1)::double precision / i) END) OVER (ORDER BY i) AS ways
			FROM generate_series(0, k) AS i
		) AS terms
	) END
$$;

-- Answers of which it is known when they were given, with the chance of each by guessing alone.
CREATE VIEW certain AS
	SELECT a.*, i.drill, i.target, i.tuning, i.ear, i.known, (a.result = 'right')::integer AS is_right,
		CASE WHEN a.choices = 0 THEN 0 ELSE 1.0::double precision / a.choices END AS guess
	FROM answers a JOIN items i USING (item)
	WHERE NOT a.doubted;

-- Those of the eight weeks that count. Somebody east of here may be a day ahead.
CREATE VIEW recent AS
	SELECT c.* FROM certain c, class WHERE c.day > class.today - 56 AND c.day <= class.today + 1;

-- Before each answer the time since the one before it in its session, or since that began, but no more than three minutes.
CREATE VIEW minutes_practised AS
	SELECT student, sum(least(180000, greatest(took_ms, since_ms))) / 60000.0 AS minutes
	FROM (
		SELECT a.student, a.took_ms, coalesce(1000 * extract(epoch FROM a.at - coalesce(lag(a.at) OVER in_session, s.began)), 0) AS since_ms
		FROM answers a LEFT JOIN sessions s ON s.student = a.student AND s.session = a.session
		WHERE NOT a.doubted
		WINDOW in_session AS (PARTITION BY a.student, a.session ORDER BY a.at, a.answer)
	) AS spent
	GROUP BY student;

-- The first answer ever to each thing.
CREATE VIEW first_ever AS
	SELECT DISTINCT ON (student, item) * FROM certain ORDER BY student, item, at, answer;

-- A row a student, as on the page.
CREATE VIEW class_students AS
	SELECT s.student, s.name, s.listed,
		coalesce(c.days, 0) AS days, coalesce(m.minutes, 0) AS minutes, coalesce(n.answers, 0) AS answers, c.last,
		c.last IS NULL OR class.today - c.last >= 7 AS silent,
		coalesce(r.ear_asked, 0) AS ear_asked, coalesce(r.ear_right, 0) AS ear_right, coalesce(r.ear_guessed, 0) AS ear_guessed,
		coalesce(r.eye_asked, 0) AS eye_asked, coalesce(r.eye_right, 0) AS eye_right, coalesce(r.eye_guessed, 0) AS eye_guessed,
		coalesce(f.asked, 0) AS first_asked, coalesce(f.is_right, 0) AS first_right
	FROM class, students s
		LEFT JOIN (SELECT student, count(*) AS answers FROM answers GROUP BY student) n USING (student)
		LEFT JOIN (SELECT student, count(DISTINCT day) AS days, max(day) AS last FROM certain GROUP BY student) c USING (student)
		LEFT JOIN minutes_practised m USING (student)
		LEFT JOIN (
			SELECT student,
				count(*) FILTER (WHERE ear) AS ear_asked, sum(is_right) FILTER (WHERE ear) AS ear_right, sum(guess) FILTER (WHERE ear) AS ear_guessed,
				count(*) FILTER (WHERE NOT ear) AS eye_asked, sum(is_right) FILTER (WHERE NOT ear) AS eye_right, sum(guess) FILTER (WHERE NOT ear) AS eye_guessed
			FROM recent GROUP BY student
		) r USING (student)
		LEFT JOIN (SELECT student, count(*) AS asked, sum(is_right) AS is_right FROM first_ever GROUP BY student) f USING (student);

-- What each student is weak at: asked eight times or more, and right so seldom that bad luck, where 85 in a hundred should be right, gives it
-- in one of twenty students for all things of one student together.
CREATE VIEW student_items AS
	SELECT student, item, asked, is_right, tested, tested AND at_most(is_right, asked, 0.85) < 0.05 / sum(tested::integer) OVER (PARTITION BY student) AS weak
	FROM (SELECT student, item, count(*) AS asked, sum(is_right) AS is_right, count(*) >= 8 AS tested FROM recent GROUP BY student, item) AS tallies;

-- What the class is weak at, counted by students.
CREATE VIEW class_weak AS
	SELECT item, i.name, i.drill, i.tuning, i.ear, count(*) AS tested, count(*) FILTER (WHERE weak) AS weak
	FROM student_items JOIN items i USING (item)
	WHERE tested AND i.known
	GROUP BY item, i.name, i.drill, i.tuning, i.ear
	HAVING bool_or(weak);

COMMIT;
