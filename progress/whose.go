package progress

import (
	"crypto/rand"
	"crypto/sha256"
	"database/sql"
	"encoding/base32"
	"errors"
	"fmt"
)

// Whose says whose practice a file or an export holds.
type Whose struct {
	ID   string // random, the same for all copies of a file and for files that go on from its export
	Name string // as the student gave it; "" if none was given
}

// String returns the name, or the id where there is none.
func (w Whose) String() string {
	if w.Name != "" {
		return w.Name
	}
	return w.ID
}

// Where whose a file is stands among the settings.
const (
	idKey   = "whose/id"
	nameKey = "whose/name"
	mineKey = "mine/" // and the id of another file whose answers were taken in as the student's own
)

// longestName is how many bytes the name of a student, and the id of a file, may have.
const longestName = 100

// Whose returns whose practice the file holds.
func (f *File) Whose() (Whose, error) {
	w, err := whoseIs(f.db)
	return w, plain(err)
}

// ErrName is the error of a name that cannot be kept.
var ErrName = fmt.Errorf("a name is a line of %d bytes at most, without control characters", longestName)

// SetName gives the student a name, which goes with every export; "" takes it away.
func (f *File) SetName(name string) error {
	if len(name) > longestName || tidy(name) != name {
		return ErrName
	}
	return f.change(func(tx *sql.Tx) error { return setOrClear(tx, nameKey, name) })
}

func whoseIs(from reader) (w Whose, err error) {
	if w.ID, err = settingIn(from, idKey); err != nil {
		return w, err
	}
	w.Name, err = settingIn(from, nameKey)
	return w, err
}

// giveID gives a file the id that says whose it is, unless it has one. A file from before there were ids has the one
// that follows from its first answer, so that what is exported of it and of its copies is known to be the same student's.
func giveID(tx *sql.Tx) error {
	if id, err := settingIn(tx, idKey); err != nil || id != "" {
		return err
	}
	var first []byte
	err := tx.QueryRow("SELECT id FROM answers ORDER BY n LIMIT 1").Scan(&first)
	if errors.Is(err, sql.ErrNoRows) {
		return setOrClear(tx, idKey, rand.Text())
	} else if err != nil {
		return err
	}
	return setOrClear(tx, idKey, idFrom(first))
}

// idFrom returns the id of a file from before there were ids, of which this is the first answer's. It looks like those of
// rand.Text.
func idFrom(firstAnswer []byte) string {
	sum := sha256.Sum256(append([]byte("sparetone progress file "), firstAnswer...))
	return base32.StdEncoding.EncodeToString(sum[:])[:26]
}

// isMine reports whether a file holds the practice that an id says: it is its own, or was taken in as the student's own.
func isMine(from reader, id string) (bool, error) {
	own, err := settingIn(from, idKey)
	if err != nil || own == id {
		return own == id, err
	}
	var taken bool
	err = from.QueryRow("SELECT EXISTS (SELECT 1 FROM settings WHERE key = ?)", mineKey+id).Scan(&taken)
	return taken, err
}

// settingIn returns a setting, "" if there is none.
func settingIn(from reader, key string) (value string, err error) {
	err = from.QueryRow("SELECT value FROM settings WHERE key = ?", key).Scan(&value)
	if errors.Is(err, sql.ErrNoRows) {
		return "", nil
	}
	return value, err
}

// setOrClear keeps a setting, or takes it away where it is to be "".
func setOrClear(tx *sql.Tx, key, value string) (err error) {
	if value == "" {
		_, err = tx.Exec("DELETE FROM settings WHERE key = ?", key)
	} else {
		_, err = tx.Exec(keepSetting, key, value, sealOf(key, value))
	}
	return err
}
