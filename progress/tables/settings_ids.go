package tables

import (
	"database/sql"
	"strings"
)

// Up to version 5 of the schema some settings were kept in the words in which they were shown. They are ids from version 6 on, so
// that wording can change. An older program, which would take an id for nonsense and practise with what is usual, refuses a
// file of version 6 because of its number.

// settingsAsIDs is the step that says so; SettingsToIDs writes the rows anew.
const settingsAsIDs = "-- Settings are kept as ids."

// idsOfWords are the ids of what was kept in words, by the setting. A key was kept by its name, a place in the course by a
// sentence; see IdOfWords.
var idsOfWords = map[string]map[string]string{
	"hand":   {"right-handed": "right", "left-handed": "left"},
	"answer": {"one key": "choose", "typing": "type"},
	"voice":  {"another each time": "any"},
	"level": {
		"from the beginning":                      "ear=,eye=",
		"major, minor and plain shapes are known": "ear=thirds,eye=thirds",
		"sevenths and ninths are known":           "ear=soft-sevenths,eye=soft-sevenths",
		"suspended and added notes are known":     "ear=added-heard,eye=added-heard",
	},
}

// IdOfWords returns the id of a value that was kept in words, and the value itself if it was not.
func IdOfWords(key, value string) string {
	if id, ok := idsOfWords[key][value]; ok {
		return id
	}
	switch key {
	case "key": // Bb minor
		if tonic, ok := strings.CutSuffix(value, " major"); ok {
			return tonic
		}
		if tonic, ok := strings.CutSuffix(value, " minor"); ok {
			return tonic + "m"
		}
	case "level": // by ear from the beginning, by eye from thirds
		steps, ok := strings.CutPrefix(value, "by ear from ")
		ear, eye, both := strings.Cut(steps, ", by eye from ")
		if ok && both {
			return "ear=" + idOfStep(ear) + ",eye=" + idOfStep(eye)
		}
	}
	return value
}

// idOfStep returns the id of a step in such a sentence, empty for the beginning of the course.
func idOfStep(words string) string {
	if words == "the beginning" {
		return ""
	}
	return words
}

// SettingsToIDs writes the settings that are kept in words as ids. One that is no longer what was written stays as it is, so
// that it is still told.
func SettingsToIDs(tx *sql.Tx) error {
	ids := map[string]string{}
	err := Each(tx, "SELECT key, value, seal FROM settings", nil, func(row *sql.Rows) error {
		var key, value string
		var seal sql.NullInt64
		err := row.Scan(&key, &value, &seal)
		if id := IdOfWords(key, value); id != value && !Broken(seal, SealOf(key, value)) {
			ids[key] = id
		}
		return err
	})
	if err != nil {
		return err
	}
	for key, id := range ids {
		if err := KeepSetting(tx, key, id); err != nil {
			return err
		}
	}
	return nil
}
