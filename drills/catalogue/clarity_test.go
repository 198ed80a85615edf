package catalogue

import (
	"slices"
	"testing"

	"sparetone/drills"
	"sparetone/drills/neck"
	"sparetone/synth"
)

// inTuningOrder reports whether the strings are plucked one after the other, as a strum does.
func inTuningOrder(s drills.Sound) bool {
	return slices.IsSortedFunc(s.Score.Plucks, func(a, b synth.Pluck) int { return int(b.String - a.String) }) &&
		s.Score.Plucks[0].At < s.Score.Plucks[len(s.Score.Plucks)-1].At
}

// A topic is what several teach teach: a kind of chord heard, seen, built and spelled is one.
func TestTopics(t *testing.T) {
	on, err := neck.NewInstrument("ukulele", 0, "")
	if err != nil {
		t.Fatal(err)
	}
	teach := map[drills.Topic][]string{}
	for _, d := range All() {
		for _, target := range d.Targets(on) {
			if target.Topic.Of == "" || target.Topic.ID == "" {
				t.Errorf("%s %s is about nothing", d.About().ID, target.ID)
			}
			teach[target.Topic] = append(teach[target.Topic], d.About().ID)
		}
	}
	for topic, want := range map[drills.Topic][]string{
		{Of: "kind", ID: "dominant"}:            {"chord-ear", "shape-name", "shape-tones", "build", "spell"},
		{Of: "addition", ID: "major-sixth"}:     {"added-ear", "added-ear", "same-or-not", "swap"},
		{Of: "pair", ID: "major-or-minor"}:      {"same-or-not"},
		{Of: "interval", ID: "P5"}:              {"interval-ear"},
		{Of: "doubled", ID: "spare"}:            {"doubled"},
		{Of: "tone", ID: "third"}:               {"spell", "spell"},
		{Of: "resolution", ID: "dominant"}:      {"resolve"},
		{Of: "progression", ID: "minor-1-5-1"}:  {"progression-ear"},
		{Of: "progression", ID: "with-a-ninth"}: {"progression-ear"},
		{Of: "key", ID: "clash-with-major-1"}:   {"key-add"},
	} {
		if !slices.Equal(teach[topic], want) {
			t.Errorf("%v is taught by %v, want %v", topic, teach[topic], want)
		}
	}
}
