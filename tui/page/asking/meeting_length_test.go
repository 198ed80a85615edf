package asking

import (
	"strings"
	"testing"
	"time"

	"sparetone/drills"
	"sparetone/drills/catalogue"
	"sparetone/drills/inturn"
	"sparetone/drills/meet"
	"sparetone/drills/neck"
	"sparetone/theory/say"
	"sparetone/tui/page"
)

// longestMeeting is how long one thing that is new takes at the most, from when it shows to when its question may come (as decided).
const longestMeeting = 20 * time.Second

// No meeting takes longer than twenty seconds on the screen: its sentences read at the silent rate, and then its sounds.
func TestMeetingsAreShort(t *testing.T) {
	var longest, sum time.Duration
	met := 0
	for _, name := range []string{"ukulele", "guitar"} {
		on, err := neck.NewInstrument(name, 0, "")
		if err != nil {
			t.Fatal(err)
		}
		for _, d := range catalogue.All() {
			targets := d.Targets(on)
			if meet.AsksAnotherBass(d, on) {
				targets = append(targets, drills.Target{ID: meet.AnotherBass})
			}
			for _, target := range targets {
				shown, err := meet.New(d, target.ID, on)
				if err != nil {
					t.Fatal(err)
				}
				m := &Meeting{Meeting: shown, New: true}
				words := 0
				for _, b := range m.sentences() {
					switch b := b.(type) {
					case page.Sentence:
						words += len(strings.Fields(b.Text.Screen()))
					case page.Seen:
						words += len(strings.Fields(b.Text.Screen()))
					}
				}
				words += len(strings.Fields(m.Moved().Screen()))
				takes := page.GoesAfter(words, nil).Seen + inturn.Lasts(m.Opening())
				if takes > longestMeeting {
					t.Errorf("%s, %s %s: %d words and %.1f s of sound take %.1f s", name, d.About().ID, target.ID, words, inturn.Lasts(m.Opening()).Seconds(), takes.Seconds())
				}
				longest, sum, met = max(longest, takes), sum+takes, met+1
			}
		}
	}
	t.Logf("%d meetings take %.1f s, and at the most %.1f s", met, (sum / time.Duration(met)).Seconds(), longest.Seconds())
}

// Of what was asked before, in other shapes, a meeting says no more than what they are of.
func TestMoreShapesAreSaidBriefly(t *testing.T) {
	on, err := neck.NewInstrument("ukulele", 0, "")
	if err != nil {
		t.Fatal(err)
	}
	d, _ := catalogue.ByID("shape-name")
	shown, err := meet.New(d, "major", on)
	if err != nil {
		t.Fatal(err)
	}
	for known, want := range map[bool]string{
		false: "Something new, to be known by its shape:|Major|Something new, to be known by its shape: major.|It sounds bright and at rest, and could end a song.|To be told from: minor.|",
		true:  "More shapes, before they are asked:|Major and minor|More shapes: major and minor.|",
	} {
		m := &Meeting{Meeting: shown, New: true}
		m.Known = known
		said := ""
		for _, b := range m.sentences() {
			switch b := b.(type) {
			case page.Sentence:
				said += b.Text.Screen()
			case page.Seen:
				said += b.Text.Screen()
			case page.Aloud:
				said += say.Text(b).Screen()
			}
			said += "|"
		}
		if said != want {
			t.Errorf("known %v: %s", known, said)
		}
		if own, all := m.Opening(), len(m.Looks()); known != (len(own) < all) {
			t.Errorf("known %v: %d of %d sounds by themselves", known, len(own), all)
		}
	}
}
