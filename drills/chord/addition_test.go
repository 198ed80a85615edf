package chord

import "testing"

// An addition is read by its name, its figure, its interval or the kind that comes of it, but never as one of the other triad.
func TestReadAddition(t *testing.T) {
	for _, row := range []struct{ plain, typed, coloured string }{
		{"major", "9th", "added-ninth"},
		{"major", " ninth ", "added-ninth"},
		{"major", "add9", "added-ninth"},
		{"major", "4", "added-fourth"},
		{"major", "b7", "dominant"},
		{"major", "m7", "dominant"}, // the interval
		{"major", "maj7", "major-seventh"},
		{"major", "sus4", "suspended-fourth"},
		{"major", "fourth in place of the third", "suspended-fourth"},
		{"minor", "9", "minor-added-ninth"},
		{"minor", "m7", "minor-seventh"},
		{"minor", "maj7", ""},
		{"minor", "", ""},
		{"diminished", "9", ""},
	} {
		a, ok := ReadAddition(Kind(row.plain), row.typed)
		if ok != (row.coloured != "") || a.Coloured != row.coloured {
			t.Errorf("%q to a %s triad is %q, want %q", row.typed, row.plain, a.Coloured, row.coloured)
		}
	}
}

// Each addition makes of its triad a kind that has one tone more, or another in place of the third.
func TestAdditionsAddOneTone(t *testing.T) {
	for _, a := range Additions {
		gained, lost := 0, 0
		for _, tone := range a.To().Formula {
			if own, ok := a.From().Tone(tone); !ok || own != tone {
				gained++
			}
		}
		for _, tone := range a.From().Formula {
			if own, ok := a.To().Tone(tone); !ok || own != tone {
				lost++
			}
		}
		if gained != 1 || (lost == 1) != a.Suspends {
			t.Errorf("%s to %s: %d tones come in, %d go, suspends is %v", a.Plain, a.Coloured, gained, lost, a.Suspends)
		}
		if got, ok := AdditionTo(a.Coloured); !ok || got.Plain != a.Plain {
			t.Errorf("%s comes of %s, want %s", a.Coloured, got.Plain, a.Plain)
		}
		if !IsAddition(a.From(), a.To()) || IsAddition(a.To(), a.From()) {
			t.Errorf("%s to %s is an addition, and not the other way round", a.Plain, a.Coloured)
		}
	}
	if got := len(AdditionsTo(Kind("major"))) + len(AdditionsTo(Kind("minor"))); got != len(Additions) {
		t.Errorf("%d additions are to a major or minor triad, of %d", got, len(Additions))
	}
	if _, ok := AdditionTo("major"); ok {
		t.Error("a plain triad comes of an addition")
	}
}
