package exchange

import (
	"bytes"
	"database/sql"
	"errors"
	"fmt"
	"io"
	"time"

	"sparetone/progress"
	"sparetone/progress/clock"
	"sparetone/progress/exported"
	"sparetone/progress/tables"
)

// TakeIn adds what is in an export, as JSON lines or CSV, to a file. What is there already is left
// as it is, so the same export may come twice, and two machines that take in each other's hold the
// same. Nothing is changed unless all of it is good; the error names the line and the field that is not. Before anything is
// changed for others to see, copyBefore copies the file, which looks as it did; it is nil for one in memory. Undo takes all of
// it back. Now is what the machine's clock says.
func TakeIn(tx *sql.Tx, now time.Time, r io.Reader, how Taking, copyBefore func() (path string, err error)) (done Imported, err error) {
	var last int64
	if err := tx.QueryRow("SELECT coalesce(max(n), 0) FROM answers").Scan(&last); err != nil {
		return done, err
	}
	in := importing{naming: newNaming(tx), means: how.Means, meant: map[string]bool{},
		sessions: map[string]tables.SessionRow{}, given: map[string]stretch{}, doubted: map[string]bool{}}
	in.id, in.note = progress.NewID(), note{From: progress.Tidy(how.From), At: now.UnixMilli(), Closed: map[string]int64{}}
	if in.find, err = tx.Prepare(findAnswer); err != nil {
		return done, err
	}
	defer in.find.Close()
	if in.insert, err = tx.Prepare(tables.InsertAnswer); err != nil {
		return done, err
	}
	defer in.insert.Close()
	if err := in.read(r); err != nil {
		return done, err
	}
	done = in.done
	if done.Added+done.Sessions+done.Songs+len(in.note.Closed) == 0 {
		return done, nil
	}
	if err := in.settle(&done, last, how.Other); err != nil {
		return done, err
	}
	done.ID = in.id
	if done.Added > 0 {
		if err := tables.Interleave(tx, last, in.came, now); err != nil {
			return done, err
		}
		if err := tables.Rebuild(tx); err != nil {
			return done, err
		}
	}
	if copyBefore != nil {
		if done.Copy, err = copyBefore(); err != nil {
			return done, err
		}
	}
	in.note.Copy = done.Copy
	return done, in.note.keep(tx, in.id)
}

// findAnswer names the first field in which an answer that is kept is another than an imported one; "" if it is the same. Where
// the export says nothing of choices, the rung, the lesson and its step, playing, or what was offered, as those of earlier versions do, they are not compared. A day that cannot be written down
// is compared as it is written.
const findAnswer = `SELECT CASE
	WHEN session <> ? THEN 'session' WHEN a.id <> ? THEN 'item' WHEN a.drill <> ? THEN 'drill' WHEN seed <> ? THEN 'seed' WHEN at <> ? THEN 'at'
	WHEN min(max(day, 0), ?) <> ? THEN 'day' WHEN question <> ? THEN 'question' WHEN given <> ? THEN 'given' WHEN expected <> ? THEN 'expected'
	WHEN coalesce(b.id, '') <> ? THEN 'taken_for' WHEN result <> ? THEN 'result' WHEN took <> ? THEN 'took_ms' WHEN replays <> ? THEN 'replays'
	WHEN hints <> ? THEN 'hints' WHEN voice <> ? THEN 'voice' WHEN coalesce(nullif(?, 0), choices) <> choices THEN 'choices'
	WHEN coalesce(nullif(?, 0), rung) <> rung THEN 'rung'
	WHEN coalesce(nullif(?, ''), lesson) <> lesson THEN 'lesson' WHEN coalesce(nullif(?, ''), step) <> step THEN 'step'
	WHEN coalesce(nullif(?, 0), played) <> played THEN 'played'
	WHEN coalesce(nullif(?, ''), offered) <> offered THEN 'offered' WHEN coalesce(nullif(?, 0), chosen) <> chosen THEN 'chosen' ELSE '' END
	FROM answers JOIN items a ON a.n = item LEFT JOIN items b ON b.n = taken_for WHERE answers.id = ?`

// read takes in every line.
func (in *importing) read(r io.Reader) error {
	err := (&export{handed: func(o exported.Object, _ []byte) error { return in.ownerOf(o) }, session: in.session, song: in.song, answer: in.answer}).read(r)
	of := exported.LineError{}
	switch {
	case errors.As(err, &of) && tables.IsOfSQLite(of.Says):
		return of.Says
	case errors.As(err, &of):
		return exported.Refuse("%w", err)
	case err == nil || errors.As(err, new(exported.BadExport)):
		return err
	}
	return fmt.Errorf("%w; nothing was imported", err)
}

// answer adds an answer after all others, unless it is there.
func (in *importing) answer(l exported.Answer) error {
	k, err := l.Row()
	if err != nil {
		return err
	}
	if err := in.isOf(l.Owner); err != nil {
		return err
	}
	if l.File == "" && in.first == nil {
		in.first = bytes.Clone(k.ID[:])
	}
	if !in.knows(k.Item) {
		in.done.Foreign++
		in.done.Such = k.Item
	}
	var other string
	err = in.find.QueryRow(k.Session, k.Item, k.Drill, int64(k.Seed), k.At.UnixMilli(), int(clock.UTCDay(clock.LastTime)), int(k.Day), k.Question, k.Given, k.Expected, k.TakenFor,
		int(k.Result), k.Took.Milliseconds(), k.Replays, k.Hints, k.Voice, k.Choices, k.Rung, k.Lesson, k.Step, k.Played, k.Offered, k.Chosen, k.ID[:]).Scan(&other)
	switch {
	case err == nil && other != "":
		return fmt.Errorf("%s is another than that of the answer which is kept under the id %s", other, l.ID)
	case err == nil:
		in.done.Known++
		in.came = append(in.came, clock.Arrival{At: k.At.UnixMilli(), Id: k.ID})
		return nil
	case !errors.Is(err, sql.ErrNoRows):
		return err
	}
	if err := in.fits(l, k); err != nil {
		return err
	}
	if err := in.name(k.Answer); err != nil {
		return err
	}
	k.Import = in.id
	in.done.Added++
	done, err := in.insert.Exec(k.Row(in.names)...)
	if err != nil {
		return err
	}
	n, err := done.LastInsertId()
	in.came = append(in.came, clock.Arrival{N: n, At: k.At.UnixMilli(), Id: k.ID})
	return err
}
