package drills

import (
	"slices"
	"testing"

	"sparetone/synth"
)

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
