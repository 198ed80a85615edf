package progress

import (
	"crypto/rand"
	"database/sql"
	"strings"
	"time"
	"unicode/utf8"
)

// Record keeps an answer. It is on the disk when Record returns nil; if the file fails it is held on to,
// and tried again with whatever is kept next. Control characters are taken out of its texts; texts are cut
// to a thousand bytes and its time to a day.
func (f *File) Record(a Answer) error {
	for _, s := range []*string{&a.Question, &a.Given, &a.Expected, &a.Voice} {
		*s = tidy(*s)
	}
	// What is derived now has to follow from the file later, which knows milliseconds.
	a.Took = min(a.Took, longestTook).Truncate(time.Millisecond)
	a.At = written(a.At)
	if err := a.valid(); err != nil {
		return err
	}
	k := kept{Answer: a, Day: DayOf(a.At.In(f.now().Location()))}
	rand.Read(k.ID[:])
	return f.keepDeed(deed{answer: true, do: func(tx *sql.Tx) error { return keep(tx, k) }})
}

// kept is an answer as the file has it.
type kept struct {
	Answer
	n       int64 // its number, of one that was read
	ID      [16]byte
	Day     Day
	Import  string        // the import it came with; empty if it was given here
	under   sql.NullInt64 // the seal it was read with, if it has one
	doubted bool          // its time is; for exports
}

// tidy takes control characters out of a text and cuts it to what is kept.
func tidy(s string) string {
	s = strings.Map(func(r rune) rune {
		if control(r) {
			return -1
		}
		return r
	}, s)
	if len(s) <= longest {
		return s
	}
	s = s[:longest]
	for !utf8.ValidString(s) {
		s = s[:len(s)-1]
	}
	return s
}

// keep adds an answer after all others, unless it is there, and brings up to date what is derived from it.
func keep(tx *sql.Tx, k kept) error {
	var there bool
	if err := tx.QueryRow("SELECT EXISTS (SELECT 1 FROM answers WHERE id = ?)", k.ID[:]).Scan(&there); err != nil || there {
		return err
	}
	names, err := name(tx, k.Answer)
	if err != nil {
		return err
	}
	d, err := loadAround(tx, k)
	if err != nil {
		return err
	}
	doubted, contested, err := doubtful(tx, k.At)
	if err != nil {
		return err
	}
	done, err := tx.Exec(insertAnswer, k.row(names)...)
	if err != nil {
		return err
	}
	if k.n, err = done.LastInsertId(); err != nil {
		return err
	}
	if contested {
		anew, err := doubtsIn(tx)
		if err != nil {
			return err
		}
		if doubted = anew.of(k.n, k.At); !doubted { // then others are
			return rebuild(tx)
		}
	}
	if doubted {
		d.doubt(k.n, k.Answer)
	} else {
		d.add(k.Answer, k.Day)
	}
	return d.store(tx, names)
}

const insertAnswer = "INSERT INTO answers VALUES (NULL,?,?,?,?,?,?,?,?,?,?,?,?,?,?,?,?,?,?)"

// row is an answer as the values of insertAnswer, which adds it after all others.
func (k kept) row(names numbers) []any {
	var takenFor any
	if k.TakenFor != "" {
		takenFor = names[k.TakenFor]
	}
	return []any{k.ID[:], k.Session, names[k.Item], int64(k.Seed), k.At.UnixMilli(), int(k.Day), k.Question, k.Given, k.Expected,
		takenFor, int(k.Result), k.Took.Milliseconds(), k.Replays, k.Hints, k.Voice, k.seal(), k.Choices, k.Import}
}
