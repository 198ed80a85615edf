package exchange

import (
	"cmp"
	"crypto/sha256"
	"database/sql"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"maps"
	"slices"
	"strings"
	"time"

	"sparetone/progress"
	"sparetone/progress/clock"
	"sparetone/progress/exported"
	"sparetone/progress/tables"
)

// FolderKey is the setting that holds the folder through which a file is kept alike with those of other machines; there is none if
// it is not to be. Under tables.AlikeKey stands a machineState.
const FolderKey = "sync/folder"

// machineState is what a machine knows of itself and of the others.
type machineState struct {
	Machine string              `json:"machine"`
	Place   string              `json:"place"`   // where the progress file lies: the machine's name for itself and the path
	Writing int                 `json:"writing"` // of its own file
	Marks   []string            `json:"marks"`   // of its latest writings, the latest last
	Stamp   string              `json:"stamp"`   // of what was written last
	Seen    map[string]seenFile `json:"seen"`    // by machine
	Chosen  map[string]chosen   `json:"chosen"`  // by setting
}

// seenFile is what was last taken in of another machine.
type seenFile struct {
	Mark    string `json:"mark"`
	Writing int    `json:"writing"`
	Undone  int    `json:"undone"` // imports that were taken back by then: what one of them brought another file may still have
}

// chosen is the value of a setting, when it was chosen and where. Of two the later holds. No clock is trusted for that: a
// value that takes the place of another is later than it by at least a millisecond (a hybrid logical clock: Kulkarni and
// others, OPODIS 2014).
type chosen struct {
	Is      string `json:"is"` // "" where it was taken away
	At      int64  `json:"at"` // milliseconds since 1970
	Machine string `json:"by"`
}

// since reports whether a value was chosen after another.
func (c chosen) since(other chosen) bool {
	return cmp.Or(cmp.Compare(c.At, other.At), strings.Compare(c.Machine, other.Machine), strings.Compare(c.Is, other.Is)) > 0
}

// marksKept is how many of its own latest writings a machine knows again.
const marksKept = 20

func stateOf(from tables.Reader) (s machineState, err error) {
	text, err := tables.Setting(from, tables.AlikeKey)
	_ = json.Unmarshal([]byte(text), &s) // what cannot be read is not ours: it begins anew, as another machine
	if s.Seen == nil {
		s.Seen = map[string]seenFile{}
	}
	if s.Chosen == nil {
		s.Chosen = map[string]chosen{}
	}
	return s, err
}

func (s machineState) keep(tx *sql.Tx) error {
	text, err := json.Marshal(s)
	if err != nil {
		return err
	}
	if was, err := tables.Setting(tx, tables.AlikeKey); err != nil || was == string(text) {
		return err
	}
	return tables.KeepSetting(tx, tables.AlikeKey, string(text))
}

// beAnother makes a machine another than it was, because somebody else may be writing the file that was its own.
func (s *machineState) beAnother(place string) {
	s.Machine, s.Place, s.Writing, s.Marks, s.Stamp = progress.NewID(), place, 0, nil, ""
}

// undoneIn lists the imports that were taken back.
func undoneIn(from tables.Reader) (ids []string, err error) {
	err = tables.Each(from, "SELECT key FROM settings WHERE key >= ? AND key < ? ORDER BY key", []any{undoneKey, strings.TrimSuffix(undoneKey, "/") + "0"}, func(row *sql.Rows) error {
		var key string
		err := row.Scan(&key)
		ids = append(ids, strings.TrimPrefix(key, undoneKey))
		return err
	})
	return ids, err
}

// keptLines are all that a machine's file says besides sessions and answers.
type keptLines struct {
	whose   progress.Whose
	imports []noteOf
	undone  []string
	chosen  map[string]chosen
}

func keptIn(tx *sql.Tx, s machineState) (k keptLines, err error) {
	if k.whose, err = tables.WhoseIs(tx); err != nil {
		return k, err
	}
	if k.imports, err = notesIn(tx); err != nil {
		return k, err
	}
	k.undone, err = undoneIn(tx)
	k.chosen = s.Chosen
	return k, err
}

// stamp is another whenever the file would be.
func (k keptLines) stamp(from tables.Reader) (string, error) {
	says := []any{machineFormat, k.whose, len(k.imports), k.undone, k.chosen}
	for _, table := range []string{"answers", "sessions", "songs"} {
		var rows, seals int64
		if err := from.QueryRow("SELECT count(*), coalesce(sum(seal), 0) FROM "+table).Scan(&rows, &seals); err != nil {
			return "", err
		}
		says = append(says, rows, seals)
	}
	text, err := json.Marshal(says)
	sum := sha256.Sum256(text)
	return hex.EncodeToString(sum[:]), err
}

// write writes the file of a machine.
func (k keptLines) write(from tables.Reader, head machineLine, to *machineWriter) error {
	if err := to.line(head); err != nil {
		return err
	}
	for _, n := range k.imports {
		n.note.Copy, n.note.Fit, n.note.N = "", 0, 0 // of this machine alone
		if err := to.line(carriedImport{"import", n.id, n.note}); err != nil {
			return err
		}
	}
	for _, id := range k.undone {
		if err := to.line(carriedUndone{"undone", id}); err != nil {
			return err
		}
	}
	for _, key := range slices.Sorted(maps.Keys(k.chosen)) {
		if err := to.line(carriedSetting{"setting", key, k.chosen[key]}); err != nil {
			return err
		}
	}
	err := tables.SessionRows(from, "ORDER BY began, id", nil, func(s tables.SessionRow) error {
		return to.line(carriedSession{sessionLineOf(s), s.By})
	})
	if err != nil {
		return err
	}
	err = tables.SongRows(from, "", nil, func(s tables.SongRow) error { return to.line(carriedSong{exported.SongOf(s, exported.Owner{}), s.By}) })
	if err != nil {
		return err
	}
	err = tables.Answers(from, func(a tables.AnswerRow) error { return to.line(carriedAnswer{exported.AnswerOf(a, false), a.Import}) })
	if err != nil {
		return err
	}
	return to.end()
}

// AnothersFile is the error of a file of the folder that holds somebody else's practice.
type AnothersFile struct {
	Whose   progress.Whose
	Answers int
}

func (e *AnothersFile) Error() string {
	whose := "another progress file"
	if e.Whose.Name != "" {
		whose = progress.Short(e.Whose.Name)
	}
	return fmt.Sprintf("this is the practice of %s and not yours, %d answers; nothing of it was taken in", whose, e.Answers)
}

// sessionLineOf returns a session as it is exported, but for whose it is.
func sessionLineOf(s tables.SessionRow) exported.Session {
	l := exported.Session{Kind: "session", ID: s.Id, Began: clock.Writable(time.UnixMilli(s.Began).UTC()), Minutes: s.Minutes, Doubted: exported.EndsBeforeItBegan(s)}
	if s.Ended.Valid {
		ended := clock.Writable(time.UnixMilli(s.Ended.Int64).UTC())
		l.Ended = &ended
	}
	return l
}
