package store

import (
	"crypto/rand"
	"database/sql"
	"time"

	"sparetone/progress"
	"sparetone/progress/clock"
	"sparetone/progress/exchange"
	"sparetone/progress/tables"
)

// TakenBackKey is how the settings begin that count what was taken back, session by session.
const TakenBackKey = tables.TakenBackKey

// Record keeps an answer. It is on the disk when Record returns nil; if the file fails it is held on to,
// and tried again with whatever is kept next. Control characters are taken out of its texts; texts are cut
// to a thousand bytes and its time to a day.
func (f *File) Record(a progress.Answer) error {
	for _, s := range []*string{&a.Question, &a.Given, &a.Expected, &a.Voice} {
		*s = progress.Tidy(*s)
	}
	// What is derived now has to follow from the file later, which knows milliseconds.
	a.Took = min(a.Took, progress.LongestTook).Truncate(time.Millisecond)
	a.At = clock.Writable(a.At)
	if err := a.Valid(); err != nil {
		return err
	}
	k := tables.AnswerRow{Answer: a, Day: progress.DayOf(a.At.In(f.now().Location()))}
	rand.Read(k.ID[:])
	f.doing.Lock()
	f.latest = k.ID
	f.doing.Unlock()
	return f.keepDeed(deed{answer: true, do: func(tx *sql.Tx) error { return tables.Keep(tx, k) }})
}

// TakeBack takes back the answer that was recorded last by this File, one that was played, as if it had not been given: it and all that follows from it
// are gone when TakeBack returns nil, also from other machines once they are kept alike, but that it was taken back. If the file fails that is tried again
// with whatever is kept next.
func (f *File) TakeBack() error {
	f.doing.Lock()
	id := f.latest
	f.doing.Unlock()
	return f.keepDeed(deed{back: true, do: func(tx *sql.Tx) error { return exchange.TakeBackPlayed(tx, id) }})
}

// CountHeard counts that something was heard in a session and taken back before it counted, or holds on to that as Record does.
func (f *File) CountHeard(session string) error {
	return f.keepDeed(deed{do: func(tx *sql.Tx) error { return tables.AddTakenBack(tx, session, progress.TakenBack{Heard: 1}) }})
}

// TakenBack counts what was played or sung in all sessions and taken back.
func (f *File) TakenBack() (progress.TakenBack, error) {
	all, err := tables.TakenBack(f.db)
	return all, tables.Plain(err)
}
