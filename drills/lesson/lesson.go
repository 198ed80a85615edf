// Package lesson reads what a teacher has set: chords, shapes, songs and steps, whose questions are held to them. It says what is
// wrong with a lesson by line and column, lays it on an instrument, and writes one from a song.
package lesson

import (
	"crypto/sha256"
	"encoding/hex"

	"sparetone/drills/course"
	"sparetone/drills/neck"
	"sparetone/progress"
	"sparetone/theory"
	"sparetone/theory/fret"
	"sparetone/theory/song"
)

// Lesson is what a teacher has set. What a file does not say is zero.
type Lesson struct {
	ID      string // the same for all who take the same file
	Name    string // the file's, if the lesson has none
	From    string // teacher
	Due     progress.Day
	Minutes int // of a practice
	Tuning  *fret.Tuning
	Key     *theory.Key
	Chords  []neck.HeldChord // with their shapes on the tuning
	Moves   []neck.HeldMove  // on the tuning
	Songs   []Song
	Steps   course.Course
	Made    bool              // the steps are made of the chords, for the file has none
	Text    string            // the file as it was read
	Charts  map[string]string // that lie beside it, by their names
}

// Song is a song of a lesson.
type Song struct {
	Name string // of its file; "" if it stands in the lesson
	song.Song
}

// Beside reads a chart that a lesson names: a file that lies beside it.
type Beside func(name string) (chart string, err error)

// isPlain reports whether a lesson says no more than its steps.
func (l Lesson) isPlain() bool { return len(l.Chords) == 0 }

// idOf returns the id of a lesson: a part of the sum over its text, enough that no two that anybody has are the same.
func idOf(text []byte) string {
	sum := sha256.Sum256(text)
	return hex.EncodeToString(sum[:8])
}
