package lines

import (
	"context"
	"strings"
	"testing"
	"time"

	"sparetone/drills/course"
	"sparetone/drills/meet"
	"sparetone/drills/practice"
	"sparetone/drills/practice/session"
	"sparetone/drills/practice/setting"
	"sparetone/progress/store"
	"sparetone/synth/playback"
	"sparetone/theory/say"
	"sparetone/tui/page/asking"
	"sparetone/tui/page/home"
	"sparetone/tui/page/player"
)

// No line of a beginner's first sessions uses a word of the trade that was not explained: before, or on the same page.
func TestNoWordBeforeItIsExplained(t *testing.T) {
	for _, instrument := range player.InstrumentsRead() {
		at := time.Date(2026, 5, 4, 18, 0, 0, 0, time.UTC)
		file, err := store.InMemory(func() time.Time { return at })
		if err != nil {
			t.Fatal(err)
		}
		defer file.Close()
		settings := setting.Read(file)
		settings.Tuning = instrument
		explained := map[string]bool{}
		for n := range player.SessionsRead(3) {
			p := practice.App{
				Setup:    session.Setup{File: file, Course: course.BuiltIn(), Length: 10 * time.Minute, Seed: uint64(n), Now: func() time.Time { return at }},
				Settings: settings, Speaker: ready{playback.None(playback.StartVolume)},
			}
			if err := p.Plan(false); err != nil {
				t.Fatal(err)
			}
			out := &strings.Builder{}
			r := &reader{Walk: home.NewWalk(p), ctx: context.Background(), out: out}
			r.Spoken, r.BeginAtOnce, r.Cautioned = true, true, true
			next := home.Start(r.Walk)
			for asked := 0; ; {
				out.Reset()
				r.apply(next)
				if _, ends := r.place.(*home.Today); ends {
					break
				}
				readPage(t, instrument, out.String(), explained)
				switch place := r.place.(type) {
				case *asking.Question:
					at = at.Add(7 * time.Second)
					asked++
					next = r.take(answered(place, asked))
				default:
					at = at.Add(4 * time.Second)
					if out.Reset(); strings.Contains(strings.Join(r.Help(place), " "), "why") {
						r.apply(r.take("why"))
						readPage(t, instrument, out.String(), explained)
					}
					next = r.take("")
				}
			}
			at = at.Add(23 * time.Hour)
		}
		if len(explained) < 15 {
			t.Errorf("%s: only %v were explained", instrument, explained)
		}
	}
}

// answered answers right, but for one question of five.
func answered(q *asking.Question, n int) string {
	if n%5 == 0 {
		for _, c := range q.Asked.Choices {
			if c.ID != q.Asked.Expected().ID {
				return c.Typed
			}
		}
	}
	return q.Asked.Expected().Typed
}

// readPage reads what was said of a page: it explains words, and uses no others but those.
func readPage(t *testing.T, instrument, text string, explained map[string]bool) {
	t.Helper()
	said := say.Of("{}", say.Foreign(text))
	used := meet.Terms(said)
	for _, term := range used {
		if strings.Contains(text, term.Means.Aloud()) {
			explained[term.ID] = true
		}
	}
	for _, term := range used {
		if !explained[term.ID] {
			t.Errorf("%s: %s is not explained before\n%s", instrument, term.ID, text)
			explained[term.ID] = true
		}
	}
}

// ready is a speaker that plays to nobody.
type ready struct{ playback.Speaker }

func (ready) State() (playback.State, string) { return playback.Ready, "" }
