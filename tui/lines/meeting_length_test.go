package lines

import (
	"context"
	"strings"
	"testing"
	"time"

	"sparetone/drills"
	"sparetone/drills/catalogue"
	"sparetone/drills/inturn"
	"sparetone/drills/meet"
	"sparetone/drills/neck"
	"sparetone/tui/page/asking"
)

// longestMeeting is how long one thing that is new takes at the most, from its first word to when its question may come (as decided).
const longestMeeting = 20 * time.Second

// toSay is how long a word takes to say at the rate to which those who use screen readers set them at the least, 240 words a minute (from memory).
const toSay = time.Minute / 240

// No meeting takes longer than twenty seconds in lines: all that is said of it, and then its sounds. Words of the trade, each explained
// once, and what can be typed, said once a practice, come on top.
func TestMeetingsAreShort(t *testing.T) {
	var longest, sum time.Duration
	met := 0
	for _, name := range []string{"ukulele", "guitar"} {
		a := newAnswering(t, "shape-name", name, 1)
		on := a.Session.On()
		takes := func(shown meet.Meeting) {
			m := &asking.Meeting{Meeting: shown, New: true}
			out := &strings.Builder{}
			r := &reader{Walk: a.Walk, ctx: context.Background(), out: out, place: m}
			r.page(r.PageOf(m))
			for _, l := range m.Under() { // what is asked for is said
				if !strings.Contains(out.String(), l.Aloud()) {
					t.Errorf("%s, %s %s: %q is not said of it:\n%s", name, m.Drill, m.Target, l.Aloud(), out)
				}
			}
			if !m.Ears && (m.Drill == "spell" || m.Drill == "shape-tones") && len(m.Under()) == 0 {
				t.Errorf("%s, %s %s: nothing that is asked for is said of it", name, m.Drill, m.Target)
			}
			words := len(strings.Fields(out.String()))
			sound := inturn.Lasts(m.Opening())
			takes := time.Duration(words)*toSay + sound
			if takes > longestMeeting {
				t.Errorf("%s, %s %s: %d words and %.1f s of sound take %.1f s:\n%s", name, m.Drill, m.Target, words, sound.Seconds(), takes.Seconds(), out)
			}
			longest, sum, met = max(longest, takes), sum+takes, met+1
		}
		for _, d := range catalogue.All() {
			if meet.AsksAnotherBass(d, on) {
				shown, err := meet.New(d, meet.AnotherBass, on)
				if err != nil {
					t.Fatal(err)
				}
				takes(shown)
			}
			for _, target := range d.Targets(on) {
				shown, err := meet.New(d, target.ID, on)
				if err != nil {
					t.Fatal(err)
				}
				takes(shown)
				for _, shown := range beforeFirst(t, d, target, on) {
					takes(shown)
				}
			}
		}
	}
	t.Logf("%d meetings take %.1f s, and at the most %.1f s", met, (sum / time.Duration(met)).Seconds(), longest.Seconds())
}

// firstsAsked is how many questions of each thing are made, to see what is shown before them: its first, one that comes later, and so on.
const firstsAsked = 4

// beforeFirst is what is shown before some questions of a target on its first rung, where that is made of the question itself.
func beforeFirst(t *testing.T, d drills.Drill, target drills.Target, on *neck.Instrument) (shown []meet.Meeting) {
	t.Helper()
	form, _ := catalogue.AtRung(on, d.About().ID, target.ID, 1)
	for seed := range uint64(firstsAsked) {
		q, err := d.Ask(drills.Request{Target: target.ID, On: on, First: seed%2 == 0, Reach: form.Reach, Clarity: form.Clarity, Rand: drills.QuestionRand(d.About().ID, target.ID, seed)})
		if err != nil {
			t.Fatal(err)
		}
		if q.Instead == nil {
			continue
		}
		m, err := meet.Before(q, d, target.ID, on)
		if err != nil {
			t.Fatal(err)
		}
		m.Known = seed%2 != 0
		shown = append(shown, m)
	}
	return shown
}
