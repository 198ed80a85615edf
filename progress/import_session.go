package progress

import (
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"time"
)

// mostAmiss is how far a time may lie outside the times of its session: as far as a time zone that was set wrong, or a clock
// that was put right in the midst of it, explains.
const mostAmiss = 24 * time.Hour

// session takes in a session, and says when one ended that is there already and has not.
func (in *importing) session(o object) error {
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
	s.by = in.id
	is, there, err := in.sessionOf(s.id)
	if err != nil {
		return err
	}
	switch {
	case !there:
		in.done.Sessions++
		_, err = in.tx.Exec("INSERT INTO sessions (id, began, ended, minutes, seal, import) VALUES (?, ?, ?, ?, ?, ?)", s.id, s.began, s.ended, s.minutes, s.sum(), s.by)
	case is.began != s.began:
		return otherSession("began", s.id)
	case math.Abs(is.minutes-s.minutes) > 1e-6:
		return otherSession("minutes", s.id)
	case is.ended.Valid && s.ended.Valid && is.ended != s.ended:
		return otherSession("ended", s.id)
	case !is.ended.Valid && s.ended.Valid:
		in.note.Closed[s.id] = s.ended.Int64
		_, err = in.tx.Exec("UPDATE sessions SET ended = ? WHERE id = ?", s.ended, s.id)
		err = errors.Join(err, sealSessions(in.tx, "WHERE id = ?", s.id))
	}
	if err != nil {
		return err
	}
	delete(in.sessions, s.id) // to be read anew
	in.doubted[s.id] = doubted
	if given, any := in.given[s.id]; any && !doubted {
		return holds(s, given)
	}
	return nil
}

func otherSession(field, id string) error {
	return fmt.Errorf("%s is another than that of the session which is kept under the id %s", field, short(id))
}

// session reads a session, and whether the export says that its times cannot be true.
func (o object) session() (s sessionRow, doubted bool, err error) {
	for _, field := range []string{"id", "began", "minutes"} {
		if o[field] == nil {
			return s, doubted, missing(field)
		}
	}
	if s.id, err = o.text("id"); err != nil {
		return s, doubted, err
	}
	if s.id == "" || tidy(s.id) != s.id {
		return s, doubted, fmt.Errorf("id is a line of 1 to %d bytes, without control characters", longest)
	}
	if s.began, err = o.moment("began"); err != nil {
		return s, doubted, err
	}
	if raw, there := o["ended"]; there && string(raw) != "null" {
		s.ended.Valid = true
		if s.ended.Int64, err = o.moment("ended"); err != nil {
			return s, doubted, err
		}
	}
	if raw, there := o["doubted"]; there {
		text, err := column{name: "doubted", form: ofFlag}.fromJSON(raw)
		if err != nil {
			return s, doubted, err
		}
		doubted = text == "true"
	}
	if !doubted && turned(s) {
		return s, doubted, fmt.Errorf("ended is %s, and that is before it began, %s", utc(s.ended.Int64), utc(s.began))
	}
	if json.Unmarshal(o["minutes"], &s.minutes) != nil || string(o["minutes"]) == "null" || !(s.minutes >= 0 && s.minutes <= 24*60) {
		return s, doubted, errors.New("minutes is a number without quotes, from 0 to 1440, which is a day")
	}
	return s, doubted, nil
}

// moment reads a time, in milliseconds since 1970.
func (o object) moment(field string) (int64, error) {
	text, err := o.text(field)
	if err != nil {
		return 0, err
	}
	at, err := time.Parse(time.RFC3339, text)
	if err != nil {
		return 0, fmt.Errorf("%s is a time such as 2026-03-04T18:30:00.000Z, not %q", field, short(text))
	}
	return written(at).UnixMilli(), nil
}

// utc writes a time in milliseconds since 1970.
func utc(ms int64) string { return time.UnixMilli(ms).UTC().Format(timeForm) }

// sessionOf returns a session that is in the file or came with this import.
func (in *importing) sessionOf(id string) (s sessionRow, there bool, err error) {
	if s, met := in.sessions[id]; met {
		return s, s.id != "", nil
	}
	err = sessionRows(in.tx, "WHERE id = ?", []any{id}, func(is sessionRow) error {
		s = is
		return nil
	})
	in.sessions[id] = s // without an id where there is none
	return s, s.id != "", err
}

// turned reports whether a session ended before it began, by more than a wrong clock explains that is not doubted.
func turned(s sessionRow) bool {
	return s.ended.Valid && s.ended.Int64 < s.began-mostAmiss.Milliseconds()
}

// outside says that a time lies outside a session, by more than a wrong clock explains; it is empty if it does not, or if the
// session's own times cannot be true.
func outside(s sessionRow, at int64) string {
	amiss := mostAmiss.Milliseconds()
	switch {
	case turned(s) || !dated(time.UnixMilli(s.began)):
		return ""
	case at < s.began-amiss:
		return fmt.Sprintf("more than a day before its session began, %s", utc(s.began))
	case s.ended.Valid && at > s.ended.Int64+amiss:
		return fmt.Sprintf("more than a day after its session ended, %s", utc(s.ended.Int64))
	}
	return ""
}

// fits refuses an answer that was given at another time than its session, where that is known and the export does not say that
// its time is doubted. Exports of earlier versions do not say what is doubted, so they are not held to it.
func (in *importing) fits(l answerLine, k kept) error {
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
func holds(s sessionRow, given stretch) error {
	for _, at := range []int64{given.first, given.last} {
		if says := outside(s, at); says != "" {
			field := "ended"
			if at < s.began {
				field = "began"
			}
			return fmt.Errorf("%s denies an answer of this session, which was given at %s, %s", field, utc(at), says)
		}
	}
	return nil
}
