package tables

import (
	"crypto/rand"
	"crypto/sha256"
	"database/sql"
	"encoding/base32"
	"errors"

	"sparetone/progress"
)

// Where whose a file is stands among the settings.
const (
	IdKey   = "whose/id"
	NameKey = "whose/name"
	MineKey = "mine/" // and the id of another file whose answers were taken in as the student's own
)

// LongestName is how many bytes the name of a student, and the id of a file, may have.
const LongestName = 100

// GiveID gives a file the id that says whose it is, unless it has one. A file from before there were ids has the one
// that follows from its first answer, so that what is exported of it and of its copies is known to be the same student's.
func GiveID(tx *sql.Tx) error {
	if id, err := Setting(tx, IdKey); err != nil || id != "" {
		return err
	}
	var first []byte
	err := tx.QueryRow("SELECT id FROM answers ORDER BY n LIMIT 1").Scan(&first)
	if errors.Is(err, sql.ErrNoRows) {
		return SetOrClear(tx, IdKey, rand.Text())
	} else if err != nil {
		return err
	}
	return SetOrClear(tx, IdKey, IdFrom(first))
}

// IdFrom returns the id of a file from before there were ids, of which this is the first answer's. It looks like those of
// rand.Text.
func IdFrom(firstAnswer []byte) string {
	sum := sha256.Sum256(append([]byte("sparetone progress file "), firstAnswer...))
	return base32.StdEncoding.EncodeToString(sum[:])[:26]
}

// IsMine reports whether a file holds the practice that an id says: it is its own, or was taken in as the student's own.
func IsMine(from Reader, id string) (bool, error) {
	own, err := Setting(from, IdKey)
	if err != nil || own == id {
		return own == id, err
	}
	var taken bool
	err = from.QueryRow("SELECT EXISTS (SELECT 1 FROM settings WHERE key = ?)", MineKey+id).Scan(&taken)
	return taken, err
}

func WhoseIs(from Reader) (w progress.Whose, err error) {
	if w.ID, err = Setting(from, IdKey); err != nil {
		return w, err
	}
	w.Name, err = Setting(from, NameKey)
	return w, err
}
