package practice

import (
	"slices"
	"testing"
	"time"

	"sparetone/drills"
	"sparetone/drills/catalogue"
	"sparetone/progress"
)

// Each drill that teaches kinds of chord has a column, and what is known of a kind stands where it belongs, what was met first.
func TestKindMap(t *testing.T) {
	p, now := appOf(t)
	for _, d := range catalogue.All() {
		teaches := slices.ContainsFunc(d.Targets(p.Session.On()), func(t drills.Target) bool { return t.Topic.Of == "kind" })
		column := false
		for _, c := range kindColumns {
			column = column || c.drill == d.About().ID
		}
		if teaches != column {
			t.Errorf("%s teaches kinds: %v, and has a column: %v", d.About().ID, teaches, column)
		}
	}
	answers := []struct {
		item   string
		result progress.Result
	}{{"spell/dominant/ukulele", progress.Right}, {"chord-ear/dominant/ukulele", progress.Wrong}}
	for _, a := range answers {
		if err := p.File().Record(progress.Answer{Item: a.item, Drill: progress.DrillOf(a.item), At: *now, Result: a.result, Took: time.Second}); err != nil {
			t.Fatal(err)
		}
	}
	m, err := p.KindMap()
	if err != nil {
		t.Fatal(err)
	}
	if len(m.Rows) < 15 {
		t.Errorf("%d kinds", len(m.Rows))
	}
	if got := m.Rows[0]; got.Name.Screen() != "seventh" || !slices.Equal(got.Grasps, []Grasp{Shaky, Unmet, Unmet, Unmet, Met}) {
		t.Errorf("%v: %v", got.Name, got.Grasps)
	}
	if words := m.Words(); words[0].Aloud() != "Seventh: hear shaky, spell met." {
		t.Errorf("%q", words[0].Aloud())
	}
}
