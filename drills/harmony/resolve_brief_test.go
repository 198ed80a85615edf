package harmony

import (
	"strings"
	"testing"

	"sparetone/drills"
	"sparetone/drills/chord"
	"sparetone/drills/trial"
	"sparetone/theory"
)

// Of the tones that move where a chord goes one is told at once, the one that pulls most; all are in the explanation.
func TestOneTendencyAtOnce(t *testing.T) {
	on := trial.Instrument(t, "ukulele")
	for target, want := range map[string]string{"dominant": "major third, rises", "diminished": "root, rises", "suspended-fourth": "fourth, falls", "dominant-ninth": "major third, rises"} {
		for seed := range uint64(8) {
			q, err := Resolve{}.Ask(drills.Request{Target: target, On: on, Clarity: drills.Clearest, Reach: 1, Rand: drills.QuestionRand("resolve", target, seed)})
			if err != nil {
				t.Fatal(err)
			}
			v := q.Solution()
			short, all := v.Short.Screen(), v.Lines[0].Screen()
			if !strings.Contains(short, want) || strings.Contains(short, ";") || !strings.Contains(all, ": "+strings.TrimSuffix(short[strings.Index(short, ", ")+2:], ".")) {
				t.Errorf("%s: at once %q, and of all %q", target, short, all)
			}
			if target == "dominant" && !strings.Contains(all, "seventh, falls") {
				t.Errorf("%q leaves something out", all)
			}
		}
	}
}

// A note that stays while its letter changes is said to be written otherwise; one that keeps its letter is said to stay.
func TestWhatStaysMayBeWrittenOtherwise(t *testing.T) {
	for root, want := range map[string]string{
		"D#": "It can also go to E♭, less strongly: D♯ stays and is written E♭ there, and the other notes move.",
		"C":  "It can also go to C, less strongly: its root stays, and the other notes move.",
	} {
		from := chord.MustNotes(root)[0]
		c := theory.NewChord(from, chord.Kind("diminished-seventh"))
		if got := sayAlsoStaying(c, goal{theory.Unison, "major"}.triad(from)).Screen(); got != want {
			t.Errorf("%s: %q, want %q", root, got, want)
		}
	}
}

// Where a minor key has a raised seventh the key is said first: a numeral begins no sentence.
func TestRaisedSeventhInItsKey(t *testing.T) {
	k, a := theory.Key{Tonic: chord.MustNotes("A")[0], Minor: true}, theory.NewChord(chord.MustNotes("E")[0], chord.Kind("major"))
	if got, want := sayRaised(k, a, chord.MustNotes("G#")[0]).Aloud(), "In A minor, five has G sharp, the raised seventh."; got != want {
		t.Errorf("%q, want %q", got, want)
	}
}
