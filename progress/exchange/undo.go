package exchange

import (
	"cmp"
	"database/sql"
	"encoding/hex"
	"encoding/json"
	"errors"
	"slices"
	"strings"
	"time"

	"sparetone/progress"
	"sparetone/progress/tables"
)

// Import is an import that was done, and can be taken back.
type Import struct {
	ID       string // random
	From     string // what was taken in: a file, as it was named; "" if nobody knows any more
	At       time.Time
	Copy     string // of the file before it; "" if there is none, as in memory
	Answers  int    // that came with it
	Sessions int    // that came with it
	Songs    int    // that came with it
	Items    int    // that only its answers speak of
}

// ImportKey is how the setting begins that holds the note of an import; its id follows.
const ImportKey = "import/"

// undoneKey is how the setting begins that tells of an import or answer that was taken back; its id follows.
const undoneKey = "undone/"

// note is what is kept of an import besides what it brought.
type note struct {
	N      int              `json:"n"` // imports are counted from 1
	From   string           `json:"from"`
	At     int64            `json:"at"` // milliseconds since 1970, UTC
	Copy   string           `json:"copy"`
	Closed map[string]int64 `json:"closed,omitempty"` // sessions that were there, and when it said they ended
	Mine   []string         `json:"mine,omitempty"`   // ids of files that were not the student's own before
	Was    *progress.Whose  `json:"was,omitempty"`    // whose the file was, if it went on from the export
	Name   string           `json:"name,omitempty"`   // that it then got
	Fit    int              `json:"fit"`              // answers that the memory model had been fitted to
}

// keep keeps the note of an import, as the latest.
func (n note) keep(tx *sql.Tx, id string) error {
	all, err := notesIn(tx)
	if err != nil {
		return err
	}
	n.N = 1
	if len(all) > 0 {
		n.N = all[0].N + 1
	}
	if err := tx.QueryRow("SELECT coalesce((SELECT answers FROM fit), 0)").Scan(&n.Fit); err != nil {
		return err
	}
	text, err := json.Marshal(n)
	if err != nil {
		return err
	}
	return tables.SetOrClear(tx, ImportKey+id, string(text))
}

// Imports lists the imports that can be taken back, in the order in which undo does so: the latest first.
func Imports(tx *sql.Tx) (all []Import, err error) {
	notes, err := notesIn(tx)
	for _, n := range notes {
		i := Import{ID: n.id, From: n.From, At: time.UnixMilli(n.At).UTC(), Copy: n.Copy}
		err = errors.Join(err, tx.QueryRow(`SELECT (SELECT count(*) FROM answers WHERE import = ?1), (SELECT count(*) FROM sessions WHERE import = ?1), (SELECT count(*) FROM songs WHERE import = ?1),
			(SELECT count(*) FROM items WHERE n NOT IN (`+spokenOf+` WHERE import <> ?1))`, n.id).Scan(&i.Answers, &i.Sessions, &i.Songs, &i.Items))
		all = append(all, i)
	}
	return all, err
}

// spokenOf are the numbers of the items that answers speak of, with a condition on the answers to come.
const spokenOf = `SELECT value FROM (SELECT item AS value, import FROM answers UNION ALL SELECT taken_for, import FROM answers WHERE taken_for IS NOT NULL)`

// noteOf is the note of an import.
type noteOf struct {
	id string
	note
}

// notesIn reads the notes of all imports, the latest first.
func notesIn(from tables.Reader) (all []noteOf, err error) {
	err = tables.Each(from, "SELECT key, value FROM settings WHERE key >= ? AND key < ?", []any{ImportKey, strings.TrimSuffix(ImportKey, "/") + "0"}, func(row *sql.Rows) error {
		var key, value string
		err := row.Scan(&key, &value)
		n := noteOf{id: strings.TrimPrefix(key, ImportKey)}
		_ = json.Unmarshal([]byte(value), &n.note) // what cannot be read was not written by us: the import is still known by its id
		all = append(all, n)
		return err
	})
	slices.SortFunc(all, compareNotes)
	return all, err
}

// compareNotes puts the latest import first.
func compareNotes(a, b noteOf) int {
	return cmp.Or(b.N-a.N, cmp.Compare(b.At, a.At), strings.Compare(b.id, a.id))
}

// Undo takes an import back, if it is the latest: the answers, sessions and songs that came with it and what follows from them,
// and no more. What was answered since stays.
func Undo(tx *sql.Tx, latest Import) error {
	notes, err := notesIn(tx)
	if err != nil {
		return err
	}
	if len(notes) == 0 || notes[0].id != latest.ID {
		return errors.New("another program has imported something, or taken it back, in this moment; nothing was changed")
	}
	return notes[0].takeBack(tx)
}

// takeBack takes an import out of a file.
func (n noteOf) takeBack(tx *sql.Tx) error {
	if err := deleteAnswers(tx, "import = ?", n.id); err != nil {
		return err
	}
	for _, step := range []struct {
		do   string
		args []any
	}{
		{"DELETE FROM sessions WHERE import = ? AND id NOT IN (SELECT session FROM answers)", []any{n.id}},
		{"DELETE FROM songs WHERE import = ?", []any{n.id}},
		{"DELETE FROM fit WHERE answers <> ?", []any{n.Fit}}, // it was fitted to answers that are gone
		{"DELETE FROM settings WHERE key = ?", []any{ImportKey + n.id}},
	} {
		if _, err := tx.Exec(step.do, step.args...); err != nil {
			return err
		}
	}
	if err := n.reopen(tx); err != nil {
		return err
	}
	if err := n.giveBack(tx); err != nil {
		return err
	}
	if err := tables.KeepSetting(tx, undoneKey+n.id, "yes"); err != nil { // so that it does not come back from another machine
		return err
	}
	return deriveAnew(tx)
}

