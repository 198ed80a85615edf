package progress

import (
	"crypto/rand"
	"crypto/sha256"
	"database/sql"
	"encoding/base32"
	"errors"
)

// Where whose a file is stands among the settings.
const (
	idKey   = "whose/id"
	nameKey = "whose/name"
	mineKey = "mine/" // and the id of another file whose answers were taken in as the student's own
)

// longestName is how many bytes the name of a student, and the id of a file, may have.
const longestName = 100

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

func whoseIs(from reader) (w Whose, err error) {
	if w.ID, err = settingIn(from, idKey); err != nil {
		return w, err
	}
	w.Name, err = settingIn(from, nameKey)
	return w, err
}
