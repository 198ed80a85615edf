package lesson

import (
	"slices"
	"strings"
	"testing"
)

// A sheet of a lesson has each plain chord in its shapes, beside what one string makes of it, on whatever instrument, and its songs.
func TestWhatASheetShows(t *testing.T) {
	l, err := Read("week.toml", strings.NewReader(week), charts)
	if err != nil {
		t.Fatal(err)
	}
	for tuning, want := range map[string][]string{
		"ukulele": {"C 0003", "Am 2000", "F 2010>Fadd9 0010", "G7 0212"},
		"guitar":  {"C x32010", "Am x02210", "F xx3211>Fadd9 xx3213", "G7 320001"},
	} {
		a := l.On(instrument(tuningOf(t, tuning))).Sheet()
		var shows []string
		for _, p := range a.Places {
			s := p.Chord.Symbol() + " " + p.Plain.Shape.String()
			if c := p.Path.Colour; c != nil {
				s += ">" + c.Chord.Symbol() + " " + c.Shape.String()
			}
			shows = append(shows, s)
		}
		if !slices.Equal(shows, want) || a.Song.Header.Title != "Ninths in a loop" || len(a.Song.Sections) != 1 {
			t.Errorf("%s: %q, want %q", tuning, shows, want)
		}
	}
}
