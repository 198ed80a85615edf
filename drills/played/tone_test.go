package played

import (
	"math/rand/v2"
	"strings"
	"testing"

	"sparetone/drills"
	"sparetone/drills/catalogue"
	"sparetone/drills/neck"
)

// Which tone of a chord a note is, is answered by the root and the note, in any octave; what is no tone of such a chord is asked for again.
func TestTheToneOfAChordIsPlayed(t *testing.T) {
	on, err := neck.NewInstrument("ukulele", 0, "")
	if err != nil {
		t.Fatal(err)
	}
	d, _ := catalogue.ByID("spell")
	for target, tones := range map[string]map[int]string{
		"fifth-of-triad":     {0: "root", 3: "third", 4: "third", 7: "fifth", 12: "root", 19: "fifth", -9: "third", -5: "fifth"},
		"seventh-of-seventh": {0: "root", 3: "third", 4: "third", 7: "fifth", 10: "seventh", 11: "seventh", -2: "seventh"},
	} {
		q, err := d.Ask(drills.Request{Target: target, On: on, Rand: rand.New(rand.NewPCG(1, 1))})
		if err != nil {
			t.Fatal(err)
		}
		a := New(q, on, 0)
		if a == nil || a.Listens().Notes == nil || !a.Listens().Notes.Sung {
			t.Fatalf("%s cannot be played and sung", target)
		}
		for above := -9; above < 20; above++ {
			if first := a.Take(Heard{Note: &Note{MIDI: 60}}); first.Answer != "" || !strings.HasPrefix(first.Says.Screen(), "One note") {
				t.Fatalf("%s: the root alone: %+v", target, first)
			}
			want, is := tones[above]
			if !is && tones[(above+12)%12] != "" {
				want = tones[(above+12)%12]
			}
			came := a.Take(Heard{Note: &Note{MIDI: 60 + above}})
			if came.Answer != want || came.Anew != (want != "") || came.Right != (want != "" && want == q.Expected().Typed) {
				t.Errorf("%s: %d above the root is %q, right %v; want %q", target, above, came.Answer, came.Right, want)
			}
			if want == "" && !strings.Contains(came.Says.Screen(), "above the first note is no tone of such a chord. Play or sing the root") {
				t.Errorf("%s: %d above the root: %s", target, above, came.Says.Screen())
			}
		}
	}
}
