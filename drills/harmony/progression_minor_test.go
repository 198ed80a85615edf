package harmony

import (
	"slices"
	"strings"
	"testing"

	"sparetone/drills"
	"sparetone/drills/chord"
	"sparetone/drills/trial"
	"sparetone/progress"
	"sparetone/synth"
	"sparetone/theory"
)

// V of a minor key is told for having the raised seventh, and no other row is.
func TestRaisedSeventhInARow(t *testing.T) {
	d, on := ProgressionEar{}, trial.Ukulele(t)
	for _, row := range []struct{ id, says string }{{"minor-1-5-1", "minor, V has "}, {"minor-2-5-1", "minor, V has "}, {"minor-1-7-6", ""}, {"minor-1-4-1", ""}, {"1-4-5", ""}} {
		q := trial.Ask(t, d, row.id, on, 1)
		v := q.Solution()
		said := ""
		for _, l := range v.Lines {
			if strings.Contains(l.Screen(), "raised seventh") {
				said = l.Screen()
			}
		}
		if (row.says == "") != (said == "") || !strings.Contains(said, row.says) {
			t.Errorf("%s: %q", row.id, v.Lines)
		}
		if said == "" {
			continue
		}
		// The note lies a semitone below the tonic, which is heard first, and sounds in the chord.
		note := chord.MustNotes(trial.Typed(strings.TrimSuffix(strings.Fields(said)[5], ",")))[0]
		tonic := q.Sounds[0].Notes[slices.IndexFunc(q.Sounds[0].Notes, func(n synth.Sounding) bool { return n.String == q.Sounds[0].Root })].Pitch
		if (tonic.Class()-note.Class()+12)%12 != 1 || !slices.ContainsFunc(v.Shapes, func(r drills.Reveal) bool {
			return slices.ContainsFunc(r.Voicing.Pitches(), func(p theory.Pitch) bool { return p.Note == note })
		}) {
			t.Errorf("%q", said)
		}
	}
}

// The two in minor is diminished, and its sign may be typed as any of these.
func TestDiminishedNumerals(t *testing.T) {
	q := trial.Ask(t, ProgressionEar{}, "minor-2-5-1", trial.Ukulele(t), 1)
	if want := "ii° V i"; q.Expected().Said.Screen() != want {
		t.Errorf("%s, want %s", q.Expected().Said.Screen(), want)
	}
	for _, text := range []string{"iio V i", "ii° V i", "iidim V i", "ii V i", "2-5-1", "two five one"} {
		if v, err := q.Mark(text); err != nil || v.Result != progress.Right {
			t.Errorf("%q is marked %v, %v", text, v.Result, err)
		}
	}
}