// deleteAnswers deletes the answers of which a condition is true, and the items that nothing speaks of any more. All that is derived
// has to be made anew afterwards.
func deleteAnswers(tx *sql.Tx, condition string, args ...any) error {
	for _, step := range []struct {
		do   string
		args []any
	}{
		{"DELETE FROM memory; DELETE FROM weeks; DELETE FROM mistakes; DELETE FROM pace", nil}, // they speak of items
		{"DELETE FROM answers WHERE " + condition, args},
		{"DELETE FROM items WHERE n NOT IN (" + spokenOf + ")", nil},
		{"UPDATE items SET drill = '' WHERE drill <> '' AND n NOT IN (SELECT item FROM answers)", nil},
	} {
		if _, err := tx.Exec(step.do, step.args...); err != nil {
			return err
		}
	}
	return nil
}

// deriveAnew counts the answers that are left without gaps, and makes anew what is derived of them.
func deriveAnew(tx *sql.Tx) error {
	if err := tables.Interleave(tx, 1<<62, nil, time.Time{}); err != nil {
		return err
	}
	return tables.Rebuild(tx)
}

// sessionOfAnswer returns the session of an answer, and false if there is no such answer, or the file fails.
func sessionOfAnswer(tx *sql.Tx, id [16]byte) (session string, there bool, err error) {
	err = tx.QueryRow("SELECT session FROM answers WHERE id = ?", id[:]).Scan(&session)
	if errors.Is(err, sql.ErrNoRows) {
		return "", false, nil
	}
	return session, err == nil, err
}

// TakeBackAnswer takes an answer that was given here back, if it is there, with what follows from it and with its session if that holds
// no other. It stays away: a machine that has it lets it go when it is kept alike with this one.
func TakeBackAnswer(tx *sql.Tx, id [16]byte) error {
	session, there, err := sessionOfAnswer(tx, id)
	if !there {
		return err
	}
	if err := deleteAnswers(tx, "id = ?", id[:]); err != nil {
		return err
	}
	for _, step := range []struct {
		do   string
		args []any
	}{
		{"DELETE FROM sessions WHERE id = ? AND import = '' AND id NOT IN (SELECT session FROM answers)", []any{session}},
		{"DELETE FROM fit WHERE answers > (SELECT count(*) FROM answers)", nil}, // it was fitted to the answer that is gone
	} {
		if _, err := tx.Exec(step.do, step.args...); err != nil {
			return err
		}
	}
	if err := tables.KeepSetting(tx, undoneKey+hex.EncodeToString(id[:]), "yes"); err != nil {
		return err
	}
	return deriveAnew(tx)
}

// TakeBackPlayed is TakeBackAnswer of one that was played, which is counted as taken back in its session.
func TakeBackPlayed(tx *sql.Tx, id [16]byte) error {
	session, there, err := sessionOfAnswer(tx, id)
	if !there {
		return err
	}
	if err := tables.AddTakenBack(tx, session, progress.TakenBack{Counted: 1}); err != nil {
		return err
	}
	return TakeBackAnswer(tx, id)
}

// reopen makes sessions of which the import said when they ended what they were. Those that came with it and hold answers
// which did not are the file's own, or of the import that these came with.
func (n noteOf) reopen(tx *sql.Tx) error {
	for id, ended := range n.Closed {
		if _, err := tx.Exec("UPDATE sessions SET ended = NULL WHERE id = ? AND ended = ?", id, ended); err != nil {
			return err
		}
		if err := tables.SealSessions(tx, "WHERE id = ?", id); err != nil {
			return err
		}
	}
	by := map[string]string{}
	err := tables.Each(tx, "SELECT sessions.id, min(answers.import) FROM answers JOIN sessions ON sessions.id = session WHERE sessions.import = ? GROUP BY sessions.id", []any{n.id}, func(row *sql.Rows) error {
		var id, other string
		err := row.Scan(&id, &other)
		by[id] = other
		return err
	})
	for id, other := range by {
		_, wrong := tx.Exec("UPDATE sessions SET import = ? WHERE id = ?", other, id)
		err = errors.Join(err, wrong, tables.SealSessions(tx, "WHERE id = ?", id))
	}
	return err
}

// giveBack makes the file whose it was before the import.
func (n noteOf) giveBack(tx *sql.Tx) error {
	for _, id := range n.Mine {
		if err := tables.SetOrClear(tx, tables.MineKey+id, ""); err != nil {
			return err
		}
	}
	if n.Was == nil {
		return nil
	}
	if state, err := tables.Setting(tx, tables.AlikeKey); err != nil || state != "" { // other machines know it by its id
		return err
	}
	name, err := tables.Setting(tx, tables.NameKey)
	if err == nil && name == n.Name { // or it was given since
		err = tables.SetOrClear(tx, tables.NameKey, n.Was.Name)
	}
	return errors.Join(err, tables.SetOrClear(tx, tables.IdKey, n.Was.ID))
}
