package drills

import (
	"slices"
	"testing"

	"sparetone/synth"
)

// What is to be clear is strummed or rises, slowly, in one voice, whatever the seed; and what is not, is not always so.
func TestClear(t *testing.T) {
	on, err := NewInstrument("ukulele", 0, "")
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []struct {
		drill, target string
		clearly       func(q *Question) bool
	}{
		{"chord-ear", "major", func(q *Question) bool { return inTuningOrder(q.Sounds[0]) }},
		{"interval-ear", "P5", func(q *Question) bool {
			notes := q.Sounds[0].Plucked()
			return q.Prompt.Equal(askRising) && notes[0].Pitch.MIDI() < notes[1].Pitch.MIDI()
		}},
	} {
		d, _ := ByID(want.drill)
		other := 0
		for seed := range uint64(40) {
			for _, clearly := range []bool{true, false} {
				q, err := d.Ask(Request{Target: want.target, On: on, Clear: clearly, Rand: QuestionRand(want.drill, want.target, seed)})
				if err != nil {
					t.Fatal(err)
				}
				is := want.clearly(q) && q.Voice == on.Voices[0]
				if clearly && !is {
					t.Errorf("%s, seed %d: %s in %s is not clear", want.drill, seed, q.Text(), q.Voice.Name())
				} else if !is {
					other++
				}
			}
		}
		if other == 0 {
			t.Errorf("%s: what need not be clear always is", want.drill)
		}
	}
	hand := Request{Clear: true}.notesHand()
	if hand.Tempo != slowestNotes || hand.Ring != longestRing {
		t.Errorf("two notes follow each other at %v and ring %v", hand.Tempo, hand.Ring)
	}
	if (Request{Clear: true}).how() != synth.Strum {
		t.Error("a clear chord is no strum")
	}
}

// inTuningOrder reports whether the strings are plucked one after the other, as a strum does.
func inTuningOrder(s Sound) bool {
	return slices.IsSortedFunc(s.Score.Plucks, func(a, b synth.Pluck) int { return int(b.String - a.String) }) &&
		s.Score.Plucks[0].At < s.Score.Plucks[len(s.Score.Plucks)-1].At
}

// A topic is what several drills teach: a kind of chord heard, seen, built and spelled is one.
func TestTopics(t *testing.T) {
	on, err := NewInstrument("ukulele", 0, "")
	if err != nil {
		t.Fatal(err)
	}
	drills := map[Topic][]string{}
	for _, d := range All() {
		for _, target := range d.Targets(on) {
			if target.Topic.Of == "" || target.Topic.ID == "" {
				t.Errorf("%s %s is about nothing", d.About().ID, target.ID)
			}
			drills[target.Topic] = append(drills[target.Topic], d.About().ID)
		}
	}
	for topic, want := range map[Topic][]string{
		{"kind", "dominant"}:            {"chord-ear", "shape-name", "shape-tones", "build", "spell"},
		{"addition", "major-sixth"}:     {"added-ear", "added-ear", "same-or-not", "swap"},
		{"pair", "major-or-minor"}:      {"same-or-not"},
		{"interval", "P5"}:              {"interval-ear"},
		{"doubled", "spare"}:            {"doubled"},
		{"tone", "third"}:               {"spell", "spell"},
		{"resolution", "dominant"}:      {"resolve"},
		{"progression", "minor-1-5-1"}:  {"progression-ear"},
		{"progression", "with-a-ninth"}: {"progression-ear"},
		{"key", "clash-with-major-1"}:   {"key-add"},
	} {
		if !slices.Equal(drills[topic], want) {
			t.Errorf("%v is taught by %v, want %v", topic, drills[topic], want)
		}
	}
}
