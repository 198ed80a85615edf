package exchange

import (
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"time"

	"sparetone/progress"
	"sparetone/progress/clock"
	"sparetone/progress/tables"
)

// mostAmiss is how far a time may lie outside the times of its session: as far as a time zone that was set wrong, or a clock
// that was put right in the midst of it, explains.
const mostAmiss = 24 * time.Hour

// session takes in a session, and says when one ended that is there already and has not.
func (in *importing) session(o jsonObject) error {
	s, doubted, err := o.session()
	if err != nil {
		return err
	}
	of, err := o.whose()
	if err == nil {
		err = in.is(of)
	}
	if err != nil {
		return err
	}
	s.By = in.id
	is, there, err := in.sessionOf(s.Id)
	if err != nil {
		return err
	}
	switch {
	case !there:
		in.done.Sessions++
		_, err = in.tx.Exec("INSERT INTO sessions (id, began, ended, minutes, seal, import) VALUES (?, ?, ?, ?, ?, ?)", s.Id, s.Began, s.Ended, s.Minutes, s.Sum(), s.By)
	case is.Began != s.Began:
		return otherSession("began", s.Id)
	case math.Abs(is.Minutes-s.Minutes) > 1e-6:
		return otherSession("minutes", s.Id)
	case is.Ended.Valid && s.Ended.Valid && is.Ended != s.Ended:
		return otherSession("ended", s.Id)
	case !is.Ended.Valid && s.Ended.Valid:
		in.note.Closed[s.Id] = s.Ended.Int64
		_, err = in.tx.Exec("UPDATE sessions SET ended = ? WHERE id = ?", s.Ended, s.Id)
		err = errors.Join(err, tables.SealSessions(in.tx, "WHERE id = ?", s.Id))
	}
	if err != nil {
		return err
	}
	delete(in.sessions, s.Id) // to be read anew
	in.doubted[s.Id] = doubted
	if given, any := in.given[s.Id]; any && !doubted {
		return holds(s, given)
	}
	return nil
}

func otherSession(field, id string) error {
	return fmt.Errorf("%s is another than that of the session which is kept under the id %s", field, progress.Short(id))
}

// session reads a session, and whether the export says that its times cannot be true.
func (o jsonObject) session() (s tables.SessionRow, doubted bool, err error) {
	for _, field := range []string{"id", "began", "minutes"} {
		if o[field] == nil {
			return s, doubted, missing(field)
		}
	}
	if s.Id, err = o.text("id"); err != nil {
		return s, doubted, err
	}
	if s.Id == "" || progress.Tidy(s.Id) != s.Id {
		return s, doubted, fmt.Errorf("id is a line of 1 to %d bytes, without control characters", progress.LongestText)
	}
	if s.Began, err = o.moment("began"); err != nil {
		return s, doubted, err
	}
	if raw, there := o["ended"]; there && string(raw) != "null" {
		s.Ended.Valid = true
		if s.Ended.Int64, err = o.moment("ended"); err != nil {
			return s, doubted, err
		}
	}
	if raw, there := o["doubted"]; there {
		text, err := column{Name: "doubted", Form: OfFlag}.fromJSON(raw)
		if err != nil {
			return s, doubted, err
		}
		doubted = text == "true"
	}
	if !doubted && turned(s) {
		return s, doubted, fmt.Errorf("ended is %s, and that is before it began, %s", utc(s.Ended.Int64), utc(s.Began))
	}
	if json.Unmarshal(o["minutes"], &s.Minutes) != nil || string(o["minutes"]) == "null" || !(s.Minutes >= 0 && s.Minutes <= 24*60) {
		return s, doubted, errors.New("minutes is a number without quotes, from 0 to 1440, which is a day")
	}
	return s, doubted, nil
}

// moment reads a time, in milliseconds since 1970.
func (o jsonObject) moment(field string) (int64, error) {
	text, err := o.text(field)
	if err != nil {
		return 0, err
	}
	at, err := time.Parse(time.RFC3339, text)
	if err != nil {
		return 0, fmt.Errorf("%s is a time such as 2026-03-04T18:30:00.000Z, not %q", field, progress.Short(text))
	}
	return clock.Writable(at).UnixMilli(), nil
}

// utc writes a time in milliseconds since 1970.
func utc(ms int64) string { return time.UnixMilli(ms).UTC().Format(timeForm) }

// sessionOf returns a session that is in the file or came with this import.
func (in *importing) sessionOf(id string) (s tables.SessionRow, there bool, err error) {
	if s, met := in.sessions[id]; met {
		return s, s.Id != "", nil
	}
	err = tables.SessionRows(in.tx, "WHERE id = ?", []any{id}, func(is tables.SessionRow) error {
		s = is
		return nil
	})
	in.sessions[id] = s // without an id where there is none
	return s, s.Id != "", err
}

// turned reports whether a session ended before it began, by more than a wrong clock explains that is not doubted.
func turned(s tables.SessionRow) bool {
	return s.Ended.Valid && s.Ended.Int64 < s.Began-mostAmiss.Milliseconds()
}

// outside says that a time lies outside a session, by more than a wrong clock explains; it is empty if it does not, or if the
// session's own times cannot be true.
func outside(s tables.SessionRow, at int64) string {
	amiss := mostAmiss.Milliseconds()
	switch {
	case turned(s) || !clock.Dated(time.UnixMilli(s.Began)):
		return ""
	case at < s.Began-amiss:
		return fmt.Sprintf("more than a day before its session began, %s", utc(s.Began))
	case s.Ended.Valid && at > s.Ended.Int64+amiss:
		return fmt.Sprintf("more than a day after its session ended, %s", utc(s.Ended.Int64))
	}
	return ""
}

// fits refuses an answer that was given at another time than its session, where that is known and the export does not say that
// its time is doubted. Exports of earlier versions do not say what is doubted, so they are not held to it.
func (in *importing) fits(l answerLine, k tables.AnswerRow) error {
	if !l.judged || l.Doubted || in.doubted[k.Session] {
		return nil
	}
	at := k.At.UnixMilli()
	given, any := in.given[k.Session]
	if !any {
		given = stretch{at, at}
	}
	in.given[k.Session] = stretch{min(given.first, at), max(given.last, at)}
	s, there, err := in.sessionOf(k.Session)
	if err != nil || !there {
		return err
	}
	if says := outside(s, at); says != "" {
		return fmt.Errorf("at is %s, %s", utc(at), says)
	}
	return nil
}

// holds refuses a session that comes after answers which were given at another time.
func holds(s tables.SessionRow, given stretch) error {
	for _, at := range []int64{given.first, given.last} {
		if says := outside(s, at); says != "" {
			field := "ended"
			if at < s.Began {
				field = "began"
			}
			return fmt.Errorf("%s denies an answer of this session, which was given at %s, %s", field, utc(at), says)
		}
	}
	return nil
}
