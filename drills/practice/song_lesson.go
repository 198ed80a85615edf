package practice

import "sparetone/drills/lesson"

// Lesson is the text of a lesson made from the song. The error says that no drill asks for any of its chords.
func (w *SongWork) Lesson() (string, error) {
	return lesson.OfSong(w.Arrangement, w.Title().Screen(), w.Chart())
}
