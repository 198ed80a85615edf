package ear

import (
	"testing"

	"sparetone/theory"
)

// Two notes are written with as few sharps and flats as can be, both counted: C♯ E and not D♭ F♭, but D♭ F and not C♯ E♯.
func TestIntervalsAreWrittenEasily(t *testing.T) {
	for _, row := range []struct {
		midi  int
		above theory.Interval
		want  string
	}{
		{61, theory.MinorThird, "C♯4"}, {61, theory.MajorThird, "D♭4"}, {60, theory.MajorThird, "C4"}, {66, theory.PerfectFourth, "F♯4"},
		{68, theory.MinorThird, "G♯4"}, {70, theory.PerfectFifth, "B♭4"},
	} {
		if p, ok := spellEasily(row.midi, row.above); !ok || p.String() != row.want {
			t.Errorf("%d below %s is written %s, want %s", row.midi, row.above.Name(), p, row.want)
		}
	}
}
