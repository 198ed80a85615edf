package exchange

import (
	"errors"
	"fmt"
	"math"

	"sparetone/progress"
	"sparetone/progress/exported"
	"sparetone/progress/tables"
)

// session takes in a session, and says when one ended that is there already and has not.
func (in *importing) session(o exported.Object) error {
	s, doubted, err := o.Session()
	if err != nil {
		return err
	}
	if err := in.ownerOf(o); err != nil {
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

// fits refuses an answer that was given at another time than its session, where that is known and the export does not say that
// its time is doubted. Exports of earlier versions do not say what is doubted, so they are not held to it.
func (in *importing) fits(l exported.Answer, k tables.AnswerRow) error {
	if !l.Judged || l.Doubted || in.doubted[k.Session] {
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
	if says := exported.Outside(s, at); says != "" {
		return fmt.Errorf("at is %s, %s", exported.UTC(at), says)
	}
	return nil
}

// holds refuses a session that comes after answers which were given at another time.
func holds(s tables.SessionRow, given stretch) error {
	for _, at := range []int64{given.first, given.last} {
		if says := exported.Outside(s, at); says != "" {
			field := "ended"
			if at < s.Began {
				field = "began"
			}
			return fmt.Errorf("%s denies an answer of this session, which was given at %s, %s", field, exported.UTC(at), says)
		}
	}
	return nil
}
