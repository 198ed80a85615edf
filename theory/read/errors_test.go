package read_test

import (
	"reflect"
	"testing"

	"sparetone/theory"
	"sparetone/theory/read"
	"sparetone/theory/say"
)

// What is wrong with a text is an error with what was typed and what is known of it, and is said from that.
func TestErrorsAreValues(t *testing.T) {
	only := func(_ any, err error) error { return err }
	note := func(s string) error { n, err := read.Note(s); return only(n, err) }
	kind := func(id string) *theory.Kind { k, _ := theory.KindByID(id); return k }
	chord := func(s string) error { c, err := read.Chord(s); return only(c, err) }
	key := func(s string) error { k, err := read.Key(s); return only(k, err) }
	interval := func(s string) error { i, err := read.Interval(s); return only(i, err) }
	tone := func(s string) error { i, err := read.Degree(s); return only(i, err) }
	notes := func(s string) error { n, err := read.Notes(s); return only(n, err) }
	d, c := theory.Note{Letter: theory.D}, theory.Note{Letter: theory.C}
	for _, row := range []struct {
		err    error
		want   error
		screen string
		aloud  string // where it differs
	}{
		{note("X"), read.UnreadError{Typed: "X", As: read.ANote}, `"X" is not a note: a note is a letter from A to G with # or b, such as F# or Bb`, ""},
		{key("X"), read.UnreadError{Typed: "X", As: read.AKey}, `"X" is not a key: write its tonic, and m or minor for a minor key, such as Eb or F#m`, ""},
		{key("D# major"), read.NoSignatureError{Key: theory.Key{Tonic: theory.Note{Letter: theory.D, Alter: 1}}},
			"D♯ major has no key signature: keys go from seven flats to seven sharps", "D sharp major has no key signature: keys go from seven flats to seven sharps"},
		{interval("q"), read.UnreadError{Typed: "q", As: read.AnInterval}, `"q" is not an interval: write one such as m3, b3, minor third or fifth`, ""},
		{tone("q"), read.UnreadError{Typed: "q", As: read.ATone}, `"q" is not a tone of a chord: write one such as R, b3, 5 or minor third`, ""},
		{notes(" , "), read.NoNotesError{}, "no notes: write them with spaces between, such as C E G", ""},
		{notes("C fac"), read.TogetherError{Typed: "fac"}, `"fac" is more than one note: leave a space between notes`, ""},
		{notes("fis b"), read.GermanBError{B: "b", Beside: "fis"}, "b beside fis could be B flat or B natural: write Bb, or H", ""},
		{chord("B-dur"), read.GermanBError{B: "B", Beside: "dur"}, "B beside dur could be B flat or B natural: write Bb, or H", ""},
		{chord("Do7"), read.TwoChordsError{Typed: "Do7", Could: [2]theory.Chord{theory.NewChord(c, kind("dominant")), theory.NewChord(d, kind("diminished-seventh"))}},
			"Do7 could be C7 or Ddim7: write one of these", "Do7 could be C7 or D diminished seventh: write one of these"},
		{chord("Cq"), &read.SymbolError{Symbol: "Cq", At: 2, Problem: say.Of("{} says nothing in a chord symbol here", say.Foreign("'q'")), Nearest: "C"},
			`"Cq": character 2: 'q' says nothing in a chord symbol here; the nearest we know is C`, ""},
	} {
		if !reflect.DeepEqual(row.err, row.want) {
			t.Errorf("%#v, want %#v", row.err, row.want)
			continue
		}
		if row.aloud == "" {
			row.aloud = row.screen
		}
		if got := row.err.Error(); got != row.screen {
			t.Errorf("%s, want %s", got, row.screen)
		}
		if got := say.Said(row.err).Aloud(); got != row.aloud {
			t.Errorf("%s, want %s", got, row.aloud)
		}
	}
}
