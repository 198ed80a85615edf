package drills

import (
	"slices"
	"testing"

	"sparetone/synth"
)

// What is to be clearest is strummed or rises, in the instrument's own voice, whatever the seed. What is to be clear is in that
// voice, and does not sound together; and any form is not always so.
func TestClarity(t *testing.T) {
	on, err := NewInstrument("mandolin", 0, "")
	if err != nil {
		t.Fatal(err)
	}
	if on.Voices[0].Name() != "mandolin" || len(on.Voices) != len(synth.Voices()) {
		t.Fatalf("a mandolin sounds like %v", on.Voices)
	}
	own := func(q *Question) bool { return q.Voice == on.Voices[0] }
	rising := func(q *Question) bool { return q.Prompt.Equal(askRising) }
	strummed := func(q *Question) bool { return inTuningOrder(q.Sounds[0]) }
	for _, want := range []struct {
		drill, target string
		clarity       Clarity
		always        []func(q *Question) bool
		notAlways     []func(q *Question) bool
	}{
		{"chord-ear", "major", Clearest, []func(*Question) bool{own, strummed}, nil},
		{"chord-ear", "major", Clear, []func(*Question) bool{own}, []func(*Question) bool{strummed}},
		{"chord-ear", "major", AnyForm, nil, []func(*Question) bool{own, strummed}},
		{"interval-ear", "P5", Clearest, []func(*Question) bool{own, rising}, nil},
		{"interval-ear", "P5", Clear, []func(*Question) bool{own, func(q *Question) bool { return !q.Prompt.Equal(askTogether) }}, []func(*Question) bool{rising}},
		{"interval-ear", "P5", AnyForm, nil, []func(*Question) bool{own, rising, func(q *Question) bool { return !q.Prompt.Equal(askTogether) }}},
	} {
		d, _ := ByID(want.drill)
		times := make([]int, len(want.notAlways))
		const seeds = 40
		for seed := range uint64(seeds) {
			q, err := d.Ask(Request{Target: want.target, On: on, Clarity: want.clarity, Rand: QuestionRand(want.drill, want.target, seed)})
			if err != nil {
				t.Fatal(err)
			}
			for n, is := range want.always {
				if !is(q) {
					t.Errorf("%s, clarity %d, seed %d: %s is not so, %d", want.drill, want.clarity, seed, q.Text(), n)
				}
			}
			for n, is := range want.notAlways {
				if is(q) {
					times[n]++
				}
			}
		}
		for n, of := range times {
			if of == seeds {
				t.Errorf("%s, clarity %d is always so, %d", want.drill, want.clarity, n)
			}
		}
	}
}

// What is new is asked at its clearest, and in any form once it was right three times in a row.
func TestClarityAfter(t *testing.T) {
	for right, want := range []Clarity{Clearest, Clear, Clear, AnyForm, AnyForm} {
		if got := ClarityAfter(right); got != want {
			t.Errorf("after %d it is asked with clarity %d, want %d", right, got, want)
		}
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
