package store

import (
	"database/sql"
	_ "embed"
	"path/filepath"
	"strings"
	"testing"

	"sparetone/progress/tables"
)

//go:embed testdata/settings-in-words.sql
var settingsInWords string

// inWords is the version of the schema that was the last to keep settings in words.
const inWords = 5

// fileInWords makes the file of somebody who practised when settings were kept in words, and does something to it.
func fileInWords(t *testing.T, harm string) (path string) {
	t.Helper()
	path = filepath.Join(t.TempDir(), "progress.db")
	db, err := sql.Open("sqlite", path)
	if err != nil {
		t.Fatal(err)
	}
	defer db.Close()
	err = tables.Write(db, func(tx *sql.Tx) error {
		if err := tables.Migrate(tx, 0, inWords); err != nil {
			return err
		}
		_, err := tx.Exec(settingsInWords + harm)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return path
}

// settingsAre compares settings of a file with what they should be.
func settingsAre(t *testing.T, f *File, want map[string]string) {
	t.Helper()
	for key, value := range want {
		if got, set, err := f.Setting(key); got != value || !set || err != nil {
			t.Errorf("%s: %q, %v, %v, want %q", key, got, set, err, value)
		}
	}
}

// theirIDs are what the settings in words come to.
var theirIDs = map[string]string{
	"hand": "left", "answer": "type", "voice": "any", "key": "Bbm", "level": "ear=thirds,eye=",
	"a4": "440", "capo": "2", "colours": "dark", "minutes": "10", "movement": "off", "tuning": "ukulele", "volume": "5",
	"welcomed": "yes", "whose/id": "HQ7P3T6NEQIXPH22KV7MVEUNLI", "whose/name": "Ada",
}

// Settings that were kept in words are ids once the file is opened, under seal, and all else is as it was. The file as it was
// stays beside it.
func TestSettingsInWordsBecomeIDs(t *testing.T) {
	path := fileInWords(t, "")
	f := openAt(t, path, evening)
	settingsAre(t, f, theirIDs)
	sound(t, f, 1)
	if says, err := tables.BrokenRows(f.db); len(says) > 0 || err != nil {
		t.Error(says, err)
	}
	f.Close()
	f = openAt(t, path, evening)
	settingsAre(t, f, theirIDs)
	f.Close()
	kept := false
	for _, c := range CopiesOf(path) {
		kept = kept || strings.Contains(c.Path, "before-schema-6")
	}
	if !kept {
		t.Error("there is no copy of the file as it was")
	}
}

// Whoever only reads such a file, rescues it or goes back to it has ids as well.
func TestSettingsInWordsBecomeIDsHoweverRead(t *testing.T) {
	path := fileInWords(t, "")
	f, err := OpenToRead(path, clockAt(evening))
	if err != nil {
		t.Fatal(err)
	}
	settingsAre(t, f, theirIDs)
	f.Close()
	rescued := filepath.Join(t.TempDir(), "rescued.db")
	if _, err := Rescue(path, rescued, clockAt(evening)); err != nil {
		t.Fatal(err)
	}
	settingsAre(t, openAt(t, rescued, evening), theirIDs)
	new := filepath.Join(t.TempDir(), "progress.db")
	if _, err := Restore(new, path, clockAt(evening)); err != nil {
		t.Fatal(err)
	}
	settingsAre(t, openAt(t, new, evening), theirIDs)
}

// A setting that is no longer what was written is not sealed anew: it is told, and stays as it is.
func TestBrokenSettingsInWordsAreTold(t *testing.T) {
	path := fileInWords(t, "UPDATE settings SET value = 'right-handed' WHERE key = 'hand'")
	if f, err := Open(path, clockAt(evening)); err == nil || !strings.Contains(err.Error(), "a setting is not what was written") {
		if f != nil {
			f.Close()
		}
		t.Errorf("%v", err)
	}
}

// The words of every value that there was, and the id of each. What is none of them stays.
func TestIDsOfWords(t *testing.T) {
	for _, row := range [][3]string{
		{"hand", "right-handed", "right"}, {"hand", "left-handed", "left"}, {"hand", "left", "left"},
		{"answer", "one key", "choose"}, {"answer", "typing", "type"},
		{"voice", "another each time", "any"}, {"voice", "tenor", "tenor"},
		{"key", "none", "none"}, {"key", "C major", "C"}, {"key", "F# minor", "F#m"}, {"key", "Bbm", "Bbm"},
		{"level", "from the beginning", "ear=,eye="},
		{"level", "major, minor and plain shapes are known", "ear=thirds,eye=thirds"},
		{"level", "sevenths and ninths are known", "ear=soft-sevenths,eye=soft-sevenths"},
		{"level", "suspended and added notes are known", "ear=added-heard,eye=added-heard"},
		{"level", "by ear from the beginning, by eye from thirds", "ear=,eye=thirds"},
		{"level", "by ear from thirds, by eye from added-heard", "ear=thirds,eye=added-heard"},
		{"level", "ear=thirds,eye=", "ear=thirds,eye="},
		{"level", "by ear from thirds", "by ear from thirds"},
		{"tuning", "C major", "C major"}, {"whose/name", "left-handed", "left-handed"},
	} {
		if got := tables.IdOfWords(row[0], row[1]); got != row[2] {
			t.Errorf("%s %q becomes %q, want %q", row[0], row[1], got, row[2])
		}
	}
}
