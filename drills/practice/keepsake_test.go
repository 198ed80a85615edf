package practice

import (
	"slices"
	"testing"

	"sparetone/drills"
	"sparetone/drills/course"
	"sparetone/progress"
)

// What is heard again at the end was asked: new things that came right before others, of each drill one before a second.
func TestKeepsakes(t *testing.T) {
	p, _ := appOf(t)
	way := Way{Course: course.Course{
		{ID: "kinds", Drill: "chord-ear", Asks: []string{"major", "minor"}},
		{ID: "intervals", Drill: "interval-ear", Asks: []string{"P8", "P5"}},
		{ID: "names", Drill: "shape-name", Asks: []string{"major", "minor"}},
	}}
	p.Setup.Silent = false
	if err := p.Begin(way); err != nil {
		t.Fatal(err)
	}
	right := map[string]bool{}
	sounded := map[string]int{}
	for range 12 {
		q, err := p.Next()
		if err != nil || q == nil {
			t.Fatal(q, err)
		}
		text := q.Expected().Typed
		if len(right) > 0 && q.Number%3 == 0 {
			text = drills.Unknown
		}
		v, err := p.Answer(q, text)
		if v.Result == 0 {
			t.Fatal(err)
		}
		name, sounds := p.soundOf(p.answers[len(p.answers)-1])
		right[name.Screen()] = right[name.Screen()] || v.Result == progress.Right
		sounded[name.Screen()] = len(sounds)
	}
	kept := p.Keepsakes()
	if len(kept) != mostKeepsakes {
		t.Fatalf("%d sounds", len(kept))
	}
	names := map[string]bool{}
	for _, k := range kept {
		if n := k.Name.Screen(); !right[n] || names[n] || len(k.Sounds) == 0 || len(k.Sounds) != sounded[n] {
			t.Errorf("%s: right %v, there already %v, %d sounds", n, right[n], names[n], len(k.Sounds))
		}
		names[k.Name.Screen()] = true
	}
	drillsOf := map[string]bool{}
	for _, a := range p.answers {
		if name, _ := p.soundOf(a); names[name.Screen()] {
			drillsOf[a.Drill] = true
		}
	}
	if len(drillsOf) < 3 {
		t.Errorf("of three drills %v are heard", drillsOf)
	}
}

// The chord of the day is of what was practised, or of what was met; it is another one tomorrow.
func TestChordOfTheDay(t *testing.T) {
	p, now := appOf(t)
	if _, ok := p.Takeaway(); ok {
		t.Error("there is a chord before any was met")
	}
	for _, kind := range []string{"major", "added-ninth"} {
		item := drills.ItemID("chord-ear", kind, "ukulele")
		if err := p.File().Record(progress.Answer{Item: item, Drill: "chord-ear", At: *now, Result: progress.Right}); err != nil {
			t.Fatal(err)
		}
	}
	seen := map[string]bool{}
	for range 3 {
		a, ok := p.Takeaway()
		if !ok || a.Swap == nil || a.Chord().Kind.ID != "added-ninth" {
			t.Fatalf("%v, %v", a, ok)
		}
		seen[a.Chord().String()] = true
		*now = now.AddDate(0, 0, 1)
	}
	if len(seen) < 2 {
		t.Errorf("three days have %v", seen)
	}
}

// Before any colour was met the chord of the day is a shape that was shown in the session, on whatever day that is.
func TestPlainChordOfTheDayWasShown(t *testing.T) {
	p, now := appOf(t)
	way := Way{Course: course.Course{{ID: "names", Drill: "shape-name", Asks: []string{"major", "minor"}}}}
	if err := p.Begin(way); err != nil {
		t.Fatal(err)
	}
	q, err := p.Next()
	if err != nil || q == nil {
		t.Fatal(q, err)
	}
	if v, err := p.Answer(q, q.Expected().Typed); v.Result != progress.Right {
		t.Fatal(v.Result, err)
	}
	for range 9 {
		if a, ok := p.Takeaway(); !ok || !slices.Equal(a.Plain.Shape, q.Shown.Shape) {
			t.Errorf("%v was shown, and to be taken is %v", q.Shown.Shape, a.Plain.Shape)
		}
		*now = now.AddDate(0, 0, 1)
	}
}

// A sound of one chord goes by its name, also where a plain chord is heard before it.
func TestKeepsakesOfOneChordAreCalledByIt(t *testing.T) {
	p, _ := appOf(t)
	p.Setup.Silent = false
	if err := p.Begin(Way{Course: course.Course{{ID: "kinds", Drill: "chord-ear", Asks: []string{"major", "minor"}}}}); err != nil {
		t.Fatal(err)
	}
	q, err := p.Next()
	if err != nil || q == nil {
		t.Fatal(q, err)
	}
	if _, err := p.Answer(q, q.Expected().Typed); err != nil {
		t.Fatal(err)
	}
	a := p.answers[0]
	if name, sounds := p.soundOf(a); len(sounds) != 2 || name.Screen() != a.AskedShapes()[0].Voicing.Chord.String() {
		t.Errorf("%d sounds are called %q, and %v was asked", len(sounds), name, a.AskedShapes()[0].Voicing.Chord)
	}
}

// What is heard again at the end is about different things, as long as there are any: not the sixth that comes in, and then the sixth by
// moving one string.
func TestKeepsakesAreAboutDifferentThings(t *testing.T) {
	p, _ := appOf(t)
	p.Setup.Silent = false
	if err := p.Begin(Way{Course: course.Course{
		{ID: "octave", Drill: "interval-ear", Asks: []string{"P8"}},
		{ID: "joins", Drill: "added-ear", Asks: []string{"major-sixth"}},
		{ID: "moved", Drill: "swap", Asks: []string{"major-sixth"}},
		{ID: "fifth", Drill: "chord-ear", Asks: []string{"major"}},
	}}); err != nil {
		t.Fatal(err)
	}
	asked := map[drills.Topic]bool{}
	for range 12 {
		q, err := p.Next()
		if err != nil || q == nil {
			break
		}
		if _, err := p.Answer(q, q.Expected().Typed); err != nil {
			t.Fatal(err)
		}
		asked[p.topicOf(q.Item)] = true
	}
	about := map[drills.Topic]bool{}
	for _, k := range p.Keepsakes() {
		for _, a := range p.answers {
			if name, _ := p.soundOf(a); name.Screen() == k.Name.Screen() {
				about[p.topicOf(a.Item)] = true
			}
		}
	}
	if len(asked) < mostKeepsakes || len(about) < mostKeepsakes {
		t.Errorf("asked about %v, heard again about %v", asked, about)
	}
}
