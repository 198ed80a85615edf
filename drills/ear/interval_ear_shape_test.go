package ear

import (
	"testing"

	"sparetone/drills/neck"
	"sparetone/theory"
	"sparetone/theory/fret"
)

// The shape that is shown sounds the two notes that are heard, on a string that begins further up the neck as well.
func TestIntervalsAreShownWhereTheySound(t *testing.T) {
	for _, name := range []string{"banjo", "ukulele", "guitar"} {
		on, err := neck.NewInstrument(name, 0, "")
		if err != nil {
			t.Fatal(err)
		}
		for _, target := range (Interval{}).Targets(on) {
			want, err := theory.ParseInterval(target.ID)
			if err != nil {
				t.Fatal(err)
			}
			for _, s := range spotsOf(on.Tuning, want) {
				v := s.voicing(on.Tuning, want)
				sum := 0
				for i, f := range v.Shape {
					if f != fret.Muted {
						sum += on.Tuning.MIDI(i, f)
					}
				}
				if sum != s.low.MIDI()+s.high.MIDI() || s.high.MIDI()-s.low.MIDI() != want.Semitones {
					t.Fatalf("%s: %v and %v are shown as %s", name, s.low, s.high, v.Shape)
				}
			}
		}
	}
}
